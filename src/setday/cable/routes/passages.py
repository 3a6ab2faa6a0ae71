"""The shortest ways between the stops of a house, through its framing."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from setday.cable.routes.net import BY_LENGTH, Net, Spot, build_net
from setday.cable.routes.route_rules import RouteRules
from setday.cable.routes.wall_ways import WallWays
from setday.cable.run import PANEL, RoutePoint, Stop
from setday.house import House, Mount, Point
from setday.measure import Length

__all__ = ["Passages"]

_Found = tuple[NDArray[np.float64], NDArray[np.int32]]


class Passages:
    """The ways of one house: lengths at once for all pairs of stops, points for those that are asked for.

    Parameters
    ----------
    house : House
    stops : sequence of Stop
    rules : RouteRules
    """

    def __init__(self, house: House, stops: Sequence[Stop], rules: RouteRules) -> None:
        self.house, self.stops, self.rules = house, tuple(stops), rules
        self.by_name = {stop.name: stop for stop in self.stops}

    @cached_property
    def net(self) -> Net:
        """The net of ways, laid out when first asked for."""
        return build_net(self.house, self.stops, self.rules)

    @cached_property
    def _ways(self) -> dict[str, WallWays]:
        return {ways.wall.name: ways for ways in self.net.levels.walls}

    def ways_of(self, wall: str) -> WallWays:
        """Return what a wall leaves to cables."""
        return self._ways[wall]

    def length(self, start: str, end: str) -> Length | None:
        """Return the length of the shortest way between two stops, without allowances; None without a way."""
        weight = self._weight(start, end)
        return None if weight is None else Length(weight // BY_LENGTH)

    def distance_ft(self, start: str, end: str) -> float:
        """Return the cable a run between two stops takes, tails and drape in it, slack for the set not [ft].

        Parameters
        ----------
        start, end : str
            Names of stops; without a way between them, a length that no house has.
        """
        way = self.length(start, end)
        if way is None:
            return 1e6
        return (way.feet * (1 + self.rules.drape_percent / 100)) + 2 * self.rules.box_tail / 768

    def way(self, start: str, end: str) -> tuple[RoutePoint, ...] | None:
        """Return the points of the shortest way, from start to end; None without a way."""
        turned = self._rank(start) > self._rank(end)
        first, last = (end, start) if turned else (start, end)
        if self._weight(first, last) is None:
            return None
        row, found = self._found(first, last)
        numbers = [self.net.stops[last]]
        while numbers[-1] != self.net.stops[first]:
            numbers.append(int(found[1][row, numbers[-1]]))
        points = self._points(self._straight(numbers))
        return points if turned else points[::-1]

    def _rank(self, stop: str) -> int:
        return self._ranks[stop]

    @cached_property
    def _ranks(self) -> dict[str, int]:
        return {stop.name: n for n, stop in enumerate(self.stops)}

    def _weight(self, start: str, end: str) -> int | None:
        if start not in self.net.stops or end not in self.net.stops:
            return None
        first, last = sorted((start, end), key=self._rank)
        row, found = self._found(first, last)
        weight = found[0][row, self.net.stops[last]]
        return int(weight) if np.isfinite(weight) else None

    def _found(self, first: str, last: str) -> tuple[int, _Found]:
        """Return the search that serves two stops, and its row."""
        if PANEL in (first, last) and self.rules.from_below:
            # The panel stands last among the stops; its own search is turned round by the caller's order.
            return self._row(first), self._below
        low = any(self.by_name[name].mount is Mount.FLOOR and name != PANEL for name in (first, last))
        below = self.rules.under_floor == "any" or low
        return self._row(first), self._below if below else self._inside

    def _row(self, stop: str) -> int:
        return self._order[stop]

    @cached_property
    def _order(self) -> dict[str, int]:
        return {name: n for n, name in enumerate(self.net.stops)}

    @cached_property
    def _inside(self) -> _Found:
        return self._search(below=False)

    @cached_property
    def _below(self) -> _Found:
        return self._search(below=True)

    def _search(self, *, below: bool) -> _Found:
        from scipy.sparse.csgraph import dijkstra

        sources = list(self.net.stops.values())
        away, before = dijkstra(
            self.net.matrix(below=below), directed=False, indices=sources, return_predecessors=True
        )
        return away, before

    def _straight(self, numbers: list[int]) -> list[int]:
        """Take the fewest bends where a way crosses open framing and many ways are as short."""
        first = len(self.net.spots)
        taken: list[int] = []
        at = 0
        while at < len(numbers):
            taken.append(numbers[at])
            stretch = at
            while stretch + 1 < len(numbers) and self._same_plane(numbers[at], numbers[stretch + 1], first):
                stretch += 1
            jump = next((n for n in range(stretch, at + 1, -1) if self._bent(numbers, at, n, taken)), None)
            at = at + 1 if jump is None else jump
        return list(dict.fromkeys(taken))

    def _same_plane(self, a: int, b: int, first: int) -> bool:
        return a >= first and b >= first and self.net.crossing(a)[2] is self.net.crossing(b)[2]

    def _bent(self, numbers: list[int], start: int, end: int, taken: list[int]) -> bool:
        """Replace a stretch by one with a single bend, where that is no longer and nothing bars it."""
        found, a, _ = self.net.crossing(numbers[start])
        b = self.net.crossing(numbers[end])[1]
        offset = numbers[start] - a
        asked = sum(found.step(n - offset, m - offset) for n, m in pairwise(numbers[start : end + 1]))
        for east_first in (True, False):
            bend = found.bend(a, b, east_first=east_first)
            if bend is not None and bend[1] <= asked:
                taken += [n + offset for n in bend[0][1:-1]]
                return True
        return False

    def _climbing(self, numbers: list[int]) -> Iterator[RoutePoint]:
        """Yield the points of a way, with those where it climbs over the ceilings from level to level."""
        first = len(self.net.spots)
        for a, b in pairwise([*numbers, numbers[-1]]):
            here = _route_point(self.net.spot(a), self.net)
            yield here
            if a != b and self._same_plane(a, b, first):
                found, crossing, _ = self.net.crossing(a)
                leaving, arriving = found.climbs(crossing, self.net.crossing(b)[1])
                yield replace(here, up=Length(leaving))
                yield replace(_route_point(self.net.spot(b), self.net), up=Length(arriving))

    def _points(self, numbers: list[int]) -> tuple[RoutePoint, ...]:
        points: list[RoutePoint] = []
        for point in self._climbing(numbers):
            if points and points[-1] == point:
                continue
            if len(points) >= 2 and _in_line(points[-2], points[-1], point):
                points.pop()
            points.append(point)
        return tuple(points)


def _route_point(spot: Spot, net: Net) -> RoutePoint:
    return RoutePoint(
        plan=Point(x=Length(spot.x), y=Length(spot.y)),
        up=Length(spot.up),
        medium=spot.medium,
        wall=net.walls[spot.wall].wall.name if spot.wall >= 0 else "",
        along=Length(spot.along),
    )


def _in_line(a: RoutePoint, b: RoutePoint, c: RoutePoint) -> bool:
    """Tell whether the middle one of three points says nothing."""
    if not (a.medium is b.medium is c.medium and a.wall == b.wall == c.wall):
        return False
    first = (b.plan.x - a.plan.x, b.plan.y - a.plan.y, b.up - a.up)
    then = (c.plan.x - b.plan.x, c.plan.y - b.plan.y, c.up - b.up)
    u, v = ([part.sixtyfourths for part in way] for way in (first, then))
    ahead = sum(p * q for p, q in zip(u, v, strict=True))
    return ahead > 0 and ahead * ahead == sum(p * p for p in u) * sum(q * q for q in v)
