"""How one board is cut, and every surface of the house with its boards at a glance."""

from collections.abc import Sequence

from setday.boards import Board, Layout, Piece, Rows, Surface
from setday.drawing.board_marks import piece_marks, piece_size, rows_of
from setday.drawing.boards import piece_corners
from setday.drawing.elevation import Elevation, Sides, fit, words_in_ring
from setday.drawing.hatch import hatch
from setday.drawing.ink import BOLD, LINE, Svg, group, polygon
from setday.drawing.lettering import Taken
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.drawing.table import Table
from setday.measure import Length

__all__ = ["cutting_diagram", "cutting_table"]

_GAP = 22.0
_LEAST_LABEL = 84.0
"""Room a surface's name takes at the least [drawing units]."""
_LEAST_SCALE = 1.05
"""Drawing units per inch at which numbers still fit on small pieces."""


def cutting_diagram(
    layout: Layout,
    *,
    number: int,
    boards: Sequence[Board],
    surfaces: Sequence[Surface],
    paper: Paper = LETTER,
    key: str = "cut",
) -> str:
    """Draw how one board is cut: its pieces with sizes and places, the rest hatched.

    Parameters
    ----------
    layout : Layout
    number : int
        The number of the bought board.
    boards : sequence of Board
        The price list.
    surfaces : sequence of Surface
        Of the layout problem, for their names.
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    board = _board(layout, number, boards)
    pieces = [piece for piece in layout.pieces if piece.board == number]
    labels = {surface.id: surface.label for surface in surfaces}
    half = Paper(width=paper.width, height=360, to_scale=paper.to_scale)
    size = (board.length / 64, board.width / 64)
    _, view, chains, area = fit(size_in=size, sides=_cuts(board, pieces, layout), paper=half, below=20)
    whole = view.box(0, 0, board.length / 64, board.width / 64)
    rings = [
        view.ring([(x / 64, y / 64) for x, y in corners_on_board(p, rows_of(layout, p.surface))])
        for p in pieces
    ]
    around = [
        (whole.left, whole.top),
        (whole.right, whole.top),
        (whole.right, whole.bottom),
        (whole.left, whole.bottom),
    ]
    drawn = [
        polygon(ring, width=LINE, fill="paper", data_kind="piece", data_board=str(number)) for ring in rings
    ]
    lettered, small = _letter_cuts(pieces, layout, view, labels)
    width = max(area.right, 330.0)
    notes, height = notes_below(small, y=area.bottom + 10, width=width)
    return finish(
        body=(chains, hatch([around], spacing=6), *drawn, polygon(around, width=BOLD), lettered, notes),
        title=f"Board {number}: {Length(board.width)} x {Length(board.length)}, {board.kind}",
        desc=_cut_words(pieces, layout, labels),
        width=width,
        height=height,
        key=key_of(key, str(number)),
    )


def corners_on_board(piece: Piece, rows: Rows) -> list[tuple[int, int]]:
    """Return the corners of a piece where it is cut from its board [1/64 in].

    A piece of a row that runs up the surface is turned a quarter; a flipped piece is turned end for end.
    """
    corners = []
    for x, y in piece_corners(piece):
        dx, dy = x - piece.x, y - piece.y
        along, across = (dx, dy) if rows is Rows.ALONG else (dy, piece.w - dx)
        if piece.flipped:
            long, high = (piece.w, piece.h) if rows is Rows.ALONG else (piece.h, piece.w)
            along, across = long - along, high - across
        corners.append((piece.board_x + along, piece.board_y + across))
    return corners


def _board(layout: Layout, number: int, boards: Sequence[Board]) -> Board:
    key = next(bought.key for bought in layout.boards if bought.number == number)
    return next(board for board in boards if board.key == key)


def _box_on_board(piece: Piece, layout: Layout) -> tuple[int, int, int, int]:
    rows = rows_of(layout, piece.surface)
    long, high = (piece.w, piece.h) if rows is Rows.ALONG else (piece.h, piece.w)
    return piece.board_x, piece.board_y, long, high


def _cuts(board: Board, pieces: Sequence[Piece], layout: Layout) -> Sides:
    boxes = [_box_on_board(piece, layout) for piece in pieces]
    along = {0, board.length, *(place for x, _, w, _ in boxes for place in (x, x + w))}
    across = {0, board.width, *(place for _, y, _, h in boxes for place in (y, y + h))}
    return Sides(
        bottom=(tuple(map(Length, sorted(along))), (Length(0), Length(board.length))),
        left=(tuple(map(Length, sorted(across))),),
    )


def _letter_cuts(
    pieces: Sequence[Piece], layout: Layout, view: Elevation, labels: dict[str, str]
) -> tuple[Svg, list[str]]:
    marks = piece_marks(layout)
    taken = Taken()
    parts, small = [], []
    for piece in pieces:
        rows = rows_of(layout, piece.surface)
        ring = view.ring([(x / 64, y / 64) for x, y in corners_on_board(piece, rows)])
        label, size, mark = labels.get(piece.surface, piece.surface), piece_size(piece, rows), marks[piece]
        words = words_in_ring(ring, (mark, size, label), taken=taken, bold=True)
        if words is None:
            small.append(f"{mark} = {size}, {label}")
            words = words_in_ring(ring, (mark, size), taken=taken, bold=True)
        parts.append(words or words_in_ring(ring, (mark,), taken=taken, bold=True) or Svg(""))
    return group(*parts), small


def _cut_words(pieces: Sequence[Piece], layout: Layout, labels: dict[str, str]) -> str:
    marks = piece_marks(layout)
    each = "; ".join(
        f"{marks[p]}, {piece_size(p, rows_of(layout, p.surface))}, {labels.get(p.surface, p.surface)}"
        for p in pieces
    )
    return f"Pieces cut from it: {each}. The rest is hatched."


def cutting_table(layout: Layout, *, boards: Sequence[Board], surfaces: Sequence[Surface]) -> Table:
    """Return the cut list of the whole layout, board by board."""
    marks = piece_marks(layout)
    labels = {surface.id: surface.label for surface in surfaces}
    rows = []
    for bought in layout.boards:
        board = _board(layout, bought.number, boards)
        for piece in (p for p in layout.pieces if p.board == bought.number):
            way = rows_of(layout, piece.surface)
            start = str(Length(piece.board_x))
            stock = f"{Length(board.width)} x {Length(board.length)}"
            place = f"{labels.get(piece.surface, piece.surface)}, row {piece.row + 1}"
            rows.append((marks[piece], board.kind, stock, piece_size(piece, way), start, place))
    return Table(
        caption="Cut list",
        head=("Piece", "Kind", "From a board", "Size", "Cut from", "Hung on"),
        rows=tuple(rows),
        figures=(False, False, False, False, True, False),
    )
