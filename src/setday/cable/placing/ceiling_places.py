"""Where a box can be fastened over a room: beside a joist or truss, clear of hatches and other boxes."""

from dataclasses import dataclass, field
from math import hypot

from shapely import Point as Spot
from shapely import Polygon
from shapely import box as rectangle

from setday.house import House, Room, Surface, SurfaceKind

__all__ = ["CeilingBoxes", "floor_of", "middle_of"]

_BESIDE = 2.0
"""Centre of a ceiling box from the side of the member it is nailed to [in]; common practice, no source."""
_EDGE = 6.0
"""A ceiling box stays this far from walls and from the edges of a ceiling [in]; our own."""
_APART = 12.0
"""Ceiling boxes stand this far apart at least [in]; our own."""
_PER_INCH = 4
"""Ceiling boxes are placed to the quarter inch; our own."""
_STEP = 6.0
"""Places along a member are looked for at this step [in]; our own."""

Knot = tuple[float, float]


def floor_of(room: Room) -> Polygon:
    """Return the floor of a room on the plan [in]."""
    return Polygon(
        [(p.x.inches, p.y.inches) for p in room.outline],
        [[(p.x.inches, p.y.inches) for p in ring] for ring in room.holes],
    )


def middle_of(shape: Polygon) -> Knot:
    """Return the middle of a shape: its centroid, or a point inside where that lies outside it."""
    spot = shape.centroid if shape.contains(shape.centroid) else shape.representative_point()
    return (spot.x, spot.y)


@dataclass(slots=True)
class CeilingBoxes:
    """The ceiling boxes put so far, and where more can go."""

    house: House
    taken: list[Knot] = field(default_factory=list)

    def put(self, room: str, wanted: Knot, *, apart: float = _APART) -> Knot | None:
        """Take the place over a room nearest to a point, beside a member where there is one.

        Parameters
        ----------
        room : str
        wanted : tuple of float
            Plan point [in].
        apart : float
            Least distance from other ceiling boxes [in].

        Returns
        -------
        tuple of float or None
            Plan point on the quarter inch; None where no ceiling is over the room.
        """
        free = [
            spot
            for surface in self.house.surfaces
            if surface.room == room and surface.kind is SurfaceKind.CEILING
            for spot in _places(surface)
            if all(hypot(spot[0] - x, spot[1] - y) >= apart for x, y in self.taken)
        ]
        if not free:
            return None
        best = min(free, key=lambda s: (round(hypot(s[0] - wanted[0], s[1] - wanted[1]), 3), s))
        self.taken.append(best)
        return best


def _places(surface: Surface) -> list[Knot]:
    outline = Polygon([(x.inches, y.inches) for x, y in surface.outline])
    clear = outline.buffer(-_EDGE)
    for hole in surface.openings:
        low_x, low_y = hole.x.inches - _EDGE, hole.y.inches - _EDGE
        clear = clear.difference(
            rectangle(low_x, low_y, low_x + hole.w.inches + 2 * _EDGE, low_y + hole.h.inches + 2 * _EDGE)
        )
    if clear.is_empty:
        clear = outline.buffer(-_EDGE / 6)
    spots = [(x, y) for x in _beside(surface) for y in _steps(surface) if clear.contains(Spot(x, y))]
    if not spots:
        spots = [middle_of(outline)]
    return [_on_grid(_plan(surface, spot)) for spot in spots]


def _beside(surface: Surface) -> list[float]:
    """Return how far along x boxes stand beside the members."""
    found = set()
    for member in surface.backing:
        off = member.width.inches / 2 + _BESIDE
        found |= {member.x.inches - off, member.x.inches + off}
    return sorted(found)


def _steps(surface: Surface) -> list[float]:
    middle, half = surface.height.inches / 2, int(surface.height.inches / 2 / _STEP)
    return [middle + _STEP * n for n in range(-half, half + 1)]


def _plan(surface: Surface, spot: Knot) -> Knot:
    (ox, oy), (ax, ay), (bx, by) = surface.plan_origin, surface.plan_x, surface.plan_y
    return (ox + ax * spot[0] + bx * spot[1], oy + ay * spot[0] + by * spot[1])


def _on_grid(spot: Knot) -> Knot:
    return (round(spot[0] * _PER_INCH) / _PER_INCH, round(spot[1] * _PER_INCH) / _PER_INCH)
