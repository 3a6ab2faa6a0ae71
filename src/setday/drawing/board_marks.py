"""The marks and sizes written on pieces, by piece."""

from setday.boards import Layout, Piece, Rows, marks_in_order, piece_size

__all__ = ["piece_marks", "piece_size", "rows_of"]


def piece_marks(layout: Layout) -> dict[Piece, str]:
    """Give every piece its mark: "17" where board 17 gives one piece, "17a", "17b" where it gives several."""
    return dict(zip(layout.pieces, marks_in_order(layout), strict=True))


def rows_of(layout: Layout, surface_id: str) -> Rows:
    """Return which way the rows of a surface run in this layout."""
    return next((entry.rows for entry in layout.surfaces if entry.surface == surface_id), Rows.ALONG)
