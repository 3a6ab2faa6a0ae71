"""Where a box can be nailed: beside the members of a wall, clear of openings, wet areas and other boxes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from setday.house import FramingMember, House, MemberKind, Span, Surface, TypedReserve, Wall
from setday.measure import Length
from setday.rules import RuleBook

__all__ = ["BoxPlace", "Boxes", "length", "nearest"]

_UPRIGHT = (
    MemberKind.STUD,
    MemberKind.END_STUD,
    MemberKind.CORNER,
    MemberKind.PARTITION,
    MemberKind.KING,
    MemberKind.JACK,
    MemberKind.CRIPPLE,
)
_BAR_STEP = 1.0
"""Places between studs, on a bar, are looked for at every inch [in]; our own."""
_PLAY = 1 / 128

Rectangle = tuple[float, float, float, float]
"""On a wall: from and to along it, bottom and top [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxPlace:
    """A place for a box on a wall.

    Parameters
    ----------
    wall, side : str
    along, up : float
        Centre, along the wall's framing and above the subfloor [in].
    x : float
        Centre on the surface it was looked for on, or `along` where there is none [in].
    on_bar : bool
        True when no member stands beside it.
    """

    wall: str
    side: str
    along: float
    up: float
    x: float
    on_bar: bool


@dataclass(slots=True)
class Boxes:
    """The boxes put so far, and where more can go."""

    house: House
    rules: RuleBook
    taken: dict[str, list[Rectangle]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for wall in self.house.walls:
            kept = [_of_wall(wall, reserve) for reserve in self.house.reserves]
            self.taken[wall.name] = [each for each in kept if each is not None]

    def half_width(self, gangs: int = 1) -> float:
        """Return half the width of a box [in]."""
        return self.house.boxes.wide(gangs) / 2

    @property
    def half_height(self) -> float:
        """Half the height of a box [in]."""
        return self.house.boxes.tall / 2

    def take(self, wall: str, along: float, up: float, *, gangs: int = 1) -> None:
        """Keep a place from being used twice, from either side of the wall."""
        half, high = self.half_width(gangs), self.half_height
        self.taken.setdefault(wall, []).append((along - half, along + half, up - high, up + high))

    def on_surface(
        self, surface: Surface, low: float, high: float, *, up: float, gangs: int = 1, bars: bool = False
    ) -> list[BoxPlace]:
        """Return the places on a stretch of a surface, from left to right.

        Parameters
        ----------
        surface : Surface
        low, high : float
            The stretch [in].
        up : float
            Centre above the subfloor [in].
        gangs : int
        bars : bool
            Also places between studs.
        """
        clear = max(self.rules.length("cable.corner_clear").inches, self.half_width(gangs))
        width = surface.width.inches
        found = []
        for span in surface.spans:
            if span.side not in ("left", "right"):
                continue
            wall = self.house.wall(span.wall)
            left = max(low + self.half_width(gangs), span.x.inches + clear, clear)
            right = min(high - self.half_width(gangs), (span.x + span.width).inches - clear, width - clear)
            ends = sorted((_along(span, left), _along(span, right)))
            for along, on_bar in self._free(wall, ends[0], ends[1], up=up, gangs=gangs, bars=bars):
                x = _x(span, along)
                if left > right or self._wet(surface, x, up, gangs):
                    continue
                found.append(BoxPlace(wall=span.wall, side=span.side, along=along, up=up, x=x, on_bar=on_bar))
        return sorted(found, key=lambda place: place.x)

    def on_wall(
        self, wall: Wall, side: str, low: float, high: float, *, up: float, bars: bool = False
    ) -> list[BoxPlace]:
        """Return the places on a stretch of a wall, by wall coordinates: for the outside of the house."""
        return [
            BoxPlace(wall=wall.name, side=side, along=along, up=up, x=along, on_bar=on_bar)
            for along, on_bar in self._free(wall, low, high, up=up, gangs=1, bars=bars)
        ]

    def _free(
        self, wall: Wall, low: float, high: float, *, up: float, gangs: int, bars: bool
    ) -> Iterator[tuple[float, bool]]:
        half = self.half_width(gangs)
        beside = {
            edge
            for member in wall.members
            if member.kind in _UPRIGHT and _reaches(member, up)
            for edge in (member.left.inches - half, member.right.inches + half)
        }
        on_bars = {low + _BAR_STEP * n for n in range(int((high - low) / _BAR_STEP) + 1)} if bars else set()
        for along in sorted(beside | on_bars):
            if low - _PLAY <= along <= high + _PLAY and self._clear(wall, along, up, gangs):
                yield along, along not in beside

    def _clear(self, wall: Wall, along: float, up: float, gangs: int) -> bool:
        half, high = self.half_width(gangs), self.half_height
        box = (along - half, along + half, up - high, up + high)
        apart = self.rules.length("cable.box_apart").inches
        return not (
            any(_overlap(box, _shape(member)) for member in wall.members)
            or any(
                _overlap(box, (o.along.inches, (o.along + o.width).inches, o.sill.inches, o.head.inches))
                for o in wall.openings
            )
            or any(
                _overlap((box[0] - apart, box[1] + apart, box[2] - apart, box[3] + apart), other)
                for other in self.taken.get(wall.name, ())
            )
        )

    def _wet(self, surface: Surface, x: float, up: float, gangs: int) -> bool:
        half, high = self.half_width(gangs), self.half_height
        box = (x - half, x + half, up - high, up + high)
        return any(
            _overlap(box, (p.x.inches, (p.x + p.w).inches, p.y.inches, (p.y + p.h).inches))
            for p in surface.wet
        )


def _of_wall(wall: Wall, reserve: TypedReserve) -> Rectangle | None:
    """Return what a space kept for another trade takes of the inside of a wall."""
    run, half = wall.length.inches, wall.kind.depth.inches / 2
    ux = (wall.end.x - wall.start.x).inches / run
    uy = (wall.end.y - wall.start.y).inches / run
    corners = [
        (x.inches - wall.start.x.inches, y.inches - wall.start.y.inches)
        for x in (reserve.corner.x, reserve.corner.x + reserve.east)
        for y in (reserve.corner.y, reserve.corner.y + reserve.north)
    ]
    along = [dx * ux + dy * uy for dx, dy in corners]
    across = [dy * ux - dx * uy for dx, dy in corners]
    inside = min(across) < half - _PLAY and max(across) > -half + _PLAY
    if not inside or min(along) >= run or max(along) <= 0:
        return None
    return (min(along), max(along), reserve.bottom.inches, reserve.top.inches)


def nearest(places: Iterable[BoxPlace], x: float) -> BoxPlace | None:
    """Return the place nearest to `x`, one at a stud before one on a bar at the same distance."""
    return min(places, key=lambda p: (round(abs(p.x - x), 3), p.on_bar, p.x), default=None)


def length(inches: float) -> Length:
    """Return a length on the sixty-fourths nearest to so many inches."""
    return Length(round(inches * 64))


def _along(span: Span, x: float) -> float:
    ahead = x - span.x.inches
    return span.along.inches + (ahead if span.forward else -ahead)


def _x(span: Span, along: float) -> float:
    ahead = along - span.along.inches
    return span.x.inches + (ahead if span.forward else -ahead)


def _reaches(member: FramingMember, up: float) -> bool:
    return member.bottom.inches <= up <= max(member.top_left, member.top_right).inches


def _shape(member: FramingMember) -> Rectangle:
    top = max(member.top_left, member.top_right).inches
    return (member.left.inches, member.right.inches, member.bottom.inches, top)


def _overlap(a: Rectangle, b: Rectangle) -> bool:
    return a[0] < b[1] - _PLAY and b[0] < a[1] - _PLAY and a[2] < b[3] - _PLAY and b[2] < a[3] - _PLAY
