"""What is behind a surface, as seen from the room: framing, boxes, cables, holes, plates, blocking."""

from collections.abc import Sequence
from itertools import pairwise

from setday.cable import Hole, PlateNeed, Run
from setday.closein import Item
from setday.drawing.behind_places import Behind, Block, BoxAt, RunAt, behind_of, wall_view
from setday.drawing.circuit_lines import run_number, style_of
from setday.drawing.device_symbols import device_words
from setday.drawing.elevation import Elevation, Sides, crossed_box, fit, outline_heights, words_in_box
from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, DASHED, FINE, LINE, Svg, circle, group, line, path, polygon, rect
from setday.drawing.ink import number as figure
from setday.drawing.lettering import SMALL, Box, Taken, letters, text_width
from setday.drawing.notes import key_below, notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of, scale_bar
from setday.drawing.table import Table
from setday.drawing.wall import draw_member
from setday.house import BoxSize, House, MemberKind, Surface, SurfaceKind
from setday.measure import ZERO, Length, write_inches

__all__ = ["behind_surface", "behind_table"]

_UPRIGHT = {
    MemberKind.STUD, MemberKind.END_STUD, MemberKind.CORNER, MemberKind.PARTITION, MemberKind.KING,
    MemberKind.JACK,
}  # fmt: skip

_LEAST_WIDE = 640.0
"""So wide is the drawing of a narrow wall too, for a page blows a drawing up to its own width."""


def behind_surface(
    house: House,
    surface: Surface,
    *,
    runs: Sequence[Run] = (),
    holes: Sequence[Hole] = (),
    plates: Sequence[PlateNeed] = (),
    items: Sequence[Item] = (),
    circuits: Sequence[str] = (),
    paper: Paper = LETTER,
    key: str = "behind",
) -> str:
    """Draw what is behind a surface, as seen from inside the room, measured from its left corner.

    Parameters
    ----------
    house : House
    surface : Surface
    runs, holes, plates : sequences
        Of the whole house.
    items : sequence of Item
        Of its gate, of both sides; blocking among them is drawn.
    circuits : sequence of str
        Names of the circuits in the order of their numbers; gives each run its line.
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    behind = behind_of(house, surface, runs=runs, holes=holes, plates=plates, items=items)
    size = (surface.width.inches, surface.height.inches)
    scale, view, chains, area = fit(size_in=size, sides=_sides(behind, paper), paper=paper, below=120)
    taken = Taken()
    boxes, entries = _draw_boxes(behind.boxes, house.boxes, view, taken)
    blocks, marks = _draw_blocks(behind.blocks, view, taken)
    cables = [_draw_run(each, view, list(circuits), taken) for each in behind.runs]
    body = (
        chains,
        _framing(behind, view),
        blocks,
        *(_draw_hole(hole, x, view) for hole, x in behind.holes),
        *cables,
        *(_draw_plate(plate, x, view) for plate, x in behind.plates),
        boxes,
    )
    width = max(area.right, _LEAST_WIDE if paper.to_scale else 320.0)
    keyed, end = key_below([*marks, *entries], y=area.bottom + 44, width=width)
    notes, height = notes_below(_reading(behind), y=end + 2, width=width)
    return finish(
        body=(*body, scale_bar(x=view.left, y=area.bottom + 14, scale=scale), keyed, notes),
        title=f"Behind {surface.label}, seen from the room",
        desc=_words(behind),
        width=width,
        height=height,
        key=key_of(key, surface.id),
    )


def _sides(behind: Behind, paper: Paper) -> Sides:
    """Dimension studs above, boxes and blocking below, heights at the right, all from the left corner."""
    surface = behind.surface
    wide, high = surface.width, surface.height
    centers = {member.x for member in surface.backing} if paper.to_scale else set()
    own = [box for box in behind.boxes if box.this_side]
    blocks = {x for b in behind.blocks for x in (b.spot.x, b.spot.x + (b.spot.w or ZERO))}
    heights = {box.y for box in own} | {
        y for b in behind.blocks for y in (b.spot.y, b.spot.y + (b.spot.h or ZERO))
    }
    places = {box.x for box in own} | blocks
    left, right = outline_heights(surface.outline)
    return Sides(
        top=((ZERO, *sorted(centers), wide),) if centers else (),
        bottom=(tuple(sorted({ZERO, *places, wide})), (ZERO, wide)),
        left=(left, (ZERO, high)),
        right=(tuple(sorted({ZERO, high, *heights})), right),
        top_in_inches=True,
    )


def _framing(behind: Behind, view: Elevation) -> Svg:
    """Draw members and openings inside the surface's outline."""
    surface = behind.surface
    outline = view.ring([(x.inches, y.inches) for x, y in surface.outline])
    if surface.kind is SurfaceKind.CEILING:
        members = _joists(surface, view)
    else:
        members = [draw_member(member, wall_view(view, span)) for span, member in behind.members()]
    paper = polygon(outline, width=0, fill="paper")
    return group(paper, *members, *_openings(surface, view), polygon(outline, width=BOLD))


def _openings(surface: Surface, view: Elevation) -> list[Svg]:
    parts = []
    for opening in surface.openings:
        box = view.box(opening.x.inches, opening.y.inches, opening.w.inches, opening.h.inches)
        words = words_in_box(box, (opening.name,)) or Svg("")
        parts.append(group(crossed_box(box, door=not opening.y), words))
    return parts


def _joists(surface: Surface, view: Elevation) -> list[Svg]:
    parts = []
    for joist in surface.backing:
        half = joist.width.inches / 2
        box = view.box(
            joist.x.inches - half, joist.y_low.inches, 2 * half, (joist.y_high - joist.y_low).inches
        )
        parts.append(
            rect(x=box.left, y=box.top, w=box.right - box.left, h=box.bottom - box.top, fill="paper")
        )
    return parts


def _draw_boxes(
    boxes: Sequence[BoxAt], size: BoxSize, view: Elevation, taken: Taken
) -> tuple[Svg, list[str]]:
    parts, entries = [], []
    for n, each in enumerate(boxes, start=1):
        gangs = max(len(each.devices), *(device.typed.gangs for device in each.devices))
        wide = size.wide(gangs)
        box = view.box(each.x.inches - wide / 2, each.y.inches - size.tall / 2, wide, size.tall)
        taken.take(box)
        shape = rect(
            x=box.left, y=box.top, w=box.right - box.left, h=box.bottom - box.top,
            width=LINE, dash=None if each.this_side else DASHED, fill="paper",
        )  # fmt: skip
        parts.append(group(shape, _lettered(str(n), box, taken), data_kind="box", data_id=each.name))
        words = " + ".join(device_words(device) for device in each.devices)
        side = "" if each.this_side else ", opens to the other side"
        entries.append(f"{n} = {each.name}: {words}{side}")
    return group(*parts), entries


def _lettered(text: str, box: Box, taken: Taken) -> Svg:
    """Letter a number in the middle of a box, or beside it where the box is small."""
    half = text_width(text, size=SMALL) / 2 + 1
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    if box.right - box.left > 2 * half + 2 and box.bottom - box.top > SMALL:
        return letters(text, x=x, y=y, size=SMALL, bold=True)
    spots = [(x, box.top - 7), (x, box.bottom + 7), (box.left - half - 2, y), (box.right + half + 2, y)]
    places = [Box(px - half, py - 5, px + half, py + 5) for px, py in spots]
    place = taken.first_free(places) or places[0]
    at = (place.left + place.right) / 2, (place.top + place.bottom) / 2
    return letters(text, x=at[0], y=at[1], size=SMALL, bold=True, halo=True)


def _draw_blocks(blocks: Sequence[Block], view: Elevation, taken: Taken) -> tuple[Svg, list[str]]:
    """Hatch blocking and letter it A, B ...; that of the other side is outlined broken."""
    parts, marks = [], []
    for n, block in enumerate(blocks):
        mark, spot = chr(ord("A") + n % 26), block.spot
        wide, high = spot.w or ZERO, spot.h or ZERO
        box = view.box(spot.x.inches, spot.y.inches, wide.inches, high.inches)
        w, h = box.right - box.left, box.bottom - box.top
        shape = rect(x=box.left, y=box.top, w=w, h=h, width=LINE, dash=None if block.this_side else DASHED)
        words = words_in_box(box, (mark,), bold=True) or _lettered(mark, box, taken)
        parts.append(group(hatch_box(x=box.left, y=box.top, w=w, h=h, spacing=4), shape, words))
        side = "" if block.this_side else ", of the other side"
        marks.append(f"{mark} = {block.words}{side}, {spot}")
    return group(*parts), marks


def _draw_run(each: RunAt, view: Elevation, circuits: list[str], taken: Taken) -> Svg:
    index = circuits.index(each.run.circuit) if each.run.circuit in circuits else 0
    width, dash = style_of(index)
    parts, longest, at = [], 0.0, None
    for way in each.ways:
        places = [(view.x(x), view.y(y)) for x, y in way]
        parts.append(path(_d(places), width=width + 0.6, dash=dash))
        reach = sum(abs(x2 - x1) + abs(y2 - y1) for (x1, y1), (x2, y2) in pairwise(places))
        if reach > longest:
            (x1, y1), (x2, y2) = places[0], places[1]
            longest, at = reach, ((x1 + x2) / 2, (y1 + y2) / 2)
    return group(*parts, run_number(each.run.number, at, taken), data_kind="run", data_id=each.run.number)


def _d(places: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{figure(x)} {figure(y)}" for x, y in places)


def _draw_hole(hole: Hole, x: Length, view: Elevation) -> Svg:
    at = view.x(x.inches), view.y(hole.up.inches)
    if hole.upright:
        return line(x1=at[0], y1=at[1] - 5, x2=at[0], y2=at[1] + 5, width=BOLD)
    return circle(
        x=at[0], y=at[1], r=max(hole.diameter.inches / 2 * view.per_inch, 1.5), width=FINE, fill="ink"
    )


def _draw_plate(plate: PlateNeed, x: Length, view: Elevation) -> Svg:
    at = view.x(x.inches), view.y(plate.up.inches)
    return group(
        rect(x=at[0] - 3.5, y=at[1] - 6, w=7, h=12, width=LINE, fill="paper"),
        line(x1=at[0] - 3.5, y1=at[1] - 6, x2=at[0] + 3.5, y2=at[1] + 6, width=FINE),
    )


def _reading(behind: Behind) -> list[str]:
    ceiling = behind.surface.kind is SurfaceKind.CEILING
    start = "the lower left corner, seen from below" if ceiling else "the left corner, floor up"
    notes = [f"Measured to the framing from {start}."]
    if behind.runs:
        notes.append("Figures on lines: numbers of the runs of cable; a line's style is its circuit's.")
    if any(not box.this_side for box in behind.boxes):
        notes.append("Boxes drawn broken open to the other side.")
    if behind.holes:
        notes.append("Dots: holes bored through studs; short bars: through plates.")
    if behind.plates:
        notes.append("Crossed small boxes: steel plates.")
    if behind.blocks:
        notes.append("Hatched and lettered: blocking.")
    return notes


def _words(behind: Behind) -> str:
    boxes = "; ".join(f"{box.name} at {box.x}, {box.y} up" for box in behind.boxes if box.this_side)
    runs = ", ".join(each.run.number for each in behind.runs)
    blocks = "; ".join(f"{block.words}, {block.spot}" for block in behind.blocks)
    return f"Boxes: {boxes or 'none'}. Runs: {runs or 'none'}. Blocking: {blocks or 'none'}."


def behind_table(
    house: House,
    surface: Surface,
    *,
    runs: Sequence[Run] = (),
    holes: Sequence[Hole] = (),
    plates: Sequence[PlateNeed] = (),
    items: Sequence[Item] = (),
) -> Table:
    """Return what is behind a surface with its places from the left corner.

    Parameters
    ----------
    house : House
    surface : Surface
    runs, holes, plates : sequences
        Of the whole house.
    items : sequence of Item
    """
    behind = behind_of(house, surface, runs=runs, holes=holes, plates=plates, items=items)
    rows = [_box_row(box) for box in behind.boxes]
    rows += [_run_row(each) for each in behind.runs]
    rows += [
        ("hole", f"{write_inches(hole.diameter)}, runs {', '.join(hole.runs)}", str(x), str(hole.up))
        for hole, x in behind.holes
    ]
    rows += [("plate", plate.why, str(x), str(plate.up)) for plate, x in behind.plates]
    rows += [_block_row(block) for block in behind.blocks]
    if behind.surface.backing:
        centers = ", ".join(write_inches(member.x) for member in behind.surface.backing)
        rows.append(("framing", "centers of the members behind it", centers, ""))
    return Table(
        caption=f"Behind {surface.label}",
        head=("What", "Which", "From the left", "Up"),
        rows=tuple(rows),
        figures=(False, False, True, True),
    )


def _box_row(box: BoxAt) -> tuple[str, str, str, str]:
    words = " + ".join(device_words(device) for device in box.devices)
    side = "" if box.this_side else ", opens to the other side"
    return ("box", f"{box.name}: {words}{side}", str(box.x), str(box.y))


def _run_row(each: RunAt) -> tuple[str, str, str, str]:
    xs = [x for way in each.ways for x, _ in way]
    ys = [y for way in each.ways for _, y in way]
    ends = [Length.of(inches=round(v)) for v in (min(xs), max(xs), min(ys), max(ys))]
    run = each.run
    words = f"{run.number}, {run.cable.kind}, {run.cable.start} to {run.cable.end}"
    return ("run", words, f"{ends[0]} to {ends[1]}", f"{ends[2]} to {ends[3]}")


def _block_row(block: Block) -> tuple[str, str, str, str]:
    spot = block.spot
    wide, high = spot.w or ZERO, spot.h or ZERO
    side = "" if block.this_side else ", of the other side"
    return (
        "blocking",
        f"{block.words}{side}",
        f"{spot.x} to {spot.x + wide}",
        f"{spot.y} to {spot.y + high}",
    )
