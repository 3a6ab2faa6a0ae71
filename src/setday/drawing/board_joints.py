"""Where the boards of a surface meet, and how: butt, at tapered edges, or at a cut edge."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations, pairwise

from setday.boards import Board, Layout, Piece, Rows, Surface

__all__ = ["Joint", "JointKind", "joints", "widths_of"]

Stretch = tuple[float, float]


class JointKind(StrEnum):
    """How two pieces meet."""

    BUTT = "butt joint"
    """End to end within a row."""
    TAPERED = "tapered joint"
    """Factory edge to factory edge between rows."""
    CUT = "cut edge"
    """Between rows, where at least one edge was ripped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """One joint line on a surface [1/64 in], between the pieces of those places in the list."""

    kind: JointKind
    x1: float
    y1: float
    x2: float
    y2: float
    between: tuple[int, int]

    @property
    def length(self) -> float:
        """Length of the joint [1/64 in]."""
        return abs(self.x2 - self.x1) + abs(self.y2 - self.y1)


def joints(
    surface: Surface, pieces: Sequence[Piece], *, rows: Rows, widths: Mapping[int, int]
) -> tuple[Joint, ...]:
    """Return every joint between the pieces of a surface.

    Parameters
    ----------
    surface : Surface
    pieces : sequence of Piece
        All pieces of the surface.
    rows : Rows
        Which way its rows run.
    widths : mapping
        Width of every bought board, by its number [1/64 in].

    Returns
    -------
    tuple of Joint
        Without the stretches that fall into openings or outside the outline.
    """
    found = []
    for (i, a), (j, b) in combinations(enumerate(pieces), 2):
        for upright in (True, False):
            shared = _shared_edge(a, b, upright=upright)
            if shared is None:
                continue
            at, stretch = shared
            in_row = upright == (rows is Rows.ALONG)
            kind = JointKind.BUTT if in_row else _edge_kind(a, b, rows, widths)
            for low, high in _uncut(surface, at, stretch, upright=upright):
                ends = (at, low, at, high) if upright else (low, at, high, at)
                found.append(Joint(kind=kind, x1=ends[0], y1=ends[1], x2=ends[2], y2=ends[3], between=(i, j)))
    return tuple(found)


def widths_of(layout: Layout, boards: Sequence[Board]) -> dict[int, int]:
    """Return the width of every bought board by its number [1/64 in]."""
    by_key = {board.key: board.width for board in boards}
    return {bought.number: by_key[bought.key] for bought in layout.boards}


def _shared_edge(a: Piece, b: Piece, *, upright: bool) -> tuple[int, Stretch] | None:
    """Return where two boxes touch along an upright (or level) line, and over which stretch."""
    a_low, a_high, b_low, b_high = (
        (a.x, a.x + a.w, b.x, b.x + b.w) if upright else (a.y, a.y + a.h, b.y, b.y + b.h)
    )
    if a_high != b_low and b_high != a_low:
        return None
    at = a_high if a_high == b_low else b_high
    if upright:
        low, high = max(a.y, b.y), min(a.y + a.h, b.y + b.h)
    else:
        low, high = max(a.x, b.x), min(a.x + a.w, b.x + b.w)
    return (at, (low, high)) if high > low else None


def _edge_kind(a: Piece, b: Piece, rows: Rows, widths: Mapping[int, int]) -> JointKind:
    factory = all(_has_factory_edge(piece, rows, widths) for piece in (a, b))
    return JointKind.TAPERED if factory else JointKind.CUT


def _has_factory_edge(piece: Piece, rows: Rows, widths: Mapping[int, int]) -> bool:
    """Say whether one long edge of the piece is an edge of its board; it may be turned end for end."""
    across = piece.h if rows is Rows.ALONG else piece.w
    return piece.board_y == 0 or piece.board_y + across == widths[piece.board]


def _uncut(surface: Surface, at: float, stretch: Stretch, *, upright: bool) -> list[Stretch]:
    """Return the parts of a line that lie in the outline and in no opening."""
    low, high = stretch
    cuts = sorted({low, high, *(c for c in _marks(surface, at, upright=upright) if low < c < high)})
    kept: list[Stretch] = []
    for start, end in pairwise(cuts):
        middle = (start + end) / 2
        if not _covered(surface, (at, middle) if upright else (middle, at)):
            continue
        if kept and kept[-1][1] == start:
            kept[-1] = (kept[-1][0], end)
        else:
            kept.append((start, end))
    return kept


def _marks(surface: Surface, at: float, *, upright: bool) -> list[float]:
    marks: list[float] = []
    for void in surface.voids:
        marks += [void.y, void.y + void.h] if upright else [void.x, void.x + void.w]
    corners = surface.outline
    for p, q in zip(corners, (*corners[1:], corners[0]), strict=True):
        (a0, b0), (a1, b1) = (p, q) if upright else (p[::-1], q[::-1])
        if a0 != a1 and min(a0, a1) <= at <= max(a0, a1):
            marks.append(b0 + (b1 - b0) * (at - a0) / (a1 - a0))
    return marks


def _covered(surface: Surface, point: tuple[float, float]) -> bool:
    x, y = point
    if any(v.x <= x <= v.x + v.w and v.y <= y <= v.y + v.h for v in surface.voids):
        return False
    odd = False
    corners = surface.outline
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            odd = not odd
    return odd
