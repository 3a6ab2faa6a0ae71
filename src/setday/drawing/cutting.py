"""How one board is cut, and every surface of the house with its boards at a glance."""

from collections.abc import Sequence

from setday.boards import Board, Layout, Piece, Rows, Surface, board_words, cut_outs, cuts_in_words, is_shaped
from setday.drawing.board_marks import piece_marks, piece_size, rows_of
from setday.drawing.boards import piece_corners
from setday.drawing.elevation import Elevation, Sides, fit, words_in_ring
from setday.drawing.hatch import hatch
from setday.drawing.ink import BOLD, LINE, Svg, group, polygon
from setday.drawing.lettering import Taken
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.drawing.piece_detail import piece_detail
from setday.drawing.table import Table
from setday.measure import Length

__all__ = ["READ_SHAPED", "cutting_diagram", "cutting_table", "shaped_pieces"]

_AROUND = ((0, 1), (1, 1), (1, 0), (0, 0))
READ_SHAPED = (
    "Shaped pieces as they hang, seen from the room, which is the face of the board. Figures from the left "
    "end and from the lower edge. Hatched is cut away."
)


def cutting_diagram(
    layout: Layout,
    *,
    number: int,
    boards: Sequence[Board],
    surfaces: Sequence[Surface],
    paper: Paper = LETTER,
    details: bool = True,
    key: str = "cut",
) -> str:
    """Draw how one board is cut: its pieces with sizes and places, the rest hatched.

    Every piece that is more than a rectangle is drawn once more by itself beneath, as it hangs and
    seen from the room, with the place of each of its corners from the left end and the lower edge.

    Parameters
    ----------
    layout : Layout
    number : int
        The number of the bought board.
    boards : sequence of Board
        The price list.
    surfaces : sequence of Surface
        Of the layout problem, for their names and openings.
    paper : Paper
    details : bool
        Draw the shaped pieces beneath.
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
    holes = _holes(pieces, layout, surfaces, view)
    lettered, small = _letter_cuts(pieces, layout, view, labels)
    width = max(area.right, 330.0)
    notes, foot = notes_below(small, y=area.bottom + 10, width=width)
    alone, height = _details(pieces if details else (), layout, surfaces, y=foot, width=width)
    return finish(
        body=(chains, *_on_board(board, number, pieces, layout, view), *holes, lettered, notes, *alone),
        title=f"Board {number}: {board_words(Length(board.width), Length(board.length))}, {board.kind}",
        desc=_cut_words(pieces, layout, {surface.id: surface for surface in surfaces}),
        width=width,
        height=height,
        key=key_of(key, str(number)),
    )


def _on_board(
    board: Board, number: int, pieces: Sequence[Piece], layout: Layout, view: Elevation
) -> list[Svg]:
    """Draw the board hatched, and its pieces blank upon it."""
    around = view.ring([(x * board.length / 64, y * board.width / 64) for x, y in _AROUND])
    drawn = [hatch([around], spacing=6)]
    for piece in pieces:
        corners = corners_on_board(piece, rows_of(layout, piece.surface))
        ring = view.ring([(x / 64, y / 64) for x, y in corners])
        drawn.append(polygon(ring, width=LINE, fill="paper", data_kind="piece", data_board=str(number)))
    return [*drawn, polygon(around, width=BOLD)]


def _holes(
    pieces: Sequence[Piece], layout: Layout, surfaces: Sequence[Surface], view: Elevation
) -> list[Svg]:
    """Hatch what is cut out of the pieces, where it lies on the board."""
    on = {surface.id: surface for surface in surfaces}
    drawn = []
    for piece in (piece for piece in pieces if piece.surface in on):
        for cut in cut_outs(piece, on[piece.surface]):
            left, low = piece.x + cut.left.sixtyfourths, piece.y + cut.low.sixtyfourths
            wide, tall = cut.width.sixtyfourths, cut.height.sixtyfourths
            corners = [(left + x * wide, low + y * tall) for x, y in _AROUND]
            placed = corners_on_board(piece, rows_of(layout, piece.surface), corners)
            ring = view.ring([(x / 64, y / 64) for x, y in placed])
            blank = polygon(ring, width=LINE, fill="paper")
            drawn += [blank, hatch([ring], spacing=6)]
    return drawn


def corners_on_board(
    piece: Piece, rows: Rows, corners: Sequence[tuple[int, int]] = ()
) -> list[tuple[int, int]]:
    """Return the corners of a piece, or others on its surface, where it is cut from its board [1/64 in].

    A piece of a row that runs up the surface is turned a quarter; a flipped piece is turned end for end.
    """
    placed = []
    for x, y in corners or piece_corners(piece):
        dx, dy = x - piece.x, y - piece.y
        along, across = (dx, dy) if rows is Rows.ALONG else (dy, piece.w - dx)
        if piece.flipped:
            long, high = (piece.w, piece.h) if rows is Rows.ALONG else (piece.h, piece.w)
            along, across = long - along, high - across
        placed.append((piece.board_x + along, piece.board_y + across))
    return placed


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


def _details(
    pieces: Sequence[Piece], layout: Layout, surfaces: Sequence[Surface], *, y: float, width: float
) -> tuple[list[Svg], float]:
    """Draw each shaped piece by itself, one under another; return them and where they end."""
    drawn: list[Svg] = []
    for piece, surface, words in _shaped(pieces, layout, surfaces):
        if not drawn:
            note, y = notes_below((READ_SHAPED,), y=y + 8, width=width)
            drawn.append(note)
        ring = piece_corners(piece)
        detail, y = piece_detail(piece, surface=surface, ring=ring, words=words, top=y + 8, width=width)
        drawn.append(detail)
    return drawn, y


def shaped_pieces(
    layout: Layout, *, number: int, surfaces: Sequence[Surface], width: float, key: str = "piece"
) -> tuple[str, ...]:
    """Draw every piece of a board that is more than a rectangle by itself, one drawing each.

    Parameters
    ----------
    layout : Layout
    number : int
        The number of the bought board.
    surfaces : sequence of Surface
        Of the layout problem.
    width : float
        How wide each drawing is [drawing units].
    key : str
        Prefix of the ids.

    Returns
    -------
    tuple of str
        SVGs.
    """
    pieces = [piece for piece in layout.pieces if piece.board == number]
    drawn = []
    for piece, surface, words in _shaped(pieces, layout, surfaces):
        ring = piece_corners(piece)
        detail, height = piece_detail(piece, surface=surface, ring=ring, words="", top=0, width=width)
        said = ". ".join((READ_SHAPED, *cuts_in_words(piece, surface)))
        name = key_of(key, words.partition(",")[0])
        drawn.append(finish(body=(detail,), title=words, desc=said, width=width, height=height, key=name))
    return tuple(drawn)


def _shaped(
    pieces: Sequence[Piece], layout: Layout, surfaces: Sequence[Surface]
) -> list[tuple[Piece, Surface, str]]:
    """Return the pieces that are more than a rectangle, each with its surface and what it is called."""
    marks, on = piece_marks(layout), {surface.id: surface for surface in surfaces}
    found = []
    for piece in pieces:
        surface = on.get(piece.surface)
        if surface is None or not is_shaped(piece, surface):
            continue
        words = f"{marks[piece]}, {piece_size(piece, rows_of(layout, surface.id))}, {surface.label}"
        turned = "; on the board it lies turned end for end" if piece.flipped else ""
        found.append((piece, surface, words + turned))
    return found


def _cut_words(pieces: Sequence[Piece], layout: Layout, surfaces: dict[str, Surface]) -> str:
    marks = piece_marks(layout)
    said = []
    for piece in pieces:
        surface = surfaces.get(piece.surface)
        size = piece_size(piece, rows_of(layout, piece.surface))
        cuts = cuts_in_words(piece, surface) if surface else ()
        place = surface.label if surface else piece.surface
        said.append(", ".join((marks[piece], size, place, *cuts)))
    return f"Pieces cut from it: {'; '.join(said)}. The rest is hatched."


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
            stock = board_words(Length(board.width), Length(board.length))
            place = f"{labels.get(piece.surface, piece.surface)}, row {piece.row + 1}"
            rows.append((marks[piece], board.kind, stock, piece_size(piece, way), start, place))
    return Table(
        caption="Cut list",
        head=("Piece", "Kind", "From a board", "Size", "Cut from", "Hung on"),
        rows=tuple(rows),
        figures=(False, False, False, False, True, False),
    )
