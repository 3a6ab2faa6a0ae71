"""Which surfaces close the same wall from its two sides."""

from dataclasses import dataclass

from setday.closein.item import Item
from setday.house import House, Span, Surface
from setday.measure import ZERO

__all__ = ["Cavities"]

_CORNER = 8.0
"""So much longer one side of a partition may be at a corner: a wall and its board stand there [in]; ours."""
_OPPOSITE = {"left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class Cavities:
    """The walls of a house as rooms between two surfaces.

    `faces` maps the id of each surface to the stretches of walls it covers.
    """

    faces: dict[str, tuple[Span, ...]]

    @classmethod
    def of(cls, house: House) -> "Cavities":
        """Return the cavities of a house.

        Parameters
        ----------
        house : House
        """
        return cls({surface.id: _stretches(surface) for surface in house.surfaces})

    def other_sides(self, surface: str) -> tuple[str, ...]:
        """Return the surfaces that close the same walls from the other side.

        Parameters
        ----------
        surface : str
            Id of a surface.
        """
        own = self.faces.get(surface, ())
        return tuple(
            other
            for other, spans in self.faces.items()
            if other != surface and any(_shared(a, b) > 0 for a in own for b in spans)
        )

    def behind(self, surface: str, item: Item) -> bool:
        """Tell whether an item of the other side stands in the wall behind this surface.

        Parameters
        ----------
        surface : str
        item : Item
            Of another surface; one without a place on it is nowhere behind this one.
        """
        if not item.thing or item.spot is None:
            return False
        low, high = item.spot.x.inches, (item.spot.x + (item.spot.w or ZERO)).inches
        return any(
            _meets(span, low, high, face)
            for span in self.faces.get(item.surface, ())
            for face in self.faces.get(surface, ())
        )

    def covers(self, surface: str, other: str) -> bool:
        """Tell whether whoever looks at the framing from one surface sees all that is behind another.

        Parameters
        ----------
        surface : str
            From where one looks.
        other : str
            The surface on the other side.
        """
        spans = self.faces.get(other, ())
        own = self.faces.get(surface, ())
        return bool(spans) and all(
            any(_shared(face, span) >= span.width.inches - _CORNER for face in own) for span in spans
        )


def _stretches(surface: Surface) -> tuple[Span, ...]:
    return tuple(span for span in surface.spans if span.side in _OPPOSITE)


def _ends(span: Span) -> tuple[float, float]:
    start, wide = span.along.inches, span.width.inches
    return (start, start + wide) if span.forward else (start - wide, start)


def _shared(a: Span, b: Span) -> float:
    """Return how much of a wall two stretches close from its two sides [in]."""
    if a.wall != b.wall or _OPPOSITE[a.side] != b.side:
        return 0.0
    (low_a, high_a), (low_b, high_b) = _ends(a), _ends(b)
    return max(0.0, min(high_a, high_b) - max(low_a, low_b))


def _meets(span: Span, low: float, high: float, face: Span) -> bool:
    """Tell whether a stretch of a surface from `low` to `high` lies behind a stretch of the other side."""
    left, right = max(low, span.x.inches), min(high, (span.x + span.width).inches)
    if right < left or _shared(span, face) <= 0:
        return False
    sign = 1 if span.forward else -1
    ends = sorted(span.along.inches + sign * (x - span.x.inches) for x in (left, right))
    face_low, face_high = _ends(face)
    return ends[0] <= face_high and ends[1] >= face_low
