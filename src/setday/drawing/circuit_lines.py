"""Lines of circuits on the plan: one style for each, told apart in black and white."""

from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, sin

from setday.cable import PANEL, Circuit, Run, box_of
from setday.drawing.device_places import Placed
from setday.drawing.device_symbols import REACH
from setday.drawing.ink import BOLD, FINE, LINE, Svg, element, group, line, number, path, polygon
from setday.drawing.lettering import SMALL, Box, Taken, letters, text_width
from setday.drawing.plan_sight import Sight
from setday.house import House

__all__ = ["circuit_lines", "home_arrow", "line_sample", "pairs_of", "real_ways", "run_number", "style_of"]

_STYLES: tuple[tuple[float, str | None], ...] = (
    (FINE, None),
    (FINE, "9 3"),
    (FINE, "2.5 2.5"),
    (FINE, "11 3 2 3"),
    (LINE, None),
    (LINE, "9 3"),
    (LINE, "2.5 2.5"),
    (LINE, "11 3 2 3 2 3"),
)
Vector = tuple[float, float]


def style_of(index: int) -> tuple[float, str | None]:
    """Return width and dash of the line of the circuit at a place in the list; styles come round again."""
    return _STYLES[index % len(_STYLES)]


def line_sample(index: int, *, x: float, y: float, wide: float = 34.0) -> Svg:
    """Draw a piece of a circuit's line, for the key."""
    width, dash = style_of(index)
    return line(x1=x, y1=y, x2=x + wide, y2=y, width=width, dash=dash)


def pairs_of(circuit: Circuit, house: House, runs: Sequence[Run]) -> list[tuple[str, str]]:
    """Return which boxes a circuit's cables join, the panel's name first for a home run.

    Taken from its runs where it has any; else from box to box in the order of its devices.
    """
    own = [run for run in runs if run.circuit == circuit.name]
    if own:
        return [_panel_first(run.cable.start, run.cable.end) for run in own]
    known = {device.name: device for device in house.devices}
    boxes = list(dict.fromkeys(box_of(known[name]) for name in circuit.devices if name in known))
    return [(PANEL, boxes[0]), *pairwise(boxes)] if boxes else []


def _panel_first(start: str, end: str) -> tuple[str, str]:
    return (end, start) if end == PANEL else (start, end)


def circuit_lines(
    index: int, pairs: Sequence[tuple[str, str]], spots: dict[str, Placed], *, words: str, taken: Taken
) -> Svg:
    """Draw a circuit's cables as bowed lines from symbol to symbol, its number on one of them.

    Parameters
    ----------
    index : int
        Its place in the list of circuits; gives its style.
    pairs : sequence of (str, str)
        Boxes joined; those with the panel are left out here.
    spots : dict
        A symbol for every box.
    words : str
        What stands on the line.
    taken : Taken
    """
    parts: list[Svg] = []
    labelled = False
    for a, b in pairs:
        if PANEL in (a, b) or a not in spots or b not in spots or a == b:
            continue
        start, end = spots[a].at, spots[b].at
        bow, middle = _bow(start, end)
        parts.append(_curve(start, bow, end, index))
        if not labelled:
            tag = _tag(words, middle, taken)
            parts.append(tag)
            labelled = bool(tag)
    return group(*parts)


def _bow(start: Vector, end: Vector) -> tuple[Vector, Vector]:
    """Return the point a bowed line is drawn to, and the middle of the line."""
    (x0, y0), (x1, y1) = start, end
    long = hypot(x1 - x0, y1 - y0) or 1.0
    off = min(0.16 * long, 26.0)
    mx, my = (x0 + x1) / 2, (y0 + y1) / 2
    nx, ny = -(y1 - y0) / long, (x1 - x0) / long
    return (mx + 2 * nx * off, my + 2 * ny * off), (mx + nx * off, my + ny * off)


def _curve(start: Vector, bow: Vector, end: Vector, index: int) -> Svg:
    start, end = _off(start, bow), _off(end, bow)
    width, dash = style_of(index)
    first, over, last = (f"{number(x)} {number(y)}" for x, y in (start, bow, end))
    return path(f"M{first}Q{over} {last}", width=width, dash=dash)


def _off(at: Vector, toward: Vector) -> Vector:
    """Return the place on the edge of a symbol, on the way to another."""
    dx, dy = toward[0] - at[0], toward[1] - at[1]
    long = hypot(dx, dy) or 1.0
    step = min(REACH + 1.0, long / 3)
    return at[0] + dx / long * step, at[1] + dy / long * step


def run_number(text: str, at: Vector | None, taken: Taken) -> Svg:
    """Letter a run's number by the longest stretch of its line; left out where there is no room.

    Parameters
    ----------
    text : str
    at : (float, float) or None
        The middle of that stretch; None where no stretch is drawn.
    taken : Taken
    """
    if at is None:
        return Svg("")
    half = text_width(text, size=SMALL) / 2 + 1
    offs = ((0.0, 0.0), (0.0, -9.0), (0.0, 9.0), (14.0, 0.0), (-14.0, 0.0), (0.0, -18.0), (0.0, 18.0))
    places = [Box(at[0] + x - half, at[1] + y - 5, at[0] + x + half, at[1] + y + 5) for x, y in offs]
    place = taken.first_free(places)
    if place is None:
        return Svg("")
    x, y = (place.left + place.right) / 2, (place.top + place.bottom) / 2
    return letters(text, x=x, y=y, size=SMALL, bold=True, halo=True)


def _tag(words: str, middle: Vector, taken: Taken) -> Svg:
    half, tall = text_width(words, size=SMALL) / 2 + 1, SMALL * 0.6
    box = Box(middle[0] - half, middle[1] - tall, middle[0] + half, middle[1] + tall)
    if not taken.free(box):
        return Svg("")
    taken.take(box)
    return letters(words, x=middle[0], y=middle[1], size=SMALL, bold=True, halo=True)


def home_arrow(placed: Placed, panel: Vector, words: str, *, taken: Taken) -> Svg:
    """Draw the start of a home run: a short line toward the panel with a filled head and its number."""
    (x0, y0), (px, py) = placed.at, panel
    half = text_width(words, size=SMALL) / 2 + 1
    for turn in _TURNS:
        for long in (17.0, 26.0, 36.0):
            ux, uy = _toward((px - x0, py - y0), turn)
            tip = (x0 + ux * (REACH + long), y0 + uy * (REACH + long))
            x, y = tip[0] + ux * (half + 2), tip[1] + uy * (SMALL * 0.7 + 2)
            box = Box(x - half, y - SMALL * 0.6, x + half, y + SMALL * 0.6)
            if taken.free(box) and box.left > 0 and box.top > 0:
                taken.take(box)
                return _arrow((x0 + ux * (REACH + 1), y0 + uy * (REACH + 1)), tip, (x, y), words)
    return Svg("")


_TURNS = (0.0, 0.5, -0.5, 1.0, -1.0, 1.6, -1.6, 2.3, -2.3, 3.1)
"""Ways a home run's arrow may point, off the way to the panel [radians], the nearest first."""


def _toward(straight: Vector, turn: float) -> Vector:
    long = hypot(*straight) or 1.0
    ux, uy = straight[0] / long, straight[1] / long
    return ux * cos(turn) - uy * sin(turn), ux * sin(turn) + uy * cos(turn)


def _arrow(foot: Vector, tip: Vector, middle: Vector, words: str) -> Svg:
    long = hypot(tip[0] - foot[0], tip[1] - foot[1]) or 1.0
    ux, uy = (tip[0] - foot[0]) / long, (tip[1] - foot[1]) / long
    neck = (tip[0] - ux * 7, tip[1] - uy * 7)
    wings = [(neck[0] - uy * 3, neck[1] + ux * 3), (neck[0] + uy * 3, neck[1] - ux * 3)]
    return group(
        line(x1=foot[0], y1=foot[1], x2=neck[0], y2=neck[1], width=LINE),
        polygon([tip, *wings], width=0, fill="ink"),
        letters(words, x=middle[0], y=middle[1], size=SMALL, bold=True, halo=True),
    )


def real_ways(runs: Sequence[Run], sight: Sight) -> Svg:
    """Draw the real ways of runs on the plan, heavy; under the floor and over ceilings dashed."""
    under, over = [], []
    for run in runs:
        for a, b in pairwise(run.points):
            (x1, y1), (x2, y2) = sight.point(a.plan), sight.point(b.plan)
            if hypot(x2 - x1, y2 - y1) < 0.2:
                continue
            in_wall = bool(a.wall) and bool(b.wall)
            blank = f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}"
            under.append(element("path", d=blank, stroke="#fff", stroke_width=6, class_="sd-halo"))
            over.append(line(x1=x1, y1=y1, x2=x2, y2=y2, width=BOLD, dash=None if in_wall else "7 3"))
    return group(*under, *over)
