"""A wall with what the electrician puts into it: boxes, bored holes, plates and cables."""

from collections.abc import Sequence
from itertools import pairwise

from setday.cable import Hole, PlateNeed, Run, box_of
from setday.drawing.circuit_lines import run_number, style_of
from setday.drawing.device_symbols import device_words
from setday.drawing.elevation import Elevation, Sides, fit
from setday.drawing.ink import BOLD, FINE, LINE, Svg, circle, group, line, rect
from setday.drawing.lettering import SMALL, Box, Taken, letters, text_width
from setday.drawing.notes import key_below, notes_below
from setday.drawing.paper import LETTER, Link, Paper, finish, key_of, linked, scale_bar
from setday.drawing.table import Table
from setday.drawing.wall import draw_headers, draw_member, draw_rough_opening, sides_of_wall, top_of_wall
from setday.house import BoxSize, Device, House, Mount, Wall
from setday.measure import ZERO, Length, write_inches

__all__ = ["inside_wall_table", "wall_wiring"]


def wall_wiring(
    house: House,
    wall: Wall,
    *,
    side: str = "right",
    runs: Sequence[Run] = (),
    holes: Sequence[Hole] = (),
    plates: Sequence[PlateNeed] = (),
    circuits: Sequence[str] = (),
    paper: Paper = LETTER,
    link: Link | None = None,
    key: str = "wall-wiring",
) -> str:
    """Draw a wall's framing with its boxes, and with holes, plates and cables where routes are known.

    Parameters
    ----------
    house : House
    wall : Wall
    side : str
        "left" or "right", the side it is seen from; boxes that open to the other side are drawn broken.
    runs : sequence of Run
        All runs of the house; those that pass through the wall are drawn.
    holes : sequence of Hole
    plates : sequence of PlateNeed
    circuits : sequence of str
        Names of the circuits in the order of their numbers; gives each run its line.
    paper : Paper
    link : callable or None
        Gives the address of a "device" by name.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    boxes = _boxes(house, wall)
    size = (wall.length.inches, top_of_wall(wall).inches)
    scale, view, chains, area = fit(size_in=size, sides=_sides(wall, side, boxes), paper=paper, below=90)
    passing = [run for run in runs if wall.name in run.walls]
    drilled = [_hole(hole, view) for hole in holes if hole.wall == wall.name]
    covered = [_plate(plate, view) for plate in plates if plate.wall == wall.name]
    taken = Taken()
    drawn, entries = _draw_boxes(boxes, house.boxes, view, side, taken, link)
    cables = [_cable(run, wall, view, list(circuits), taken) for run in passing]
    framing, marks = _framing(wall, view, taken)
    width = max(area.right, 340.0)
    marked, end = key_below([*marks, *entries], y=area.bottom + 44, width=width)
    notes, height = notes_below(_reading(passing, drilled, covered, side), y=end + 2, width=width)
    bar = scale_bar(x=view.left, y=area.bottom + 14, scale=scale)
    return finish(
        body=(chains, framing, *drilled, *cables, *covered, drawn, bar, marked, notes),
        title=f"Wiring in wall {wall.name}, seen from its {side}",
        desc=_words(wall, boxes, passing),
        width=width,
        height=height,
        key=key_of(key, wall.name, side),
        links=link is not None,
    )


def _framing(wall: Wall, view: Elevation, taken: Taken) -> tuple[Svg, list[str]]:
    """Draw members and openings; return them and what the numbers of small openings stand for."""
    marks: list[str] = []
    members = [draw_member(member, view) for member in wall.members]
    openings = [draw_rough_opening(opening, view, taken, marks) for opening in wall.openings]
    return group(*members, *openings, draw_headers(wall, view)), marks


def _boxes(house: House, wall: Wall) -> list[tuple[str, list[Device]]]:
    found: dict[str, list[Device]] = {}
    for device in house.devices:
        if device.typed.mount is Mount.WALL and device.typed.wall == wall.name:
            found.setdefault(box_of(device), []).append(device)
    return sorted(found.items(), key=lambda each: (each[1][0].typed.along, each[0]))


def _sides(wall: Wall, side: str, boxes: list[tuple[str, list[Device]]]) -> Sides:
    """Dimension the boxes along the foot of the wall and up its free side."""
    plain = sides_of_wall(wall, side)
    places = {devices[0].typed.along for _, devices in boxes}
    heights = {devices[0].height for _, devices in boxes}
    return Sides(
        bottom=(tuple(sorted({ZERO, *places, wall.length})), (ZERO, wall.length)),
        left=plain.left,
        right=(tuple(sorted({ZERO, top_of_wall(wall), *heights})),),
        top=plain.top,
        mirrored=plain.mirrored,
    )


def _draw_boxes(
    boxes: list[tuple[str, list[Device]]],
    size: BoxSize,
    view: Elevation,
    side: str,
    taken: Taken,
    link: Link | None,
) -> tuple[Svg, list[str]]:
    """Draw every box with its number; return them and what the numbers stand for."""
    parts, entries = [], []
    for n, (name, devices) in enumerate(boxes):
        first, gangs = devices[0], max(len(devices), *(device.typed.gangs for device in devices))
        wide = size.wide(gangs)
        x, y = first.typed.along.inches - wide / 2, first.height.inches - size.tall / 2
        box = view.box(x, y, wide, size.tall)
        behind = first.typed.side != side
        shape = rect(
            x=box.left,
            y=box.top,
            w=box.right - box.left,
            h=box.bottom - box.top,
            width=LINE,
            dash="3 2" if behind else None,
            fill="paper",
        )
        words = f"{name}: {' + '.join(device_words(device) for device in devices)}, {first.height} up"
        entries.append(f"{n + 1} = {words}" + (", opens to the other side" if behind else ""))
        label = _number(str(n + 1), box, taken)
        touch = rect(x=box.left - 6, y=box.top - 6, w=box.right - box.left + 12, h=box.bottom - box.top + 12,
                     width=0, fill="touch")  # fmt: skip
        parts.append(linked(shape, label, touch, kind="device", name=first.name, label=words, link=link))
    return group(*parts), entries


def _number(text: str, box: Box, taken: Taken) -> Svg:
    half = text_width(text, size=SMALL) / 2 + 1
    x = (box.left + box.right) / 2
    spots = [(x, box.top - 7), (x, box.bottom + 7), (box.left - half - 2, (box.top + box.bottom) / 2),
             (box.right + half + 2, (box.top + box.bottom) / 2)]  # fmt: skip
    spots += [(px, py + off) for off in (-11, 11, -22, 22) for px, py in spots[:2]]
    places = [Box(px - half, py - 5, px + half, py + 5) for px, py in spots]
    place = taken.first_free(places) or places[0]
    middle = (place.left + place.right) / 2, (place.top + place.bottom) / 2
    return letters(text, x=middle[0], y=middle[1], size=SMALL, bold=True, halo=True)


def _hole(hole: Hole, view: Elevation) -> Svg:
    """Draw a bored hole: a filled dot in a stud, a short bar through a plate."""
    x, y = view.x(hole.along.inches), view.y(hole.up.inches)
    r = max(hole.diameter.inches / 2 * view.per_inch, 1.5)
    if hole.upright:
        return line(x1=x, y1=y - 5, x2=x, y2=y + 5, width=BOLD)
    return circle(x=x, y=y, r=r, width=FINE, fill="ink")


def _plate(plate: PlateNeed, view: Elevation) -> Svg:
    x, y = view.x(plate.along.inches), view.y(plate.up.inches)
    return group(
        rect(x=x - 3.5, y=y - 6, w=7, h=12, width=LINE, fill="paper"),
        line(x1=x - 3.5, y1=y - 6, x2=x + 3.5, y2=y + 6, width=FINE),
    )


def _cable(run: Run, wall: Wall, view: Elevation, circuits: list[str], taken: Taken) -> Svg:
    index = circuits.index(run.circuit) if run.circuit in circuits else 0
    width, dash = style_of(index)
    parts: list[Svg] = []
    longest, at = 0.0, (0.0, 0.0)
    for a, b in pairwise(run.points):
        if (a.wall, b.wall) != (wall.name, wall.name):
            continue
        (x1, y1), (x2, y2) = ((view.x(p.along.inches), view.y(p.up.inches)) for p in (a, b))
        parts.append(line(x1=x1, y1=y1, x2=x2, y2=y2, width=width + 0.6, dash=dash))
        if abs(x2 - x1) + abs(y2 - y1) > longest:
            longest, at = abs(x2 - x1) + abs(y2 - y1), ((x1 + x2) / 2, (y1 + y2) / 2)
    tag = run_number(run.number, at, taken) if parts else Svg("")
    return group(*parts, tag, data_kind="run", data_id=run.number)


def _reading(passing: Sequence[Run], drilled: Sequence[Svg], covered: Sequence[Svg], side: str) -> list[str]:
    start = "right" if side == "left" else "left"
    notes = [f"The wall's start is at the {start}. Boxes drawn broken open to the other side."]
    if passing:
        notes.append("Figures on lines: numbers of the runs; a line's style is its circuit's.")
    if drilled:
        notes.append("Dots: holes bored through studs; short bars: through plates.")
    if covered:
        notes.append("Crossed small boxes: steel plates before the wall is closed.")
    return notes


def _words(wall: Wall, boxes: list[tuple[str, list[Device]]], passing: Sequence[Run]) -> str:
    said = "; ".join(f"{name} at {devices[0].typed.along}, {devices[0].height} up" for name, devices in boxes)
    numbers = ", ".join(run.number for run in passing)
    return (
        f"Wall {wall.name}, {wall.length} long. Boxes: {said or 'none'}. "
        f"Runs inside: {numbers or 'none known'}."
    )


def inside_wall_table(
    house: House,
    wall: Wall,
    *,
    runs: Sequence[Run] = (),
    holes: Sequence[Hole] = (),
    plates: Sequence[PlateNeed] = (),
) -> Table:
    """Return what is inside a wall: boxes, runs, holes and plates, from the wall's start."""
    rows: list[tuple[Length, tuple[str, ...]]] = []
    for name, devices in _boxes(house, wall):
        words = " + ".join(device_words(device) for device in devices)
        at = devices[0].typed.along
        rows.append((at, ("box", name, words, str(at), str(devices[0].height))))
    for run in runs:
        inside = [point for point in run.points if point.wall == wall.name]
        if inside:
            low, high = min(p.along for p in inside), max(p.along for p in inside)
            words = f"{run.cable.kind}, {run.circuit}"
            rows.append((low, ("run", run.number, words, f"{low} to {high}", str(inside[0].up))))
    for hole in holes:
        if hole.wall == wall.name:
            words = f"{write_inches(hole.diameter)} in a {hole.member.value if hole.member else 'joist'}"
            rows.append((hole.along, ("hole", ", ".join(hole.runs), words, str(hole.along), str(hole.up))))
    rows += [
        (plate.along, ("plate", plate.side, plate.why, str(plate.along), str(plate.up)))
        for plate in plates
        if plate.wall == wall.name
    ]
    order = {"box": 0, "run": 1, "hole": 2, "plate": 3}
    return Table(
        caption=f"Inside wall {wall.name}",
        head=("What", "Which", "In words", "From the start", "Up"),
        rows=tuple(row for _, row in sorted(rows, key=lambda each: (order[each[1][0]], each[0], each[1]))),
        figures=(False, False, False, True, True),
    )
