"""What a wall's framing leaves to cables: heights to bore at, places to go up and down, what bars the way.

All places are whole sixty-fourths of an inch: `along` from the start of the wall's framing, `up` from the
subfloor.  Level ways go through bored uprights at few heights only; ways up and down follow a stud's side
anywhere in the wall.  Nothing goes through an opening, a header, a sill or a reserved space.
"""

from bisect import bisect_right
from dataclasses import dataclass
from math import hypot

from setday.cable.routes.route_rules import RouteRules
from setday.house import FramingMember, MemberKind, TypedReserve, Wall

__all__ = ["LYING", "Barrier", "WallWays", "wall_ways"]

LYING = frozenset({MemberKind.HEADER, MemberKind.SILL, MemberKind.BOTTOM_PLATE, MemberKind.TOP_PLATE})
"""Members that lie; all others stand and may be bored from side to side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Barrier:
    """A part of a wall's elevation that no cable enters [1/64 in], and what it is in words."""

    left: int
    right: int
    low: int
    high: int
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallWays:
    """One wall as cables see it.

    Parameters
    ----------
    wall : Wall
    barriers : tuple of Barrier
    heights : tuple of int
        Where level ways may be bored, the chosen height among them.
    base, plates : int
        Thickness of the plates below and above.
    end_wood : int
        Least wood between a level hole and what lies above or below it.
    borable : bool
        False where its studs are too shallow for the bit.
    """

    wall: Wall
    barriers: tuple[Barrier, ...]
    heights: tuple[int, ...]
    base: int
    plates: int
    end_wood: int
    borable: bool

    @property
    def run(self) -> int:
        """Length of the framing."""
        return self.wall.length.sixtyfourths

    def plan(self, along: int) -> tuple[int, int]:
        """Return the plan point on the centre line."""
        x, y = self.wall.start.x.sixtyfourths, self.wall.start.y.sixtyfourths
        dx, dy = self.wall.end.x.sixtyfourths - x, self.wall.end.y.sixtyfourths - y
        long = hypot(dx, dy) or 1.0
        return round(x + dx / long * along), round(y + dy / long * along)

    def top(self, along: int) -> int:
        """Return the height of the top plate's top; level beyond the ends."""
        points = [(a.sixtyfourths, h.sixtyfourths) for a, h in self.wall.top]
        n = bisect_right([a for a, _ in points], along)
        if n == 0 or n == len(points):
            return points[min(n, len(points) - 1)][1]
        (a, low), (b, high) = points[n - 1], points[n]
        return round(low + (high - low) * (along - a) / (b - a))

    def level_free(self, a: int, b: int, *, up: int) -> bool:
        """Tell whether a level way from `a` to `b` meets neither plates nor anything in its way."""
        left, right = min(a, b), max(a, b)
        under = min(self.top(left), self.top(right)) - self.plates
        if not self.borable or not self.base + self.end_wood <= up <= under - self.end_wood:
            return False
        near = self.end_wood
        return not any(
            bar.left < right and bar.right > left and bar.low - near < up < bar.high + near
            for bar in self.barriers
        )

    def upright_free(self, along: int, low: int, high: int) -> bool:
        """Tell whether a way up and down meets nothing but plates, which it is bored through."""
        return not any(
            bar.left < along < bar.right and bar.low < high and bar.high > low for bar in self.barriers
        )

    def barrier_at(self, along: int, up: int) -> Barrier | None:
        """Return what a place on the elevation lies inside of."""
        for bar in self.barriers:
            if bar.left < along < bar.right and bar.low < up < bar.high:
                return bar
        return None

    def bored(self, a: int, b: int, *, up: int) -> tuple[FramingMember, ...]:
        """Return the standing members whose middles lie between two places, at a height."""
        left, right = min(a, b), max(a, b)
        return tuple(
            member
            for member in self.wall.members
            if member.kind not in LYING
            and left < member.center.sixtyfourths < right
            and member.bottom.sixtyfourths <= up <= max(member.top_left, member.top_right).sixtyfourths
        )

    def plates_between(self, along: int, low: int, high: int) -> tuple[FramingMember, ...]:
        """Return the plates that a way up and down passes through."""
        return tuple(
            member
            for member in self.wall.members
            if member.kind in (MemberKind.BOTTOM_PLATE, MemberKind.TOP_PLATE)
            and member.left.sixtyfourths <= along <= member.right.sixtyfourths
            and low < _middle(member, along) < high
        )


def wall_ways(wall: Wall, rules: RouteRules, reserves: tuple[TypedReserve, ...]) -> WallWays:
    """Return what a wall leaves to cables.

    Parameters
    ----------
    wall : Wall
    rules : RouteRules
    reserves : tuple of TypedReserve
        Of the whole house; those that reach into the wall bar the way.
    """
    barriers = (*_lying(wall), *_openings(wall), *_reserved(wall, reserves))
    base = max(
        (m.top_left.sixtyfourths for m in wall.members if m.kind is MemberKind.BOTTOM_PLATE), default=0
    )
    first = min((m.left for m in wall.members if m.kind is MemberKind.TOP_PLATE), default=None)
    lowest = min(
        (m.bottom.sixtyfourths for m in wall.members if m.kind is MemberKind.TOP_PLATE and m.left == first),
        default=wall.top[0][1].sixtyfourths,
    )
    ways = WallWays(
        wall=wall,
        barriers=barriers,
        heights=(),
        base=base,
        plates=wall.top[0][1].sixtyfourths - lowest,
        end_wood=rules.end_wood,
        borable=rules.bore_through(wall) is None,
    )
    return WallWays(
        wall=wall,
        barriers=barriers,
        heights=_heights(ways, rules),
        base=base,
        plates=ways.plates,
        end_wood=rules.end_wood,
        borable=ways.borable,
    )


def _middle(plate: FramingMember, along: int) -> float:
    """Return the height of a plate's middle, near enough to tell which side of it a place lies."""
    left, right = plate.left.sixtyfourths, plate.right.sixtyfourths
    rise = plate.top_right.sixtyfourths - plate.top_left.sixtyfourths
    thick = plate.top_left.sixtyfourths - plate.bottom.sixtyfourths
    share = (along - left) / (right - left) if right > left else 0.0
    return plate.top_left.sixtyfourths + rise * share - thick / 2


def _lying(wall: Wall) -> list[Barrier]:
    return [
        Barrier(
            left=m.left.sixtyfourths,
            right=m.right.sixtyfourths,
            low=m.bottom.sixtyfourths,
            high=m.top_left.sixtyfourths,
            what=f"the {m.kind.value} of '{_opening_at(wall, m)}'",
        )
        for m in wall.members
        if m.kind in (MemberKind.HEADER, MemberKind.SILL)
    ]


def _opening_at(wall: Wall, member: FramingMember) -> str:
    middle = member.center
    return next((o.name for o in wall.openings if o.along <= middle <= o.along + o.width), wall.name)


def _openings(wall: Wall) -> list[Barrier]:
    return [
        Barrier(
            left=o.along.sixtyfourths,
            right=(o.along + o.width).sixtyfourths,
            low=o.sill.sixtyfourths,
            high=o.head.sixtyfourths,
            what=f"opening '{o.name}'",
        )
        for o in wall.openings
    ]


def _reserved(wall: Wall, reserves: tuple[TypedReserve, ...]) -> list[Barrier]:
    found = []
    for reserve in reserves:
        inside = _clipped(wall, reserve)
        if inside is not None and "electric" not in reserve.trade:
            left, right = inside
            low, high = reserve.bottom.sixtyfourths, reserve.top.sixtyfourths
            what = f"the space reserved for '{reserve.name}'"
            found.append(Barrier(left=left, right=right, low=low, high=high, what=what))
    return found


def _clipped(wall: Wall, box: TypedReserve) -> tuple[int, int] | None:
    """Return the stretch of a wall's centre line inside a box on the plan."""
    x, y = wall.start.x.sixtyfourths, wall.start.y.sixtyfourths
    run = wall.length.sixtyfourths
    ux = (wall.end.x.sixtyfourths - x) / run
    uy = (wall.end.y.sixtyfourths - y) / run
    low, high = 0.0, float(run)
    for at, toward, edge, width in (
        (x, ux, box.corner.x.sixtyfourths, box.east.sixtyfourths),
        (y, uy, box.corner.y.sixtyfourths, box.north.sixtyfourths),
    ):
        if abs(toward) < 1e-9:
            if not edge < at < edge + width:
                return None
            continue
        near, far = sorted(((edge - at) / toward, (edge + width - at) / toward))
        low, high = max(low, near), min(high, far)
    return (round(low), round(high)) if high - low >= 1 else None


def _heights(ways: WallWays, rules: RouteRules) -> tuple[int, ...]:
    """Return the heights to bore at: the chosen one, and those that pass over and under what bars it."""
    chosen = rules.hole_height
    found = {chosen}
    for bar in ways.barriers:
        if bar.low - ways.end_wood < chosen < bar.high + ways.end_wood:
            found |= _around(ways, (bar.left + bar.right) // 2, rules)
    return tuple(sorted(found))


def _around(ways: WallWays, along: int, rules: RouteRules) -> set[int]:
    """Return a height in every gap over and under what bars the chosen one at a place."""
    under = ways.top(along) - ways.plates
    there = sorted(
        ((bar.low, bar.high) for bar in ways.barriers if bar.left <= along <= bar.right),
        key=lambda gap: gap[0],
    )
    found, floor = set(), ways.base
    for low, high in [*there, (under, under)]:
        gap = low - floor
        if gap >= rules.least_gap:
            near = min(gap // 2, rules.over_header)
            found.add(floor + near if floor >= rules.hole_height else low - near)
        floor = max(floor, high)
    return found
