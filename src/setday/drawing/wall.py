"""A wall's framing, from either side."""

from collections.abc import Sequence
from math import ceil

from setday.drawing.elevation import Elevation, Sides, fit, words_in_box
from setday.drawing.hatch import hatch
from setday.drawing.ink import FINE, HAIR, Svg, group, line, polygon, rect
from setday.drawing.lettering import SMALL, Taken, letters, spread, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Link, Paper, finish, key_of, linked, scale_bar
from setday.drawing.table import Table
from setday.house import FramingMember, MemberKind, Opening, Surface, Wall
from setday.measure import ZERO, Length, write_inches

__all__ = [
    "draw_headers",
    "draw_member",
    "draw_rough_opening",
    "sides_of_wall",
    "top_of_wall",
    "touch_surfaces",
    "wall_elevation",
    "wall_table",
]

LETTER_OF = {
    MemberKind.STUD: "X",
    MemberKind.END_STUD: "E",
    MemberKind.CORNER: "B",
    MemberKind.PARTITION: "P",
    MemberKind.KING: "K",
    MemberKind.JACK: "J",
    MemberKind.CRIPPLE: "C",
}
_LEVEL = {MemberKind.BOTTOM_PLATE, MemberKind.TOP_PLATE, MemberKind.HEADER, MemberKind.SILL}
_MARK_GAP = 7.0
_TAPE_GAP = 10.5
_MARKS_HIGH = 20.0


def wall_elevation(
    wall: Wall,
    *,
    side: str = "right",
    surfaces: Sequence[Surface] = (),
    paper: Paper = LETTER,
    link: Link | None = None,
    key: str = "wall",
) -> str:
    """Draw the framing of a wall as seen from one side.

    Parameters
    ----------
    wall : Wall
    side : str
        "left" or "right", looking from the wall's start to its end; from the left the start is at the
        right of the drawing.
    surfaces : sequence of Surface
        The surfaces of the house; those on this side of the wall become links.
    paper : Paper
    link : callable or None
        Gives the address of a "surface" by id.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    size = (wall.length.inches, top_of_wall(wall).inches)
    for tape in (_tape_high(wall), 0.0):
        under = _MARKS_HIGH * (1 if tape else 2) + tape
        scale, view, chains, area = fit(
            size_in=size, sides=sides_of_wall(wall, side), paper=paper, below=70, under=under
        )
        if len(_uprights(wall)) * _TAPE_GAP <= view.per_inch * wall.length.inches:
            break
    taken = Taken()
    marks: list[str] = []
    body = (
        chains,
        *(draw_member(member, view) for member in wall.members),
        *(draw_rough_opening(opening, view, taken, marks) for opening in wall.openings),
        draw_headers(wall, view),
        _layout_marks(wall, view, tape=tape > 0),
        touch_surfaces(wall, side, surfaces, view, link),
    )
    width = max(area.right, 340.0)
    notes, height = notes_below(
        [*marks, *_reading(wall, side, tape=tape > 0)], y=area.bottom + 44, width=width
    )
    return finish(
        body=(*body, scale_bar(x=view.left, y=area.bottom + 14, scale=scale), notes),
        title=f"Framing of wall {wall.name}, seen from its {side}",
        desc=_words(wall),
        width=width,
        height=height,
        key=key_of(key, wall.name, side),
        links=link is not None,
    )


def top_of_wall(wall: Wall) -> Length:
    """Return the highest point of a wall."""
    return max(height for _, height in wall.top)


def sides_of_wall(wall: Wall, side: str) -> Sides:
    """Return what is dimensioned around a wall seen from one side."""
    openings = {x for o in wall.openings for x in (o.along, o.along + o.width)}
    heights = {y for o in wall.openings for y in (o.sill, o.head)}
    at_start, at_end = wall.top[0][1], wall.top[-1][1]
    mirrored = side == "left"
    left, right = (at_end, at_start) if mirrored else (at_start, at_end)
    return Sides(
        bottom=((ZERO, *sorted(openings), wall.length), (ZERO, wall.length)),
        left=((ZERO, left), (ZERO, top_of_wall(wall)) if left != top_of_wall(wall) else ()),
        right=(tuple(sorted({ZERO, right, *heights})), (ZERO, right) if heights and left != right else ()),
        top=(tuple(along for along, _ in wall.top),) if len(wall.top) > 2 else (),
        mirrored=mirrored,
    )


def _corners(member: FramingMember) -> list[tuple[float, float]]:
    left, right, bottom = member.left.inches, member.right.inches, member.bottom.inches
    top_left, top_right = member.top_left.inches, member.top_right.inches
    rise = top_right - top_left if member.kind in _LEVEL else 0.0
    return [(left, bottom), (right, bottom + rise), (right, top_right), (left, top_left)]


def draw_member(member: FramingMember, view: Elevation) -> Svg:
    """Draw a member; each kind has a filling of its own, so that the drawing reads without color."""
    ring = view.ring(_corners(member))
    shape = polygon(ring, width=FINE, fill="paper", data_kind="member", data_id=str(member.kind))
    if member.kind in {MemberKind.CORNER, MemberKind.PARTITION}:
        return polygon(ring, width=FINE, fill="ink", data_kind="member", data_id=str(member.kind))
    if member.kind is MemberKind.JACK:
        return group(shape, hatch([ring], spacing=3.2))
    if member.kind is MemberKind.HEADER:
        return group(shape, hatch([ring], spacing=5), hatch([ring], spacing=5, angle=-45))
    if member.kind is MemberKind.SILL:
        return group(shape, hatch([ring], spacing=3.2, angle=-45))
    return shape


def draw_headers(wall: Wall, view: Elevation) -> Svg:
    """Letter the headers with their depth."""
    parts = []
    for member in wall.members:
        if member.kind is not MemberKind.HEADER:
            continue
        wide, deep = member.right - member.left, member.top_left - member.bottom
        box = view.box(member.left.inches, member.bottom.inches, wide.inches, deep.inches)
        text = f"header {write_inches(deep)}"
        parts.append(words_in_box(box, (text,)) or words_in_box(box, ("H",)) or Svg(""))
    return group(*parts)


def draw_rough_opening(opening: Opening, view: Elevation, taken: Taken, marks: list[str]) -> Svg:
    """Letter an opening in its middle, or give it a number and note its words in `marks`."""
    box = view.box(opening.along.inches, opening.sill.inches, opening.width.inches, opening.height.inches)
    lines = (opening.name, f"{opening.width} x {opening.height}", "rough opening")
    words = words_in_box(box, lines, taken=taken, bold=True)
    words = words or words_in_box(box, lines[:2], taken=taken, bold=True)
    if words is None:
        marks.append(f"{len(marks) + 1} = {lines[0]}, rough opening {lines[1]}")
        words = words_in_box(box, (str(len(marks)),), taken=taken, bold=True) or Svg("")
    return group(words, data_kind="opening", data_id=opening.name)


def _uprights(wall: Wall) -> list[FramingMember]:
    """Return the members that stand on the bottom plate, or over it, each place once."""
    places: dict[Length, FramingMember] = {}
    for member in sorted(wall.members, key=lambda m: (m.left, m.bottom)):
        if member.kind in LETTER_OF:
            places.setdefault(member.left, member)
    return list(places.values())


def _tape_high(wall: Wall) -> float:
    """Return the room the tape readings take under the plate."""
    widest = (text_width(write_inches(member.left), size=SMALL) for member in _uprights(wall))
    return max(widest, default=0.0) + 10


def _layout_marks(wall: Wall, view: Elevation, *, tape: bool) -> Svg:
    """Letter every upright under the bottom plate, and the tape reading to its near edge.

    Where there is no room for the readings the letters stand in as many rows as they need, by turns.
    """
    uprights = sorted(_uprights(wall), key=lambda member: view.x(member.center.inches))
    wanted = [view.x(member.center.inches) for member in uprights]
    ends = sorted((view.x(0), view.x(wall.length.inches)))
    rows = 1 if tape else max(1, ceil(len(uprights) * _MARK_GAP / (ends[1] - ends[0])))
    gap = _TAPE_GAP if tape else _MARK_GAP / rows + 0.4
    places = spread(wanted, gap=gap, low=ends[0], high=ends[1])
    top = view.y(0)
    parts = []
    for i, (member, at, place) in enumerate(zip(uprights, wanted, places, strict=True)):
        down = top + 15 + (i % rows) * SMALL * 1.15
        parts.append(line(x1=at, y1=top + 1, x2=place, y2=top + 9, width=HAIR))
        mark = LETTER_OF[member.kind] + ("*" if member.built else "")
        parts.append(letters(mark, x=place, y=down, size=SMALL, bold=True))
        if tape:
            text = write_inches(member.left)
            middle = top + 23 + text_width(text, size=SMALL) / 2
            parts.append(letters(text, x=place, y=middle, size=SMALL, upright=True))
    return group(*parts)


def touch_surfaces(
    wall: Wall, side: str, surfaces: Sequence[Surface], view: Elevation, link: Link | None
) -> Svg:
    """Lay a place to touch over every stretch of the wall that is part of a surface on this side."""
    if link is None:
        return Svg("")
    parts = []
    for surface in surfaces:
        for span in surface.spans:
            if (span.wall, span.side) != (wall.name, side):
                continue
            start = span.along.inches if span.forward else span.along.inches - span.width.inches
            box = view.box(start, 0, span.width.inches, top_of_wall(wall).inches)
            w, h = box.right - box.left, box.bottom - box.top
            touch = rect(x=box.left, y=box.top, w=w, h=h, width=0, fill="touch")
            parts.append(linked(touch, kind="surface", name=surface.id, label=surface.label, link=link))
    return group(*parts)


def _reading(wall: Wall, side: str, *, tape: bool) -> list[str]:
    used = {member.kind for member in wall.members}
    marks = ", ".join(f"{mark} {kind}" for kind, mark in LETTER_OF.items() if kind in used)
    start = "right" if side == "left" else "left"
    notes = [f"Marks on the plate: {marks}." if marks else ""]
    if tape:
        notes.append(
            f"Figures: tape from the wall's start, here at the {start}, to the near edge of the member."
        )
    else:
        notes.append(f"The wall's start is at the {start}; distances stand in the table.")
    if MemberKind.HEADER in used:
        notes.append("Crosshatched: headers.")
    if any(member.built for member in wall.members):
        notes.append("* as really built, from the house file.")
    notes.append(
        f"Studs {write_inches(wall.spacing)} on center, framing {write_inches(wall.kind.depth)} deep."
    )
    return [note for note in notes if note]


def _words(wall: Wall) -> str:
    counts: dict[str, int] = {}
    for member in wall.members:
        counts[str(member.kind)] = counts.get(str(member.kind), 0) + 1
    members = ", ".join(f"{count} x {kind}" for kind, count in counts.items())
    openings = "; ".join(f"{o.name}, {o.width} x {o.height}, {o.along} from the start" for o in wall.openings)
    parts = [f"{wall.length} long, {top_of_wall(wall)} high. Members: {members}."]
    return " ".join([*parts, f"Openings: {openings}."] if openings else parts)


def wall_table(wall: Wall) -> Table:
    """Return the framing of a wall in words and figures, from its start."""
    rows = tuple(
        (
            LETTER_OF.get(member.kind, ""),
            str(member.kind) + (", as built" if member.built else ""),
            write_inches(member.left),
            write_inches(member.center),
            write_inches(_long(member)),
        )
        for member in sorted(wall.members, key=lambda m: (m.left, m.bottom))
    )
    return Table(
        caption=f"Framing of wall {wall.name}, from its start",
        head=("Mark", "Member", "Near edge", "Center", "Long"),
        rows=rows,
        figures=(False, False, True, True, True),
    )


def _long(member: FramingMember) -> Length:
    if member.kind in _LEVEL:
        return member.right - member.left
    return max(member.top_left, member.top_right) - member.bottom
