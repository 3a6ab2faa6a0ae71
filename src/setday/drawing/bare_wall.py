"""The stretch of wall that has no outlet near enough, drawn on the plan of its room."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import hypot

from setday.drawing.device_places import place_symbols
from setday.drawing.device_symbols import device_symbol
from setday.drawing.ink import BOLD, LINE, Svg, element, group, line
from setday.drawing.lettering import SMALL, Taken, letters
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.drawing.placing import inside
from setday.drawing.plan_sight import Sight, frame_plan
from setday.drawing.plan_walls import draw_openings, draw_walls
from setday.house import House, Mount
from setday.measure import Length

__all__ = ["bare_wall"]

_MARGIN = 34.0
_INTO = 9.0
_MOST_HIGH = 560.0
"""The height that one room may fill, notes and all [drawing units]."""
Stretch = Sequence[tuple[float, float]]


def bare_wall(
    house: House,
    room: str,
    stretches: Sequence[tuple[Stretch, Length]],
    *,
    paper: Paper = LETTER,
    key: str = "bare-wall",
) -> str:
    """Draw a room, its devices, and the stretches of its walls that lack an outlet.

    Parameters
    ----------
    house : House
    room : str
    stretches : sequence of (points, Length)
        Each stretch on the plan, corner by corner [in], and how long it is.
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    outline = house.room(room).outline
    xs, ys = [point.x.inches for point in outline], [point.y.inches for point in outline]
    bounds = min(xs) - 12, min(ys) - 12, max(xs) + 12, max(ys) + 12
    paper = replace(paper, height=min(paper.height, _MOST_HIGH))
    frame = frame_plan(bounds, margin=_MARGIN, below=60, paper=paper)
    sight = frame.sight
    ring = sight.ring(outline)
    note = "Hatched heavy line: wall that no receptacle is near enough to, with its length along the floor."
    notes, height = notes_below([note], y=frame.foot + 30, width=frame.width)
    return finish(
        body=(
            _near(house, room, sight, (frame.right, frame.foot)),
            *(_stretch(points, length, sight, ring) for points, length in stretches),
            frame.bar,
            notes,
        ),
        title=f"{room}: wall without an outlet near enough",
        desc="; ".join(f"{length} of wall" for _, length in stretches) + f" in {room}.",
        width=frame.width,
        height=height,
        key=key_of(key, room),
    )


def _near(house: House, room: str, sight: Sight, size: tuple[float, float]) -> Svg:
    """Draw the walls around a room and the devices in it; what lies farther off is cut away."""
    walls = draw_walls(house, sight, studs=False, link=None)
    openings = draw_openings(house, sight, taken=Taken())
    own = replace(house, devices=tuple(device for device in house.devices if device.room == room))
    symbols = []
    for each in place_symbols(own, sight, taken=Taken()):
        if each.device.typed.mount is Mount.WALL:
            stem = line(x1=each.box[0], y1=each.box[1], x2=each.at[0], y2=each.at[1])
            symbols.append(group(stem, device_symbol(each.device, at=each.at, facing=each.facing)))
    wide, high = size
    low = _MARGIN - 6
    box = f"{low:.2f} {low:.2f} {wide - 2 * low:.2f} {high - 2 * low:.2f}"
    return element(
        "svg",
        walls,
        openings,
        *symbols,
        x=low,
        y=low,
        width=wide - 2 * low,
        height=high - 2 * low,
        viewBox=box,
    )


def _stretch(points: Stretch, length: Length, sight: Sight, room: Stretch) -> Svg:
    """Draw a stretch as a heavy line with strokes across it, its length at its middle."""
    parts: list[Svg] = []
    longest, middle = -1.0, (0.0, 0.0)
    for a, b in pairwise(points):
        (x1, y1), (x2, y2) = sight.at(*a), sight.at(*b)
        long = hypot(x2 - x1, y2 - y1)
        if long < 0.5:
            continue
        ux, uy = (x2 - x1) / long, (y2 - y1) / long
        inner = 1 if inside((x1 + x2) / 2 - uy * 4, (y1 + y2) / 2 + ux * 4, room) else -1
        nx, ny = -uy * inner, ux * inner
        parts.append(line(x1=x1, y1=y1, x2=x2, y2=y2, width=BOLD * 1.6))
        for n in range(int(long / 7) + 1):
            x, y = x1 + ux * 7 * n, y1 + uy * 7 * n
            parts.append(line(x1=x, y1=y, x2=x + nx * _INTO + ux * 4, y2=y + ny * _INTO + uy * 4, width=LINE))
        if long > longest:
            longest, middle = long, ((x1 + x2) / 2 + nx * 46, (y1 + y2) / 2 + ny * 22)
    if parts:
        parts.append(letters(str(length), x=middle[0], y=middle[1], size=SMALL * 1.2, bold=True, halo=True))
    return group(*parts)
