"""The joints of a layout: where pieces meet end to end, and where rows meet."""

from collections.abc import Iterable
from dataclasses import dataclass

from setday.boards.laidout import LaidOut, Ring, along_rows, ring_of
from setday.boards.outcome import Piece
from setday.boards.problem import Rows

__all__ = ["Joint", "butt_joints", "row_joints"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A straight stretch where two pieces of one surface meet.

    Parameters
    ----------
    surface : str
    row : int
        Row of both pieces, or the lower of the two rows that meet.
    at : int
        Place of the joint: along the row for a butt joint, across the rows where rows meet [1/64 in].
    low, high : int
        From where to where it runs [1/64 in].
    rows : Rows
        Direction of the rows of the surface.
    first, second : int
        Places of the two pieces in the layout's pieces.
    """

    surface: str
    row: int
    at: int
    low: int
    high: int
    rows: Rows
    first: int
    second: int

    @property
    def length(self) -> int:
        """Length of the joint [1/64 in]."""
        return self.high - self.low


Edge = tuple[int, int, int]
Numbered = tuple[int, Piece]


def butt_joints(laid: LaidOut) -> tuple[Joint, ...]:
    """Return the butt joints: where two pieces of one row meet end to end."""
    found: list[Joint] = []
    for surface_id, rows, by_row in _by_row(laid):
        for row, pieces in by_row.items():
            ends = [(n, along_rows(ring_of(piece), rows)) for n, piece in pieces]
            found += _meeting(surface_id, row, rows, ends, ends, upright=True)
    return tuple(found)


def row_joints(laid: LaidOut) -> tuple[Joint, ...]:
    """Return the joints between neighbouring rows."""
    found: list[Joint] = []
    for surface_id, rows, by_row in _by_row(laid):
        for row, pieces in by_row.items():
            lower = [(n, along_rows(ring_of(piece), rows)) for n, piece in pieces]
            upper = [(n, along_rows(ring_of(piece), rows)) for n, piece in by_row.get(row + 1, ())]
            found += _meeting(surface_id, row, rows, lower, upper, upright=False)
    return tuple(found)


def _by_row(laid: LaidOut) -> Iterable[tuple[str, Rows, dict[int, list[Numbered]]]]:
    placed: dict[str, dict[int, list[Numbered]]] = {}
    for number, piece in enumerate(laid.layout.pieces):
        placed.setdefault(piece.surface, {}).setdefault(piece.row, []).append((number, piece))
    for surface_id, by_row in placed.items():
        yield surface_id, laid.divided[surface_id].rows, dict(sorted(by_row.items()))


def _meeting(
    surface_id: str,
    row: int,
    rows: Rows,
    before: list[tuple[int, Ring]],
    after: list[tuple[int, Ring]],
    *,
    upright: bool,
) -> list[Joint]:
    """Return where the right (or upper) edges of `before` meet the left (or lower) edges of `after`."""
    ending = [(n, edge) for n, ring in before for edge in _edges(ring, upright=upright, leaving=True)]
    starting = [(n, edge) for n, ring in after for edge in _edges(ring, upright=upright, leaving=False)]
    return [
        Joint(
            surface=surface_id, row=row, at=at, low=max(low, other_low), high=min(high, other_high),
            rows=rows, first=n, second=m,
        )
        for n, (at, low, high) in ending
        for m, (other_at, other_low, other_high) in starting
        if n != m and at == other_at and max(low, other_low) < min(high, other_high)
    ]  # fmt: skip


def _edges(ring: Ring, *, upright: bool, leaving: bool) -> list[Edge]:
    """Return the straight edges on one side of a counter-clockwise ring as (place, low, high).

    Upright edges: those on the right when `leaving`, else on the left.  Level edges: those on top
    when `leaving`, else below.
    """
    found = []
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        if upright and x0 == x1 and (y1 > y0) == leaving:
            found.append((x0, min(y0, y1), max(y0, y1)))
        elif not upright and y0 == y1 and (x1 < x0) == leaving:
            found.append((y0, min(x0, x1), max(x0, x1)))
    return found
