"""The marks written on pieces: the board's number, and a letter where a board gives several pieces."""

from setday.boards import Layout, Piece, Rows
from setday.measure import Length

__all__ = ["length_of", "piece_marks", "piece_size", "rows_of"]


def piece_marks(layout: Layout) -> dict[Piece, str]:
    """Give every piece its mark: "17" where board 17 gives one piece, "17a", "17b" where it gives several.

    Letters follow the order the pieces are hung in.
    """
    by_board: dict[int, list[Piece]] = {}
    for piece in layout.pieces:
        by_board.setdefault(piece.board, []).append(piece)
    return {
        piece: str(number) if len(pieces) == 1 else f"{number}{_letter(i)}"
        for number, pieces in by_board.items()
        for i, piece in enumerate(pieces)
    }


def rows_of(layout: Layout, surface_id: str) -> Rows:
    """Return which way the rows of a surface run in this layout."""
    return next((entry.rows for entry in layout.surfaces if entry.surface == surface_id), Rows.ALONG)


def piece_size(piece: Piece, rows: Rows) -> str:
    """Write a piece's size: along its board first."""
    along, across = (piece.w, piece.h) if rows is Rows.ALONG else (piece.h, piece.w)
    return f"{Length(along)} x {Length(across)}"


def length_of(piece: Piece, rows: Rows) -> int:
    """Return how long a piece is along its board [1/64 in]."""
    return piece.w if rows is Rows.ALONG else piece.h


def _letter(index: int) -> str:
    turn, place = divmod(index, 26)
    return chr(ord("a") + place) + (str(turn + 1) if turn else "")
