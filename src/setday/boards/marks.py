"""The marks written on pieces, and what pieces and boards are called; the same on every page and sheet."""

from setday.boards.laidout import length_along
from setday.boards.outcome import Layout, Piece
from setday.boards.problem import Rows
from setday.measure import Length

__all__ = ["board_words", "marks_in_order", "piece_size"]


def marks_in_order(layout: Layout) -> tuple[str, ...]:
    """Return the mark of every piece, in the order of the layout's pieces.

    "17" where board 17 gives one piece, "17a", "17b" in hanging order where it gives several.
    """
    count: dict[int, int] = {}
    for piece in layout.pieces:
        count[piece.board] = count.get(piece.board, 0) + 1
    so_far: dict[int, int] = {}
    marks = []
    for piece in layout.pieces:
        index = so_far.get(piece.board, 0)
        so_far[piece.board] = index + 1
        marks.append(str(piece.board) if count[piece.board] == 1 else f"{piece.board}{_letter(index)}")
    return tuple(marks)


def piece_size(piece: Piece, rows: Rows) -> str:
    """Write a piece's size: length along its row, then height across it."""
    along = length_along(piece, rows)
    across = piece.h if rows is Rows.ALONG else piece.w
    return f"{Length(along)} x {Length(across)}"


def board_words(width: Length, length: Length) -> str:
    """Write the size of a board as it is sold: width first, both in feet.

    Examples
    --------
    >>> (
    ...     board_words(Length.of(feet=4), Length.of(feet=12)),
    ...     board_words(Length.of(inches=54), Length.of(feet=8)),
    ... )
    ('4 x 12 ft', '4.5 x 8 ft')
    """
    return f"{width.feet:g} x {length.feet:g} ft"


def _letter(index: int) -> str:
    turn, place = divmod(index, 26)
    return chr(ord("a") + place) + (str(turn + 1) if turn else "")
