"""Whether every board can be cut as the layout says: pieces on it, apart, by straight-through cuts."""

from collections.abc import Iterable

from setday.boards.faults import at, fault, size
from setday.boards.laidout import LaidOut
from setday.boards.outcome import Piece
from setday.boards.problem import OffcutUse, Rows
from setday.findings import Finding

__all__ = ["BoardBox", "board_box", "cut_straight_through", "cutting_findings"]

BoardBox = tuple[int, int, int, int]
"""Left, bottom, right and top of a piece on its board, x along the board [1/64 in]."""


def board_box(piece: Piece, rows: Rows) -> BoardBox:
    """Return the box of a piece on its board."""
    along, across = (piece.w, piece.h) if rows is Rows.ALONG else (piece.h, piece.w)
    return (piece.board_x, piece.board_y, piece.board_x + along, piece.board_y + across)


def cutting_findings(laid: LaidOut) -> Iterable[Finding]:
    """Check kind, size, carrying in, cutting and the use of off-cuts, board by board."""
    for number, pieces in laid.pieces_from.items():
        board = laid.price_list[laid.bought[number].key]
        boxes = [board_box(piece, laid.rows_of(piece)) for piece in pieces]
        for piece, box in zip(pieces, boxes, strict=True):
            yield from _piece_findings(laid, piece, box)
        if not cut_straight_through(boxes, laid.problem.rules.trim_cut):
            yield fault(
                "cutting",
                f"board {number} ({board.key})",
                "its pieces overlap or cannot be parted by straight cuts from edge to edge.",
                "straight-through cuts.",
            )
        yield from _offcut_findings(laid, number, pieces)


def _piece_findings(laid: LaidOut, piece: Piece, box: BoardBox) -> Iterable[Finding]:
    surface, board = laid.surfaces[piece.surface], laid.board_of(piece)
    if board.kind != surface.board_kind:
        yield fault("kind", surface.label, f"board {piece.board} is {board.kind}.", f"{surface.board_kind}.")
    if box[0] < 0 or box[1] < 0 or box[2] > board.length or box[3] > board.width:
        yield fault(
            "off-board",
            surface.label,
            f"the piece at {at(piece.x, piece.y)} does not lie on board {piece.board}.",
            f"a place on {size(board.width)} x {size(board.length)}.",
        )
    if box[2] - box[0] > surface.longest:
        yield fault(
            "carry-in",
            surface.label,
            f"a piece {size(box[2] - box[0])} long at {at(piece.x, piece.y)}.",
            f"{size(surface.longest)} at most can be carried in.",
        )


def cut_straight_through(boxes: list[BoardBox], loss: int = 0) -> bool:
    """Return whether boxes can be parted by straight cuts that each go from edge to edge.

    Parameters
    ----------
    boxes : list of box
        Left, bottom, right, top of each piece.
    loss : int
        What each cut takes away.

    Examples
    --------
    >>> cut_straight_through([(0, 0, 4, 2), (4, 0, 6, 4), (0, 2, 4, 4)])
    True
    >>> cut_straight_through([(0, 0, 4, 2), (4, 0, 6, 4), (2, 4, 6, 6), (0, 2, 2, 6), (2, 2, 4, 4)])
    False
    """
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        parts = _parted(boxes, axis, loss)
        if len(parts) > 1:
            return all(cut_straight_through(part, loss) for part in parts)
    return False


def _parted(boxes: list[BoardBox], axis: int, loss: int) -> list[list[BoardBox]]:
    parts: list[list[BoardBox]] = []
    reached = 0
    for box in sorted(boxes, key=lambda b: b[axis]):
        if parts and box[axis] < reached + loss:
            parts[-1].append(box)
        else:
            parts.append([box])
        reached = max(reached, box[axis + 2])
    return parts


def _offcut_findings(laid: LaidOut, number: int, pieces: tuple[Piece, ...]) -> Iterable[Finding]:
    use = laid.problem.rules.offcuts
    if use is OffcutUse.HOUSE:
        return
    first = laid.surfaces[pieces[0].surface]
    for piece in pieces[1:]:
        surface = laid.surfaces[piece.surface]
        near = {
            OffcutUse.NONE: surface.id == first.id,
            OffcutUse.ROOM: surface.room == first.room,
            OffcutUse.DAY: surface.day == first.day,
        }[use]
        if not near:
            yield fault(
                "offcut",
                f"board {number}",
                f"cut first for {first.label}, it also serves {surface.label}.",
                f"off-cuts stay within the {use.value}."
                if use is not OffcutUse.NONE
                else "no use elsewhere.",
            )
