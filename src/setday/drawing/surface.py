"""A surface as seen from inside the room."""

from setday.drawing.elevation import Elevation, Sides, crossed_box, fit, outline_heights, words_in_box
from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, FINE, HAIR, Svg, group, line, polygon, rect
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Link, Paper, finish, key_of, linked, scale_bar
from setday.drawing.placing import upright_inside
from setday.drawing.table import Table
from setday.house import Surface, SurfaceKind, SurfaceOpening
from setday.measure import ZERO, Length, write_inches

__all__ = ["surface_elevation", "surface_table"]

_CENTER_LINE = "9 2.5 2 2.5"


def surface_elevation(
    surface: Surface,
    *,
    paper: Paper = LETTER,
    members: bool = True,
    link: Link | None = None,
    key: str = "surface",
) -> str:
    """Draw a surface as seen from inside the room (a ceiling from below).

    Parameters
    ----------
    surface : Surface
    paper : Paper
    members : bool
        Show the center lines of the framing behind it, and dimension them.
    link : callable or None
        Gives the address of a "wall" by name, for the stretches of the surface.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    size = (surface.width.inches, surface.height.inches)
    scale, view, chains, area = fit(
        size_in=size, sides=_sides(surface, members=members and paper.to_scale), paper=paper
    )
    marks: list[str] = []
    body = (
        chains,
        polygon(view.ring([(x.inches, y.inches) for x, y in surface.outline]), width=0, fill="paper"),
        _wet(surface, view, marks),
        _members(surface, view) if members else Svg(""),
        polygon(view.ring([(x.inches, y.inches) for x, y in surface.outline]), width=BOLD),
        *(_opening(opening, view, marks) for opening in surface.openings),
        _stretches(surface, view, link),
    )
    notes, height = notes_below(
        [*marks, *_reading(surface, members=members)], y=area.bottom + 44, width=max(area.right, 300.0)
    )
    return finish(
        body=(*body, scale_bar(x=view.left, y=area.bottom + 14, scale=scale), notes),
        title=f"{surface.label}, seen from {_seen_from(surface)}",
        desc=_words(surface),
        width=max(area.right, 300.0),
        height=height,
        key=key_of(key, surface.id),
        links=link is not None,
    )


def _seen_from(surface: Surface) -> str:
    return "below" if surface.kind is SurfaceKind.CEILING else "inside the room"


def _sides(surface: Surface, *, members: bool) -> Sides:
    wide, high = surface.width, surface.height
    sills = {y for o in surface.openings for y in (o.y, o.y + o.h)}
    sides = {x for o in surface.openings for x in (o.x, o.x + o.w)}
    wet = {x for patch in surface.wet for x in (patch.x, patch.x + patch.w)}
    left, right = outline_heights(surface.outline)
    corners = {x for x, _ in surface.outline}
    centers = {backing.x for backing in surface.backing} if members else set()
    heights = tuple(sorted({ZERO, high, *sills}))
    return Sides(
        top=((ZERO, *sorted(centers), wide),) if centers else (),
        bottom=((ZERO, *sorted(sides | wet), wide), tuple(sorted(corners))),
        left=(left, (ZERO, high)),
        right=(heights, right),
        top_in_inches=True,
    )


def _members(surface: Surface, view: Elevation) -> Svg:
    ring = [(x.inches, y.inches) for x, y in surface.outline]
    parts = []
    for backing in surface.backing:
        x = backing.x.inches
        for low, high in upright_inside(ring, x=x, low=backing.y_low.inches, high=backing.y_high.inches):
            ends = {"x1": view.x(x), "y1": view.y(low), "x2": view.x(x), "y2": view.y(high)}
            parts.append(line(**ends, width=FINE, dash=_CENTER_LINE))
    return group(*parts)


def _opening(opening: SurfaceOpening, view: Elevation, marks: list[str]) -> Svg:
    box = view.box(opening.x.inches, opening.y.inches, opening.w.inches, opening.h.inches)
    lines = (opening.name, f"{opening.w} x {opening.h}")
    words = words_in_box(box, lines) or words_in_box(box, lines[:1])
    if words is None:
        marks.append(f"{len(marks) + 1} = {', '.join(lines)}")
        words = words_in_box(box, (str(len(marks)),)) or Svg("")
    return group(crossed_box(box, door=not opening.y), words, data_kind="opening", data_id=opening.name)


def _wet(surface: Surface, view: Elevation, marks: list[str]) -> Svg:
    parts = []
    for patch in surface.wet:
        box = view.box(patch.x.inches, patch.y.inches, patch.w.inches, patch.h.inches)
        w, h = box.right - box.left, box.bottom - box.top
        board = "no board" if patch.board == "none" else f"{patch.board} board"
        angle = -45.0 if patch.board == "none" else 45.0
        words = words_in_box(box, (patch.name, board)) or words_in_box(box, (patch.name,))
        if words is None:
            marks.append(f"{len(marks) + 1} = {patch.name}, {board}")
            words = words_in_box(box, (str(len(marks)),)) or Svg("")
        hatching = hatch_box(x=box.left, y=box.top, w=w, h=h, spacing=7, angle=angle)
        parts.append(group(hatching, rect(x=box.left, y=box.top, w=w, h=h, width=HAIR), words))
    return group(*parts)


def _stretches(surface: Surface, view: Elevation, link: Link | None) -> Svg:
    """Lay a place to touch over every stretch of the surface that belongs to one wall."""
    if link is None:
        return Svg("")
    parts = []
    for span in surface.spans:
        box = view.box(span.x.inches, 0, span.width.inches, surface.height.inches)
        touch = rect(
            x=box.left, y=box.top, w=box.right - box.left, h=box.bottom - box.top, width=0, fill="touch"
        )
        parts.append(linked(touch, kind="wall", name=span.wall, label=f"wall {span.wall}", link=link))
    return group(*parts)


def _reading(surface: Surface, *, members: bool) -> list[str]:
    notes = []
    if members and surface.backing:
        notes.append(
            f"Dash-dot: centers of framing members, {write_inches(surface.member_spacing)} on center."
        )
    if surface.wet:
        notes.append("Hatched: wet areas.")
    if surface.kind is SurfaceKind.CEILING:
        up, right = _compass(surface.plan_y), _compass(surface.plan_x)
        notes.append(f"Ceiling seen from below; members run up the sheet. Up is {up}, right is {right}.")
    notes.append("To the framing; nothing taken off for boards or gaps.")
    return notes


def _compass(way: tuple[float, float]) -> str:
    east, north = way
    if abs(north) > abs(east):
        return "north" if north > 0 else "south"
    return "east" if east > 0 else "west"


def _words(surface: Surface) -> str:
    openings = "; ".join(
        f"{o.name}, {o.w} wide, {o.h} high, {o.x} from the left, {o.y} up" for o in surface.openings
    )
    wet = "; ".join(f"{p.name}, {p.w} wide from {p.x}, {p.board}" for p in surface.wet)
    parts = [f"{surface.width} wide, {surface.height} high, {surface.gross_area} with openings."]
    parts += [f"Openings: {openings}."] if openings else []
    parts += [f"Wet areas: {wet}."] if wet else []
    return " ".join(parts)


def surface_table(surface: Surface) -> Table:
    """Return what stands on a surface in words and figures, from left to right."""
    rows: list[tuple[Length, tuple[str, ...]]] = [
        (o.x, (o.name, o.kind, str(o.x), str(o.y), str(o.w), str(o.h))) for o in surface.openings
    ]
    rows += [
        (p.x, (p.name, "no board" if p.board == "none" else p.board, str(p.x), str(p.y), str(p.w), str(p.h)))
        for p in surface.wet
    ]
    rows += [
        (b.x, (b.kind, "member, center", str(b.x), str(b.y_low), str(b.width), str(b.y_high - b.y_low)))
        for b in surface.backing
    ]
    return Table(
        caption=f"What stands on {surface.label}",
        head=("Name", "Kind", "From the left", "Up from the floor", "Wide", "High"),
        rows=tuple(row for _, row in sorted(rows, key=lambda row: (row[0], row[1]))),
        figures=(False, False, True, True, True, True),
    )
