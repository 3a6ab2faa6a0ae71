"""Boards laid by hand on one wall: ends snap to the framing; boards, joints and waste are counted.

Boards lie level in rows, from the top down, so that the cut edge is at the floor.  A piece goes from where
the last one of its row ended to a member, or to the end of the wall.  It comes from a new board or, where
one is long enough, from what is left of an earlier one.  `setday.boards.verify` judges what comes of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import Polygon, box, union_all

from setday.boards import (
    Board,
    BoardProblem,
    BoardRules,
    BoughtBoard,
    LaidOut,
    Layout,
    Piece,
    Prepared,
    Rows,
    Surface,
    SurfaceRows,
    row_joints,
    totals,
    verify,
)
from setday.errors import SetdayError
from setday.findings import Finding, Severity

__all__ = ["CannotLay", "LaidBoard", "LaidWall", "WallToLay", "lay", "wall_to_lay"]


class CannotLay(SetdayError):
    """A board that cannot lie where it was put."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallToLay:
    """A wall that boards are laid on: its surface as the boards know it, the board and the rules."""

    surface: Surface
    board: Board
    rules: BoardRules

    @property
    def edges(self) -> tuple[int, ...]:
        """The edges between rows from the bottom up; the lowest row is the one that is cut [1/64 in]."""
        top, width = self.surface.height, self.board.width
        found = [top]
        while found[-1] > 0:
            found.append(max(0, found[-1] - width))
        return tuple(reversed(found))

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return len(self.edges) - 1

    @property
    def snaps(self) -> tuple[int, ...]:
        """Where a piece may end: the members, and the end of the wall [1/64 in]."""
        inside = {m.x for m in self.surface.members if 0 < m.x < self.surface.width}
        return (*sorted(inside), self.surface.width)

    def snapped(self, x: int) -> int:
        """Return the place where a piece may end that is nearest to `x`."""
        return min(self.snaps, key=lambda place: (abs(place - x), place))


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBoard:
    """One piece as a student lays it: in which row from the top, to where, and whether from an off-cut."""

    row: int
    end: int
    offcut: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidWall:
    """What the laid boards come to.

    Parameters
    ----------
    pieces : tuple of Piece
    boards : int
        Boards taken.
    butt_joint, row_joint : int
        Length of the joints between ends and between rows [1/64 in].
    waste_share : float
        Of the boards taken, what does not cover the wall.
    reached : tuple of int
        How far each row is covered, from the top [1/64 in].
    complete : bool
        Whether every row is covered to its end.
    findings : tuple of Finding
        Of the verifier, once the wall is covered; empty before.
    """

    pieces: tuple[Piece, ...]
    boards: int
    butt_joint: int
    row_joint: int
    waste_share: float
    reached: tuple[int, ...]
    complete: bool
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """What the verifier holds against it."""
        return tuple(each for each in self.findings if each.severity is Severity.PROBLEM)


def wall_to_lay(prepared: Prepared, house_surface: str, *, board: Board) -> WallToLay | None:
    """Return a wall to lay boards on; None where boards cannot lie level on it in straight rows.

    Parameters
    ----------
    prepared : Prepared
        The board problem of the house.
    house_surface : str
        The wall's surface in the house.
    board : Board
        The board in hand; its kind is taken to be the one the wall asks for.
    """
    own = {note.surface for note in prepared.notes if note.house_surface == house_surface and not note.patch}
    found = [s for s in prepared.problem.surfaces if s.id in own and s.layer == 1]
    if not found or len(found[0].outline) != 4:
        return None
    surface = replace(found[0], longest=board.length, rows=(Rows.ALONG,), over="", sequence=1)
    kind = replace(board, kind=surface.board_kind)
    return WallToLay(surface=surface, board=kind, rules=prepared.problem.rules)


def lay(wall: WallToLay, laid: Sequence[LaidBoard]) -> LaidWall:
    """Lay boards on a wall one after the other.

    Parameters
    ----------
    wall : WallToLay
    laid : sequence of LaidBoard
        In the order they are hung.

    Raises
    ------
    CannotLay
        Where a piece is longer than its board, goes nowhere, or no off-cut is long enough.
    """
    bench = _Bench(wall)
    for each in laid:
        bench.take(each)
    return bench.done()


class _Bench:
    """Boards as they are cut: where each row ends, and what is left of every board."""

    def __init__(self, wall: WallToLay) -> None:
        self.wall = wall
        self.reached = [0] * wall.rows
        self.left: list[int] = []
        self.pieces: list[Piece] = []

    def take(self, laid: LaidBoard) -> None:
        wall = self.wall
        if not 0 <= laid.row < wall.rows or laid.end not in wall.snaps:
            raise CannotLay("There is no such place on this wall.", do="Choose a row and a member.")
        start, length = self.reached[laid.row], laid.end - self.reached[laid.row]
        if length <= 0:
            raise CannotLay("This row is covered so far already.", do="Choose a member further on.")
        if length > wall.board.length:
            raise CannotLay("The board is not that long.", do="End it at a member that it reaches.")
        rings = self._rings(laid.row, start, laid.end)
        if rings:
            number, at = self._board(length, offcut=laid.offcut)
            self.pieces += [self._piece(ring, laid.row, start, number, at) for ring in rings]
        self.reached[laid.row] = laid.end

    def _rings(self, row: int, start: int, end: int) -> list[Polygon]:
        """Return what is left of a stretch of a row when the openings are taken off."""
        low, high = self._row(row)
        voids = union_all([box(v.x, v.y, v.x + v.w, v.y + v.h) for v in self.wall.surface.voids])
        rest = box(start, low, end, high).difference(voids)
        parts = getattr(rest, "geoms", [rest])
        return [part for part in parts if isinstance(part, Polygon) and part.area > 0]

    def _row(self, row: int) -> tuple[int, int]:
        edges = self.wall.edges
        return edges[-2 - row], edges[-1 - row]

    def _board(self, length: int, *, offcut: bool) -> tuple[int, int]:
        """Return the number of the board a piece is cut from, and where on it."""
        whole = self.wall.board.length
        if offcut:
            fitting = [n for n, left in enumerate(self.left) if left >= length]
            if not fitting:
                raise CannotLay("No off-cut is long enough.", do="Take a new board.")
            number = min(fitting, key=lambda n: (self.left[n], n))
        else:
            self.left.append(whole)
            number = len(self.left) - 1
        at = whole - self.left[number]
        self.left[number] -= length
        return number + 1, at

    def _piece(self, ring: Polygon, row: int, start: int, number: int, at: int) -> Piece:
        x0, y0, x1, y1 = (round(value) for value in ring.bounds)
        _low, high = self._row(row)
        full = abs(Polygon(ring.exterior).area - (x1 - x0) * (y1 - y0)) < 0.5
        corners = [(round(x), round(y)) for x, y in ring.exterior.coords[:-1]]
        if not ring.exterior.is_ccw:
            corners.reverse()
        return Piece(
            surface=self.wall.surface.id,
            row=self.wall.rows - 1 - row,
            x=x0,
            y=y0,
            w=x1 - x0,
            h=y1 - y0,
            board=number,
            board_x=at + x0 - start,
            board_y=self.wall.board.width - (high - y0),
            outline=() if full else tuple(corners),
        )

    def done(self) -> LaidWall:
        surface, board = self.wall.surface, self.wall.board
        whole = all(reached == surface.width for reached in self.reached)
        problem = BoardProblem(surfaces=(surface,), boards=(board,), rules=self.wall.rules)
        layout = Layout(
            surfaces=(SurfaceRows(surface=surface.id, rows=Rows.ALONG, edges=self.wall.edges),),
            boards=tuple(BoughtBoard(number=n + 1, key=board.key) for n in range(len(self.left))),
            pieces=tuple(self.pieces),
        )
        counted = totals(problem, layout)
        covering = sum(self._area(piece) for piece in self.pieces)
        return LaidWall(
            pieces=tuple(self.pieces),
            boards=len(self.left),
            butt_joint=counted.butt_joint,
            row_joint=sum(each.length for each in row_joints(LaidOut(problem=problem, layout=layout))),
            waste_share=1 - covering / counted.board_area if counted.board_area else 0.0,
            reached=tuple(self.reached),
            complete=whole,
            findings=verify(problem, layout) if whole else (),
        )

    def _area(self, piece: Piece) -> float:
        voids = union_all([box(v.x, v.y, v.x + v.w, v.y + v.h) for v in self.wall.surface.voids])
        whole = box(piece.x, piece.y, piece.x + piece.w, piece.y + piece.h)
        ring = Polygon(piece.outline) if piece.outline else whole
        return float(ring.difference(voids).area)
