"""Walking round the house: legs to walls."""

from math import sqrt

from setday.files.house.phrases import Leg, Spot
from setday.files.house.shape_walls import LegPart, OutsidePart
from setday.files.house.taping import Laid, Plan
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.house import Point, WallLine
from setday.measure import Length

__all__ = ["walk_round"]

_ZERO = Length(0)
_SNAP = Length(8)
"""A walk with slanted legs may miss its start by this much, the rounding of its diagonals."""


def walk_round(outside: OutsidePart, depths: dict[str, Length], plan: Plan, notebook: Notebook) -> bool:
    """Lay the outside walls on the plan; tell whether the walk comes back to where it began.

    Parameters
    ----------
    outside : OutsidePart
    depths : dict
        Depth of each walked wall, by its name; walls of unknown kind are missing.
    plan : Plan
    notebook : Notebook
    """
    start = (
        _fixed(outside.start, ("outside walls", "start"), notebook)
        if outside.start
        else Point(x=_ZERO, y=_ZERO)
    )
    ends = _ends(start, outside.walk, notebook) if start else None
    if start is None or ends is None:
        plan.broken.update(outside.walk)
        return False
    ends = _closed(start, ends, outside.walk, notebook)
    corners = (start, *ends)
    line = _line(outside.line or "outside face", corners)
    for (name, _), a, b in zip(outside.walk.items(), corners[:-1], corners[1:], strict=True):
        if name in depths:
            plan.laid[name] = Laid(start=a, end=b, line=line, depth=depths[name])
        else:
            plan.broken.add(name)
    return ends[-1] == start


def _ends(start: Point, walk: dict[str, LegPart], notebook: Notebook) -> list[Point] | None:
    at, ends = start, []
    for name, leg in walk.items():
        step = _step(leg.go, at, start, ("outside walls", "walk", name), notebook)
        if step is None:
            return None
        at = step
        ends.append(at)
    return ends


def _step(leg: Leg, at: Point, start: Point, path: Path, notebook: Notebook) -> Point | None:
    if leg.back:
        return start
    if leg.to:
        return _fixed(leg.to, path, notebook)
    along = leg.distance
    if leg.east and leg.north:
        along = Length(round(leg.distance.sixtyfourths / sqrt(2)))
    return Point(x=at.x + along * leg.east, y=at.y + along * leg.north)


def _fixed(spot: Spot, path: Path, notebook: Notebook) -> Point | None:
    """Return the point of a spot that no wall is needed for."""
    if spot.x.wall or spot.y.wall:
        notebook.find(
            path,
            rule="house.walk-point",
            found="the walk is measured from a wall that the walk itself lays out.",
            expected="distances from zero, like 24' east, 0' north.",
            do="Give both distances from zero.",
        )
        return None
    return Point(x=spot.x.distance, y=spot.y.distance)


def _closed(start: Point, ends: list[Point], walk: dict[str, LegPart], notebook: Notebook) -> list[Point]:
    """Return the ends with the last one on the start; note a walk that does not close."""
    east, north = ends[-1].x - start.x, ends[-1].y - start.y
    slanted = any(leg.go.east and leg.go.north for leg in walk.values())
    if slanted and max(abs(east), abs(north)) <= _SNAP:
        return [*ends[:-1], start]
    if east or north:
        off = " and ".join(
            f"{abs(by)} {ways[0] if by > _ZERO else ways[1]}"
            for by, ways in ((east, ("east", "west")), (north, ("north", "south")))
            if by
        )
        notebook.find(
            ("outside walls", "walk", list(walk)[-1]),
            rule="house.walk-open",
            found=f"the walk ends {off} of where it began.",
            expected="a last leg that ends where the first began.",
            do=f"One of the legs is off by that much: {_opposites(walk)}. Check them against the plan.",
        )
    return ends


def _opposites(walk: dict[str, LegPart]) -> str:
    sums = {}
    for way, east, north in (("east", 1, 0), ("west", -1, 0), ("north", 0, 1), ("south", 0, -1)):
        lengths = [leg.go.distance for leg in walk.values() if (leg.go.east, leg.go.north) == (east, north)]
        sums[way] = sum(lengths, _ZERO)
    return (
        f"the legs east add up to {sums['east']}, west {sums['west']}, "
        f"north {sums['north']}, south {sums['south']}"
    )


def _line(line: str, corners: tuple[Point, ...]) -> WallLine:
    """Return which line of the framing was walked, by which way round the walk went."""
    if line == "center":
        return WallLine.CENTER
    twice = sum(
        (a.x.sixtyfourths * b.y.sixtyfourths - b.x.sixtyfourths * a.y.sixtyfourths)
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    inside_on_left = twice > 0
    return WallLine.RIGHT if inside_on_left == (line == "outside face") else WallLine.LEFT
