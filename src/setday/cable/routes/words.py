"""Where a run passes, in words a crew can walk along."""

from collections.abc import Sequence
from itertools import groupby, pairwise

from setday.cable.routes.passages import Passages
from setday.cable.run import Medium, RoutePoint
from setday.house import Point, Wall
from setday.measure import ZERO, Length

__all__ = ["from_end", "passes"]

_ROUGHLY = Length(16)
"""Places are told to a quarter inch; holes are where the studs are."""
_CLIMB = Length(3 * 64)
"""Over the ceilings a step between levels this high is told; our own."""


def passes(points: Sequence[RoutePoint], passages: Passages) -> tuple[str, ...]:
    """Say where a way passes: wall by wall, over ceilings, under the floor, from its start to its end.

    Parameters
    ----------
    points : sequence of RoutePoint
    passages : Passages
    """
    said: list[str] = []
    for (medium, wall), stretch in groupby(points, key=lambda point: (point.medium, point.wall)):
        chain = list(stretch)
        if len(chain) < 2:
            continue
        if medium is Medium.WALL:
            said += _in_wall(chain, passages.ways_of(wall).wall)
        else:
            place = "over the ceiling" if medium is Medium.CEILING else "under the floor"
            said += [f"{place}: {', then '.join(_legs(chain))}"] if _legs(chain) else []
    return tuple(said)


def _in_wall(chain: Sequence[RoutePoint], wall: Wall) -> list[str]:
    said = []
    for a, b in pairwise(chain):
        if a.along == b.along:
            said.append(f"{wall.name}: {_upright(a.up, b.up, wall)} at {from_end(wall, a.along)}")
        else:
            run = abs(b.along - a.along).to_nearest(_ROUGHLY)
            said.append(
                f"{wall.name}: bored at {a.up.to_nearest(_ROUGHLY)}{_beside(wall, a, b)}, "
                f"{run} {_toward(a.plan, b.plan)}"
            )
    return said


def _upright(start: Length, end: Length, wall: Wall) -> str:
    way = "up" if end > start else "down"
    lowest = min(top for _, top in wall.top)
    if max(start, end) >= lowest and min(start, end) <= ZERO:
        return f"{way} through all plates"
    if max(start, end) >= lowest:
        to = "" if way == "up" else f" to {end.to_nearest(_ROUGHLY)}"
        return f"{way} through the top plates{to}"
    if min(start, end) <= ZERO:
        to = "" if way == "down" else f" to {end.to_nearest(_ROUGHLY)}"
        return f"{way} through the bottom plate{to}"
    return f"{way} to {end.to_nearest(_ROUGHLY)}"


def _beside(wall: Wall, a: RoutePoint, b: RoutePoint) -> str:
    """Name the openings a level stretch passes over or under."""
    left, right = min(a.along, b.along), max(a.along, b.along)
    met = [o for o in wall.openings if o.along >= left and o.along + o.width <= right]
    over = [f"over '{o.name}'" for o in met if a.up >= o.head]
    under = [f"under '{o.name}'" for o in met if a.up < o.head]
    named = over + under
    return f" {' and '.join(named)}" if named else ""


def from_end(wall: Wall, along: Length) -> str:
    """Say how far a place on a wall is from the nearer end of its framing."""
    near_start = along * 2 <= wall.length
    far, near = (wall.end, wall.start) if near_start else (wall.start, wall.end)
    away = along if near_start else wall.length - along
    return f"{abs(away).to_nearest(_ROUGHLY)} from the {_toward(far, near)} end"


def _legs(chain: Sequence[RoutePoint]) -> list[str]:
    legs: list[tuple[str, Length]] = []
    for a, b in pairwise(chain):
        if a.plan == b.plan:
            if a.medium is Medium.CEILING and abs(b.up - a.up) >= _CLIMB:
                legs.append(("up" if b.up > a.up else "down", abs(b.up - a.up)))
            continue
        for way, run in _split(a.plan, b.plan):
            if legs and legs[-1][0] == way:
                legs[-1] = (way, legs[-1][1] + run)
            else:
                legs.append((way, run))
    return [f"{run.to_nearest(_ROUGHLY)} {way}" for way, run in legs]


def _split(a: Point, b: Point) -> list[tuple[str, Length]]:
    east, north = b.x - a.x, b.y - a.y
    ways = []
    if east:
        ways.append(("east" if east.sixtyfourths > 0 else "west", abs(east)))
    if north:
        ways.append(("north" if north.sixtyfourths > 0 else "south", abs(north)))
    return ways


def _toward(a: Point, b: Point) -> str:
    east, north = b.x - a.x, b.y - a.y
    if abs(east) >= abs(north):
        return "east" if east.sixtyfourths > 0 else "west"
    return "north" if north.sixtyfourths > 0 else "south"
