"""A surface with its boards: numbered pieces, their sizes, and every joint by its kind."""

from collections.abc import Iterator, Sequence

from setday.boards import Board, Layout, Piece, Rows, Surface, Void, cuts_in_words
from setday.drawing.board_joints import Joint, JointKind, joints, widths_of
from setday.drawing.board_marks import piece_marks, piece_size, rows_of
from setday.drawing.elevation import Elevation, Sides, crossed_box, fit, words_in_box
from setday.drawing.ink import BOLD, DOTTED, LINE, Svg, group, line, polygon
from setday.drawing.lettering import NORMAL, SMALL, Box, Taken, letters, text_width
from setday.drawing.notes import key_below, notes_below
from setday.drawing.paper import LETTER, Paper, Scale, finish, key_of, scale_bar
from setday.drawing.placing import free_place, upright_inside
from setday.drawing.table import Table
from setday.measure import Length

__all__ = [
    "board_layout",
    "board_layout_scale",
    "draw_joint",
    "joint_legend",
    "piece_corners",
    "piece_table",
    "room_piece_table",
]

_STYLES = {
    JointKind.BUTT: (BOLD, None),
    JointKind.TAPERED: (LINE, "11 4"),
    JointKind.CUT: (LINE, "7 3 1.5 3"),
}


def board_layout(
    surface: Surface,
    layout: Layout,
    *,
    boards: Sequence[Board],
    paper: Paper = LETTER,
    members: bool = True,
    key: str = "boards",
) -> str:
    """Draw the boards of one surface as they are hung, seen from inside the room.

    Parameters
    ----------
    surface : Surface
        As the layout problem has it.
    layout : Layout
        Of the whole house; only the pieces on `surface` are drawn.
    boards : sequence of Board
        The price list, for the widths of the boards.
    paper : Paper
    members : bool
        Show the framing behind.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    pieces, found = _hung(surface, layout, boards)
    scale, view, chains, area = _fitted(surface, pieces, found, paper)
    outline = view.ring([(x / 64, y / 64) for x, y in surface.outline])
    lettering, smalls = _letter_pieces(surface, pieces, view, layout)
    body = (
        chains,
        *_pieces_and_members(surface, pieces, view, members=members),
        *(_void(void, view) for void in surface.voids),
        *(draw_joint(joint, view) for joint in found),
        polygon(outline, width=LINE),
        lettering,
    )
    width = max(area.right, 330.0)
    legend = joint_legend(sorted({joint.kind for joint in found}), x=12, y=area.bottom + 46, width=width)
    sizes, foot = key_below(smalls, y=area.bottom + 46 + legend[1], width=width)
    notes, height = notes_below(_gave_way(surface, layout), y=foot, width=width)
    bar = scale_bar(x=view.left, y=area.bottom + 14, scale=scale)
    return finish(
        body=(*body, bar, legend[0], sizes, notes),
        title=f"Boards of {surface.label}",
        desc=_words(surface, pieces, layout, found),
        width=width,
        height=height,
        key=key_of(key, surface.id),
    )


def board_layout_scale(
    surface: Surface, layout: Layout, *, boards: Sequence[Board], paper: Paper = LETTER
) -> Scale:
    """Return the scale at which the boards of a surface are drawn on a paper."""
    pieces, found = _hung(surface, layout, boards)
    return _fitted(surface, pieces, found, paper)[0]


def _hung(surface: Surface, layout: Layout, boards: Sequence[Board]) -> tuple[list[Piece], Sequence[Joint]]:
    """Return the pieces of one surface and the joints between them."""
    pieces = [piece for piece in layout.pieces if piece.surface == surface.id]
    rows = rows_of(layout, surface.id)
    return pieces, joints(surface, pieces, rows=rows, widths=widths_of(layout, boards))


def _fitted(
    surface: Surface, pieces: Sequence[Piece], found: Sequence[Joint], paper: Paper
) -> tuple[Scale, Elevation, Svg, Box]:
    size = (surface.width / 64, surface.height / 64)
    return fit(size_in=size, sides=_sides(surface, pieces, found), paper=paper, below=90)


def piece_corners(piece: Piece) -> tuple[tuple[int, int], ...]:
    """Return the corners of a piece on its surface [1/64 in]."""
    if piece.outline:
        return piece.outline
    right, top = piece.x + piece.w, piece.y + piece.h
    return ((piece.x, piece.y), (right, piece.y), (right, top), (piece.x, top))


def draw_joint(joint: Joint, view: Elevation) -> Svg:
    """Draw a joint in the line style of its kind."""
    width, dash = _STYLES[joint.kind]
    (x1, y1), (x2, y2) = view.ring([(joint.x1 / 64, joint.y1 / 64), (joint.x2 / 64, joint.y2 / 64)])
    return line(x1=x1, y1=y1, x2=x2, y2=y2, width=width, dash=dash)


def _pieces_and_members(
    surface: Surface, pieces: Sequence[Piece], view: Elevation, *, members: bool
) -> list[Svg]:
    marks = {id(piece): f"{surface.id}#{i}" for i, piece in enumerate(pieces)}
    drawn = [
        polygon(
            view.ring([(x / 64, y / 64) for x, y in piece_corners(piece)]),
            width=0,
            fill="paper",
            data_kind="piece",
            data_id=marks[id(piece)],
            data_board=str(piece.board),
        )
        for piece in pieces
    ]
    if members:
        drawn += _framing_behind(surface, view)
    return drawn


def _framing_behind(surface: Surface, view: Elevation) -> list[Svg]:
    ring = [(x / 64, y / 64) for x, y in surface.outline]
    drawn = []
    for member in surface.members:
        x = member.x / 64
        for low, high in upright_inside(ring, x=x, low=member.y_low / 64, high=member.y_high / 64):
            drawn.append(line(x1=view.x(x), y1=view.y(low), x2=view.x(x), y2=view.y(high), dash=DOTTED))
    return drawn


def _void(void: Void, view: Elevation) -> Svg:
    box = view.box(void.x / 64, void.y / 64, void.w / 64, void.h / 64)
    words = words_in_box(box, (void.name,)) if void.name else None
    return group(crossed_box(box, door=void.y <= 0), words or Svg(""))


def _letter_pieces(
    surface: Surface, pieces: Sequence[Piece], view: Elevation, layout: Layout
) -> tuple[Svg, list[str]]:
    """Write mark and size on every piece; sizes that do not fit go into notes beneath."""
    marks, rows = piece_marks(layout), rows_of(layout, surface.id)
    taken = Taken([view.box(v.x / 64, v.y / 64, v.w / 64, v.h / 64) for v in surface.voids])
    parts, smalls = [], []
    for piece in pieces:
        size = piece_size(piece, rows)
        ring = view.ring([(x / 64, y / 64) for x, y in piece_corners(piece)])
        lettered = _on_piece(marks[piece], size, ring, taken)
        if lettered is None:
            smalls.append(f"{marks[piece]} = {size}")
            lettered = _only_mark(marks[piece], ring, taken)
        parts.append(lettered)
    return group(*parts), smalls


def _on_piece(mark: str, size: str, ring: list[tuple[float, float]], taken: Taken) -> Svg | None:
    first, _, second = size.partition(" x ")
    for lines in ((size,), (f"{first} x", second)):
        wide = max(text_width(text, size=SMALL) for text in lines) + 4
        box = free_place([ring], (wide, 22 + len(lines) * SMALL * 1.3), taken, margin=2)
        if box:
            return _mark_over_size(mark, lines, box)
    for upright in (False, True):
        long, tall = text_width(f"{mark}  {size}", size=SMALL) + 2, SMALL * 1.2
        box = free_place([ring], (tall, long) if upright else (long, tall), taken)
        if box:
            return _mark_beside_size(mark, size, box, upright=upright)
    return None


def _mark_over_size(mark: str, lines: Sequence[str], box: Box) -> Svg:
    x = (box.left + box.right) / 2
    parts = [letters(mark, x=x, y=box.top + 11, size=NORMAL + 4, bold=True, halo=True)]
    for i, text in enumerate(lines):
        parts.append(letters(text, x=x, y=box.top + 22 + (i + 0.6) * SMALL * 1.3, size=SMALL, halo=True))
    return group(*parts)


def _mark_beside_size(mark: str, size: str, box: Box, *, upright: bool) -> Svg:
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    after = text_width(f"{mark}  ", size=SMALL) / 2
    before = text_width(f"  {size}", size=SMALL) / 2
    at_mark, at_size = ((x, y + before), (x, y - after)) if upright else ((x - before, y), (x + after, y))
    return group(
        letters(mark, x=at_mark[0], y=at_mark[1], size=SMALL, bold=True, halo=True, upright=upright),
        letters(size, x=at_size[0], y=at_size[1], size=SMALL, halo=True, upright=upright),
    )


def _only_mark(mark: str, ring: list[tuple[float, float]], taken: Taken) -> Svg:
    """Write only the mark of a small piece; on the tiniest it stands across its edges on blank paper."""
    wide, tall = text_width(mark, size=SMALL) + 3, SMALL * 1.2
    for upright in (False, True):
        box = free_place([ring], (tall, wide) if upright else (wide, tall), taken, margin=0)
        if box:
            x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            return letters(mark, x=x, y=y, size=SMALL, bold=True, halo=True, upright=upright)
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    narrow = max(xs) - min(xs) < max(ys) - min(ys)
    return letters(mark, x=x, y=y, size=SMALL, bold=True, halo=True, upright=narrow)


def _sides(surface: Surface, pieces: Sequence[Piece], found: Sequence[Joint]) -> Sides:
    """Dimension the joints of the lowest row below, openings and the highest row above, rows at the left."""
    wide, high = surface.width, surface.height
    upright = [joint for joint in found if joint.x1 == joint.x2]
    level = [joint for joint in found if joint.y1 == joint.y2]
    low = {joint.x1 for joint in upright if min(joint.y1, joint.y2) == min((p.y for p in pieces), default=0)}
    top = {
        joint.x1
        for joint in upright
        if max(joint.y1, joint.y2) >= max((p.y + p.h for p in pieces), default=0)
    }
    left = {joint.y1 for joint in level}
    right: set[float] = {y for _, y in surface.outline} | {y for v in surface.voids for y in (v.y, v.y + v.h)}
    openings: set[float] = {x for v in surface.voids for x in (v.x, v.x + v.w)}
    above = [_chain({0, wide, *places}) for places in (openings, top) if places]
    return Sides(
        top=tuple(above),
        bottom=(_chain({0, wide, *low}), _chain({0.0, wide})),
        left=(_chain({0, high, *left}),),
        right=(_chain(right),) if len(right) > 2 else (),
    )


def _chain(places: set[float]) -> tuple[Length, ...]:
    return tuple(Length(round(place)) for place in sorted(places))


def joint_legend(kinds: Sequence[JointKind], *, x: float, y: float, width: float) -> tuple[Svg, float]:
    """Draw the line style of every kind of joint on the drawing with its name; return it and its height."""
    parts, at, down = [], x, 0.0
    for kind in kinds:
        stroke, dash = _STYLES[kind]
        need = 42 + text_width(kind.value, size=SMALL) + 16
        if at > x and at + need > width:
            at, down = x, down + 14
        parts.append(line(x1=at, y1=y + down, x2=at + 34, y2=y + down, width=stroke, dash=dash))
        parts.append(letters(kind.value, x=at + 40, y=y + down, size=SMALL, anchor="start"))
        at += need
    return group(*parts), down + 16 if kinds else 0.0


def _gave_way(surface: Surface, layout: Layout) -> list[str]:
    """Return the sentences on rules that had to give way on this surface."""
    about = [text for text in layout.relaxed if surface.label in text or surface.id in text]
    return [f"\N{BLACK UP-POINTING TRIANGLE} Rule that gave way: {text}" for text in about]


def _words(surface: Surface, pieces: Sequence[Piece], layout: Layout, found: Sequence[Joint]) -> str:
    marks, rows = piece_marks(layout), rows_of(layout, surface.id)
    each = "; ".join(f"{marks[p]}, {piece_size(p, rows)}" for p in pieces)
    butt = sum(joint.length for joint in found if joint.kind is JointKind.BUTT) / 768
    way = "along the width" if rows is Rows.ALONG else "up the height"
    gave = " ".join(_gave_way(surface, layout))
    return f"{len(pieces)} pieces in rows {way}, {butt:.1f} ft of butt joints. Pieces: {each}. {gave}".strip()


def piece_table(surface: Surface, layout: Layout) -> Table:
    """Return the pieces of a surface in words and figures, in hanging order."""
    return Table(
        caption=f"Pieces on {surface.label}",
        head=_PIECE_HEAD,
        rows=tuple(_piece_rows(surface, layout)),
        figures=_PIECE_FIGURES,
    )


def room_piece_table(surfaces: Sequence[Surface], layout: Layout) -> Table:
    """Return where the pieces of a room hang and what is cut out of them, surface by surface.

    Parameters
    ----------
    surfaces : sequence of Surface
        Of one room.
    layout : Layout
    """
    room = surfaces[0].room
    return Table(
        caption=f"Pieces in {room}",
        head=("On", "Piece", *_PIECE_HEAD[3:]),
        rows=tuple(
            (surface.label.removeprefix(f"{room}, "), row[0], *row[3:])
            for surface in surfaces
            for row in _piece_rows(surface, layout)
        ),
        figures=(False, False, *_PIECE_FIGURES[3:]),
    )


def _piece_rows(surface: Surface, layout: Layout) -> Iterator[tuple[str, ...]]:
    marks, rows = piece_marks(layout), rows_of(layout, surface.id)
    keys = {bought.number: bought.key for bought in layout.boards}
    for piece in layout.pieces:
        if piece.surface == surface.id:
            yield (
                marks[piece],
                keys[piece.board],
                str(piece.row + 1),
                piece_size(piece, rows),
                str(Length(piece.x)),
                str(Length(piece.y)),
                "; ".join(cuts_in_words(piece, surface)),
            )


_PIECE_HEAD = ("Piece", "Cut from", "Row", "Size", "From the left", "Up", "Cut out of it")
_PIECE_FIGURES = (False, False, True, False, True, True, False)
