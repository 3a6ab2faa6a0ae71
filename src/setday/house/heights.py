"""Walls that stop short of the ceiling they are meant to reach."""

from collections import Counter
from dataclasses import dataclass
from math import ceil

from setday.findings import Finding, Severity
from setday.house.ceilings import Overhead
from setday.house.faces import Face
from setday.house.model import Span, Surface
from setday.house.placing import PlacedWall, from_inches
from setday.house.profile import profile
from setday.house.wall_top import height_at, wall_top
from setday.measure import Length

__all__ = ["check_heights"]

_PLAY = 0.5
"""A wall this little below its ceiling reaches it [in] (our own; a board bridges it)."""
_LOWER = 6.0
"""A wall written this much lower than most walls of the house is meant to be low [in] (our own)."""
_AT_END = 12.0
"""A place this near an end of a wall is said as that end [in]; walls are no deeper (our own)."""


@dataclass(frozen=True, slots=True)
class _Knot:
    """A place along a wall from its start as written, the ceiling over it and the wall's top [in]."""

    at: float
    ceiling: float
    top: float


def check_heights(
    overheads: dict[str, Overhead], surfaces: tuple[Surface, ...], placed: tuple[PlacedWall, ...]
) -> tuple[Finding, ...]:
    """Ask where a wall stops short of the ceiling, unless it is a low wall.

    A wall is low when its top is below half of the ceiling, when its own height is well below that of most
    walls, or when its `top` is written out as level.

    Parameters
    ----------
    overheads : dict
        The ceilings by room name.
    surfaces : tuple of Surface
    placed : tuple of PlacedWall
    """
    by_name = {wall.name: wall for wall in placed}
    usual = _usual(placed)
    seen: dict[tuple[str, str], list[_Knot]] = {}
    for surface in surfaces:
        over = overheads.get(surface.room)
        if over is None or surface.top_meets_ceiling:
            continue
        for span in surface.spans:
            if span.side in ("left", "right"):
                knots = _knots(surface, span, by_name[span.wall], over)
                seen.setdefault((span.wall, surface.room), []).extend(knots)
    return tuple(
        _finding(by_name[wall], room, sorted(knots, key=lambda k: k.at))
        for (wall, room), knots in seen.items()
        if any(k.ceiling - k.top > _PLAY for k in knots) and not _low(by_name[wall], knots, usual)
    )


def _usual(placed: tuple[PlacedWall, ...]) -> float:
    """Return the height most walls are written with, the higher one of two equally frequent ones [in]."""
    count = Counter(wall.typed.height for wall in placed)
    return max(count, key=lambda height: (count[height], height)).inches if count else 0.0


def _low(wall: PlacedWall, knots: list[_Knot], usual: float) -> bool:
    if wall.typed.gable:
        return len({height for _, height in wall.typed.gable}) == 1
    height = wall.typed.height.inches
    return height < min(k.ceiling for k in knots) / 2 or height <= usual - _LOWER


def _knots(surface: Surface, span: Span, wall: PlacedWall, over: Overhead) -> list[_Knot]:
    ux, uy = surface.plan_x
    x, y = surface.plan_origin
    width = surface.width.inches
    face = Face(left=(x, y), right=(x + ux * width, y + uy * width), facing=surface.facing)
    top = wall_top(wall)
    found = []
    for low, high, ceiling, _ in profile(face, over, (span,), {wall.name: top}):
        if not span.x.inches <= (low + high) / 2 <= (span.x + span.width).inches:
            continue
        for at, over_it in ((low, ceiling[0]), (high, ceiling[1])):
            ahead = (1 if span.forward else -1) * (at - span.x.inches)
            along = span.along.inches + ahead
            found.append(_Knot(along + wall.frame_start, over_it, height_at(top, along)))
    return found


def _finding(wall: PlacedWall, room: str, knots: list[_Knot]) -> Finding:
    worst = max(knots, key=lambda k: k.ceiling - k.top)
    level = f"top: [{wall.typed.height} at start, {wall.typed.height} at end]"
    low = "" if wall.typed.gable else f" If it is meant to end there, say so: {level}."
    return Finding(
        rule="house.wall-below-ceiling",
        about=f"wall '{wall.name}'",
        found=f"its top stops below the ceiling of '{room}': by {from_inches(worst.ceiling - worst.top)} at "
        f"most, {from_inches(worst.at)} from its start.",
        expected="a wall that reaches the ceiling all along, or a low wall.",
        do=f"Check the ceiling, or write for this wall: {_advice(wall, knots)}.{low}",
        severity=Severity.ASK,
        where=wall.typed.where,
    )


def _advice(wall: PlacedWall, knots: list[_Knot]) -> str:
    ridge = max(knots, key=lambda k: k.ceiling)
    if ridge.ceiling - min(k.ceiling for k in knots) <= _PLAY:
        return f"height: {_up(ridge.ceiling)}"
    if _peaked(wall) and all(_under_peak(wall, ridge, k) for k in knots):
        middle = abs(ridge.at - wall.length / 2) <= _PLAY
        return f"peak: {_up(ridge.ceiling)} {'in the middle' if middle else f'at {from_inches(ridge.at)}'}"
    return f"top: [{', '.join(_top_points(wall, knots))}]"


def _peaked(wall: PlacedWall) -> bool:
    """Tell whether a wall's top is level or written as a peak, so that a peak may be written."""
    gable = wall.typed.gable
    return not gable or (len(gable) == 3 and gable[0][1] == gable[2][1] == wall.typed.height)


def _under_peak(wall: PlacedWall, ridge: _Knot, knot: _Knot) -> bool:
    """Tell whether a peak at the ridge reaches the ceiling at a place too."""
    if not _AT_END < ridge.at < wall.length - _AT_END:
        return False
    run = ridge.at if knot.at <= ridge.at else wall.length - ridge.at
    out = knot.at if knot.at <= ridge.at else wall.length - knot.at
    low = wall.typed.height.inches
    return low + (ridge.ceiling - low) * out / run >= knot.ceiling - _PLAY


def _top_points(wall: PlacedWall, knots: list[_Knot]) -> list[str]:
    """Return the points of a top that follows the ceiling, carried on to the wall's ends."""
    line = list(dict.fromkeys((round(k.at, 3), round(k.ceiling, 3)) for k in knots))
    first, last = line[0], line[-1]
    points = [f"{_up(h)} at {from_inches(at)}" for at, h in line[1:-1]]
    start, end = f"{_up(first[1])} at {from_inches(first[0])}", f"{_up(last[1])} at {from_inches(last[0])}"
    if first[0] <= _AT_END:
        start = f"{_up(_carried(line[1], first, 0.0))} at start"
    if last[0] >= wall.length - _AT_END:
        end = f"{_up(_carried(line[-2], last, wall.length))} at end"
    return [start, *points, end]


def _carried(inner: tuple[float, float], outer: tuple[float, float], to: float) -> float:
    """Return the height of the line through two points at `to`, never below the outer one."""
    slope = (outer[1] - inner[1]) / (outer[0] - inner[0]) if outer[0] != inner[0] else 0.0
    return max(outer[1] + slope * (to - outer[0]), 0.0)


def _up(inches: float) -> Length:
    return from_inches(ceil(inches * 8 - 1e-6) / 8)
