"""A layout, and what a solve came to."""

from dataclasses import dataclass

from setday.boards.problem import Corner, Rows
from setday.solving import Limits, Status

__all__ = [
    "BoughtBoard",
    "Bound",
    "Layout",
    "Limits",
    "Outcome",
    "Piece",
    "Progress",
    "Status",
    "SurfaceRows",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of board on one surface.

    Parameters
    ----------
    surface : str
        Id of the surface.
    row : int
        Row of the surface, counted from the bottom (or from the left when rows run across), from 0.
    x, y, w, h : int
        Box of the piece on the surface [1/64 in].
    board : int
        Number of the bought board, from 1.
    board_x, board_y : int
        Lower left corner of the piece's box on its board; x along the board's length [1/64 in].
        The piece's long direction on the board is the direction of its row.
    flipped : bool
        True when the piece is turned end for end before it is hung (only its outline is concerned).
    outline : tuple of corner
        Counter-clockwise polygon on the surface, openings cut out where they reach the edge;
        empty when the piece is the full box.
    """

    surface: str
    row: int
    x: int
    y: int
    w: int
    h: int
    board: int
    board_x: int
    board_y: int
    flipped: bool = False
    outline: tuple[Corner, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtBoard:
    """One board to buy: its number in cutting order and its item on the price list."""

    number: int
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceRows:
    """How one surface is divided: the direction, and the edges between rows.

    Parameters
    ----------
    surface : str
    rows : Rows
    edges : tuple of int
        From one side of the surface to the other, both included; y of the edges when rows run
        along, x when they run across [1/64 in].
    """

    surface: str
    rows: Rows
    edges: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A complete layout of the house.

    Parameters
    ----------
    surfaces : tuple of SurfaceRows
        In hanging order.
    boards : tuple of BoughtBoard
        Numbered from 1 in the order their first piece is hung.
    pieces : tuple of Piece
        In hanging order.
    relaxed : tuple of str
        Sentences: which rule had to give way on which surface, and how far.
    """

    surfaces: tuple[SurfaceRows, ...]
    boards: tuple[BoughtBoard, ...]
    pieces: tuple[Piece, ...]
    relaxed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A proven lower bound on what any layout costs.

    Parameters
    ----------
    cost_cents : float
        No layout that keeps the rules costs less [cents].
    area_cost_cents : float
        The weaker bound from net area times the cheapest price per area [cents].
    method : str
        How it was proven, in words.
    """

    cost_cents: float
    area_cost_cents: float
    method: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """What a running solve tells: best cost so far, proven bound, seconds, and what it is doing.

    `layout` is the best layout so far when it is new since the last report, otherwise None.
    """

    cost_cents: int | None
    bound_cents: float
    seconds: float
    stage: str
    layout: Layout | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a solve came to."""

    status: Status
    layout: Layout | None
    cost_cents: int
    butt_joint: int
    pieces: int
    bound: Bound
    seconds: float
    why_none: tuple[str, ...] = ()

    @property
    def gap(self) -> float:
        """Cost over proven bound, minus 1."""
        return self.cost_cents / self.bound.cost_cents - 1 if self.bound.cost_cents else 0.0
