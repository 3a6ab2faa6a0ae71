"""The net of all ways that cables may take: wall by wall, over the ceilings, under the floor."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from setday.cable.routes.levels import Levels, levels_of
from setday.cable.routes.meetings import Meeting, meetings
from setday.cable.routes.plane import Box, Plane, plane
from setday.cable.routes.route_rules import RouteRules
from setday.cable.routes.wall_ways import WallWays, wall_ways
from setday.cable.run import Medium, Stop
from setday.house import Axis, CeilingShape, House, MemberKind, Mount

if TYPE_CHECKING:
    from scipy.sparse import csr_array

__all__ = ["BY_LENGTH", "Net", "Spot", "build_net"]

BY_LENGTH = 4096
"""A sixty-fourth of an inch weighs this much; the rest tells ways of one length apart: holes, then steps."""
_A_HOLE = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place of the net [1/64 in]."""

    x: int
    y: int
    up: int
    medium: Medium
    wall: int = -1
    along: int = 0


@dataclass(slots=True, kw_only=True)
class Net:
    """Places and steps between them, while they are laid out and after.

    Parameters
    ----------
    walls : tuple of WallWays
        Those that cables may run in.
    levels : Levels
    spots : list of Spot
        Places in walls and at stops; behind them come the crossings of `over`, then of `below`.
    over, below : Plane
    stops : dict
        Number of each stop's place; those that stand where no way can begin are left out.
    """

    walls: tuple[WallWays, ...]
    levels: Levels
    spots: list[Spot] = field(default_factory=list)
    over: Plane | None = None
    below: Plane | None = None
    stops: dict[str, int] = field(default_factory=dict)
    in_walls: dict[tuple[int, int, int], int] = field(default_factory=dict)
    steps: list[tuple[int, int, int, int]] = field(default_factory=list)
    """From, to, length, holes."""
    drops: list[tuple[int, int, int, int]] = field(default_factory=list)
    """Steps down through the floor, which only some runs may take."""

    def place(self, wall: int, along: int, up: int) -> int:
        """Return the number of a place in a wall, made if it is new."""
        key = (wall, along, up)
        if key not in self.in_walls:
            x, y = self.walls[wall].plan(along)
            self.in_walls[key] = self.add(Spot(x=x, y=y, up=up, medium=Medium.WALL, wall=wall, along=along))
        return self.in_walls[key]

    def add(self, spot: Spot) -> int:
        """Add a place and return its number."""
        self.spots.append(spot)
        return len(self.spots) - 1

    def spot(self, number: int) -> Spot:
        """Return any place by its number."""
        if number < len(self.spots):
            return self.spots[number]
        found, crossing, medium = self.crossing(number)
        x, y, up = found.point(crossing)
        return Spot(x=x, y=y, up=up, medium=medium)

    def crossing(self, number: int) -> tuple[Plane, int, Medium]:
        """Return the plane of a place, its number there, and what the plane is."""
        assert self.over is not None
        assert self.below is not None
        number -= len(self.spots)
        if number < self.over.count:
            return self.over, number, Medium.CEILING
        return self.below, number - self.over.count, Medium.FLOOR

    def matrix(self, *, below: bool) -> "csr_array":
        """Return the steps' weights as a sparse matrix, with or without those through the floor."""
        from scipy.sparse import csr_array

        assert self.over is not None
        assert self.below is not None
        rows = [np.array(self.steps + (self.drops if below else []), dtype=np.int64).reshape(-1, 4)]
        for found, first in (
            (self.over, len(self.spots)),
            (self.below, len(self.spots) + self.over.count),
        ):
            a, b, length = found.steps()
            rows.append(np.stack([a + first, b + first, length, np.zeros_like(a)], axis=1))
        every: NDArray[np.int64] = np.concatenate(rows)
        size = len(self.spots) + self.over.count + self.below.count
        weight = every[:, 2] * BY_LENGTH + every[:, 3] * _A_HOLE + 1
        return csr_array((weight.astype(float), (every[:, 0], every[:, 1])), shape=(size, size))


def build_net(house: House, stops: Sequence[Stop], rules: RouteRules) -> Net:
    """Lay out the net of ways between the stops of a house.

    Parameters
    ----------
    house : House
    stops : sequence of Stop
    rules : RouteRules
    """
    every = tuple(wall_ways(wall, rules, house.reserves) for wall in house.walls)
    open_walls = tuple(ways for ways in every if ways.wall.name not in rules.closed)
    net = Net(walls=open_walls, levels=levels_of(house, every))
    met = meetings(open_walls)
    columns = [_columns(n, ways, stops, met) for n, ways in enumerate(open_walls)]
    for n, ways in enumerate(open_walls):
        _lay_wall(net, n, ways, columns[n], stops, met)
    for meeting in met:
        _join(net, meeting)
    _lay_planes(net, house, stops, rules, columns)
    return net


def _columns(n: int, ways: WallWays, stops: Sequence[Stop], met: Sequence[Meeting]) -> list[int]:
    """Return where ways in a wall go up and down, its meetings with walls that end against it among them."""
    found = {stop.along.sixtyfourths for stop in stops if stop.wall == ways.wall.name}
    for bar in ways.barriers:
        found |= {_beside(ways, bar.left, left=True), _beside(ways, bar.right, left=False)}
    found |= {meeting.through_at for meeting in met if meeting.through == n}
    return sorted(at for at in found if 0 <= at <= ways.run)


def _beside(ways: WallWays, edge: int, *, left: bool) -> int:
    """Return the outer face of the studs that stand against the edge of something in the way."""
    uprights = (MemberKind.HEADER, MemberKind.SILL, MemberKind.CRIPPLE, MemberKind.BOTTOM_PLATE)
    studs = [m for m in ways.wall.members if m.kind not in (*uprights, MemberKind.TOP_PLATE)]
    moved = True
    while moved:
        moved = False
        for stud in studs:
            low, high = stud.left.sixtyfourths, stud.right.sixtyfourths
            if low < edge <= high if left else low <= edge < high:
                edge, moved = (low if left else high), True
    return edge


def _lay_wall(
    net: Net, n: int, ways: WallWays, columns: list[int], stops: Sequence[Stop], met: Sequence[Meeting]
) -> None:
    for along in columns:
        ups = {0, ways.top(along), *ways.heights}
        ups |= {
            s.up.sixtyfourths for s in stops if s.wall == ways.wall.name and s.along.sixtyfourths == along
        }
        for meeting in met:
            if meeting.through == n and meeting.through_at == along:
                ups |= set(net.walls[meeting.butting].heights)
        _lay_column(net, n, along, sorted(up for up in ups if 0 <= up <= ways.top(along)))
    ends = [meeting.butting_at for meeting in met if meeting.butting == n]
    for up in ways.heights:
        for a, b in pairwise(sorted({*columns, *ends})):
            if ways.level_free(a, b, up=up):
                holes = len(ways.bored(a, b, up=up))
                net.steps.append((net.place(n, a, up), net.place(n, b, up), b - a, holes))
    for stop in stops:
        key = (n, stop.along.sixtyfourths, stop.up.sixtyfourths)
        if stop.wall == ways.wall.name and key in net.in_walls and not ways.barrier_at(key[1], key[2]):
            net.stops[stop.name] = net.in_walls[key]


def _lay_column(net: Net, n: int, along: int, ups: list[int]) -> None:
    ways = net.walls[n]
    for low, high in pairwise(ups):
        if ways.upright_free(along, low, high):
            plates = len(ways.plates_between(along, low, high))
            net.steps.append((net.place(n, along, low), net.place(n, along, high), high - low, plates))


def _join(net: Net, meeting: Meeting) -> None:
    """Let ways turn from the end of one wall into the wall it stands against."""
    for up in net.walls[meeting.butting].heights:
        here = net.in_walls.get((meeting.butting, meeting.butting_at, up))
        there = net.in_walls.get((meeting.through, meeting.through_at, up))
        if here is not None and there is not None:
            net.steps.append((here, there, 0, 0))


def _lay_planes(
    net: Net, house: House, stops: Sequence[Stop], rules: RouteRules, columns: list[list[int]]
) -> None:
    depth = rules.under_floor_depth
    feet = [(n, along) for n, found in enumerate(columns) for along in found]
    plans = [net.walls[n].plan(along) for n, along in feet]
    overhead = [_plan(stop) for stop in stops if stop.mount is Mount.CEILING or not rules.from_below]
    underfoot = [_plan(stop) for stop in stops if stop.mount is Mount.FLOOR]
    net.over = plane([*plans, *overhead], _lines(house, net), net.levels, _over_boxes(house), flat=None)
    net.below = plane([*plans, *underfoot], ((), ()), net.levels, _below_boxes(house), flat=-depth)
    hanging = [_hanging(stop, net, rules) for stop in stops if not stop.wall]
    first = len(net.spots)
    for (n, along), (x, y) in zip(feet, plans, strict=True):
        _link(net, (n, along, net.walls[n].top(along)), net.over, first, (x, y), into=net.steps)
        _link(net, (n, along, 0), net.below, first + net.over.count, (x, y), into=net.drops)
    for stop, number, over in hanging:
        _hang(net, stop, number, over=over)


def _link(
    net: Net,
    key: tuple[int, int, int],
    into_plane: Plane,
    first: int,
    plan: tuple[int, int],
    *,
    into: list[tuple[int, int, int, int]],
) -> None:
    """Join the top or the foot of a way up and down to the plane beyond it."""
    place, crossing = net.in_walls.get(key), into_plane.number(*plan)
    if place is not None and crossing is not None:
        climb = abs(into_plane.point(crossing)[2] - key[2])
        into.append((place, first + crossing, climb, 0))


def _hanging(stop: Stop, net: Net, rules: RouteRules) -> tuple[Stop, int, bool]:
    """Make the place of a stop on a ceiling or a floor; tell whether it is reached from over the ceiling."""
    over = stop.mount is Mount.CEILING or not rules.from_below
    x, y = _plan(stop)
    up = stop.up.sixtyfourths if stop.devices else (0 if over else -rules.under_floor_depth)
    medium = Medium.CEILING if over else Medium.FLOOR
    return stop, net.add(Spot(x=x, y=y, up=up, medium=medium)), over


def _hang(net: Net, stop: Stop, number: int, *, over: bool) -> None:
    assert net.over is not None
    assert net.below is not None
    found = net.over if over else net.below
    first = len(net.spots) + (0 if over else net.over.count)
    x, y = _plan(stop)
    crossing = found.number(x, y)
    if crossing is None and not stop.devices:
        crossing = _nearest(found, x, y)
    if crossing is None:
        return
    at_x, at_y, level = found.point(crossing)
    away = abs(at_x - x) + abs(at_y - y) + abs(level - net.spots[number].up)
    net.steps.append((number, first + crossing, away, 0))
    net.stops[stop.name] = number


def _nearest(found: Plane, x: int, y: int) -> int | None:
    """Return the crossing nearest to a point outside of the walls: a panel's corner just beyond them."""
    away = np.abs(found.xs[:, None] - x) + np.abs(found.ys[None, :] - y)
    away = np.where(found.there, away, np.iinfo(np.int64).max)
    return int(np.argmin(away)) if found.there.any() else None


def _plan(stop: Stop) -> tuple[int, int]:
    return stop.plan.x.sixtyfourths, stop.plan.y.sixtyfourths


def _lines(house: House, net: Net) -> tuple[list[int], list[int]]:
    """Return the lines wanted over the ceilings: the walls' middles, their tops' bends, slopes, ridges."""
    xs, ys = [], []
    for ways in net.levels.walls:
        for along, _ in ways.wall.top:
            x, y = ways.plan(along.sixtyfourths)
            xs.append(x)
            ys.append(y)
    sloping = {
        typed.room: typed for typed in house.description.ceilings if typed.shape is not CeilingShape.FLAT
    }
    for room in house.rooms:
        if room.name in sloping:
            xs += [point.x.sixtyfourths for point in room.outline]
            ys += [point.y.sixtyfourths for point in room.outline]
    for typed in sloping.values():
        if typed.ridge_at is not None:
            (ys if typed.ridge_runs is Axis.EAST_WEST else xs).append(typed.ridge_at.sixtyfourths)
    return xs, ys


def _over_boxes(house: House) -> list[Box]:
    hatches = [_box(h) for h in house.description.hatches]
    low = min(top.sixtyfourths for wall in house.walls for _, top in wall.top)
    return hatches + [_box(r) for r in house.reserves if r.top.sixtyfourths > low]


def _below_boxes(house: House) -> list[Box]:
    return [
        *(_box(hole) for hole in house.floor_holes),
        *(_box(r) for r in house.reserves if r.bottom.sixtyfourths <= 0),
    ]


def _box(typed: object) -> Box:
    corner, east, north = typed.corner, typed.east, typed.north  # type: ignore[attr-defined]
    x, y = corner.x.sixtyfourths, corner.y.sixtyfourths
    return (x, y, x + east.sixtyfourths, y + north.sixtyfourths)
