"""The joists over the ceilings that a way crosses."""

from collections.abc import Iterator

from setday.house import Axis, House, Point, Surface, SurfaceKind
from setday.measure import Length

__all__ = ["joists_crossed"]


def joists_crossed(house: House, start: Point, end: Point) -> list[tuple[str, Point]]:
    """Return the joists that a straight leg over the ceilings crosses: the room under each, and where.

    Parameters
    ----------
    house : House
    start, end : Point
        Ends of a leg along one of the house's two directions; other legs cross nothing.
    """
    east_west = start.y == end.y
    if start == end or not (east_west or start.x == end.x):
        return []
    low, high = sorted((start.x, end.x) if east_west else (start.y, end.y))
    aside = start.y if east_west else start.x
    found = []
    for room, at, near, far in _joists(house, Axis.NORTH_SOUTH if east_west else Axis.EAST_WEST):
        if low < at < high and near <= aside <= far:
            plan = Point(x=at, y=aside) if east_west else Point(x=aside, y=at)
            found.append((room, plan))
    return sorted(found, key=lambda joist: joist[1], reverse=(end < start))


def _joists(house: House, runs: Axis) -> Iterator[tuple[str, Length, Length, Length]]:
    """Yield room, place across, and both ends of every ceiling member that runs one way."""
    for surface in house.surfaces:
        if surface.kind is SurfaceKind.CEILING and house.joists_run.get(surface.room) is runs:
            yield from _of_surface(surface, across_x=runs is Axis.NORTH_SOUTH)


def _of_surface(surface: Surface, *, across_x: bool) -> Iterator[tuple[str, Length, Length, Length]]:
    corner, by_x, by_y = surface.plan_origin, surface.plan_x, surface.plan_y
    across, along = (0, 1) if across_x else (1, 0)
    for member in surface.backing:
        at = corner[across] + by_x[across] * member.x.inches
        ends = sorted(corner[along] + by_y[along] * y.inches for y in (member.y_low, member.y_high))
        yield surface.room, _length(at), _length(ends[0]), _length(ends[1])


def _length(inches: float) -> Length:
    return Length(round(inches * 64))
