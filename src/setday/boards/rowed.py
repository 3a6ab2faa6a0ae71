"""Whether the rows of each surface are as the layout says, and no row or piece too small."""

from collections.abc import Iterable

from setday.boards.faults import at, fault, size
from setday.boards.joints import Joint
from setday.boards.laidout import LaidOut, length_along
from setday.boards.outcome import Piece, SurfaceRows
from setday.boards.problem import Rows, Surface
from setday.findings import Finding

__all__ = ["row_findings", "short_piece_findings"]


def row_findings(laid: LaidOut) -> Iterable[Finding]:
    """Check the direction and the edges of the rows, and that every piece lies in its own row."""
    for surface in laid.problem.surfaces:
        divided = laid.divided[surface.id]
        if divided.rows not in surface.rows:
            allowed = " or ".join(rows.value for rows in surface.rows)
            yield fault("direction", surface.label, f"rows run {divided.rows.value}.", f"{allowed}.")
        whole = surface.height if divided.rows is Rows.ALONG else surface.width
        edges = divided.edges
        if len(edges) < 2 or edges[0] != 0 or edges[-1] != whole or list(edges) != sorted(set(edges)):
            yield fault(
                "row-edges",
                surface.label,
                f"the rows' edges are {[size(e) for e in edges]}.",
                f"0 to {size(whole)}.",
            )
            continue
        yield from _narrow_rows(laid, surface, divided, whole)
        yield from _strays(laid, surface, divided)


def _narrow_rows(laid: LaidOut, surface: Surface, divided: SurfaceRows, whole: int) -> Iterable[Finding]:
    least = min(laid.problem.rules.least_row, whole)
    for low, high in zip(divided.edges, divided.edges[1:], strict=False):
        if high - low < least:
            yield fault(
                "least-row", surface.label, f"a row is {size(high - low)} wide.", f"{size(least)} at least."
            )


def _strays(laid: LaidOut, surface: Surface, divided: SurfaceRows) -> Iterable[Finding]:
    spans: dict[int, list[tuple[int, int]]] = {}
    for piece in laid.pieces_on.get(surface.id, ()):
        start, end, low, high = _extent(piece, divided.rows)
        inside = 0 <= piece.row < len(divided.edges) - 1
        if not inside or low < divided.edges[piece.row] or high > divided.edges[piece.row + 1]:
            yield fault(
                "row-of-piece", surface.label, f"the piece at {at(piece.x, piece.y)} lies outside its row."
            )
            continue
        for a, b in spans.get(piece.row, []):
            if a < end and start < b:
                yield fault(
                    "row-of-piece",
                    surface.label,
                    f"row {piece.row + 1} is stacked at {at(piece.x, piece.y)}.",
                )
        spans.setdefault(piece.row, []).append((start, end))


def _extent(piece: Piece, rows: Rows) -> tuple[int, int, int, int]:
    if rows is Rows.ALONG:
        return piece.x, piece.x + piece.w, piece.y, piece.y + piece.h
    return piece.y, piece.y + piece.h, piece.x, piece.x + piece.w


def short_piece_findings(laid: LaidOut, butts: tuple[Joint, ...]) -> Iterable[Finding]:
    """Check the least length; a piece without a butt joint is as long as its stretch and may be short."""
    jointed = {n for joint in butts for n in (joint.first, joint.second)}
    least = laid.problem.rules.least_piece
    for number, piece in enumerate(laid.layout.pieces):
        length = length_along(piece, laid.rows_of(piece))
        if number in jointed and length < least:
            label = laid.surfaces[piece.surface].label
            yield fault(
                "least-piece",
                label,
                f"a piece is {size(length)} long at {at(piece.x, piece.y)}.",
                f"{size(least)} at least.",
            )
