"""The board layout problem: surfaces to cover, boards to buy, rules to keep.

All lengths here are whole sixty-fourths of an inch, as plain ``int``, so that solver and verifier
are exact; `setday.measure.Length` is for everything a person sees.  Coordinates of a surface are
seen from inside the room (a ceiling from below): origin at the lower left of the box around its
outline, x to the right, y up, framing members across x.
"""

from dataclasses import dataclass
from enum import StrEnum

__all__ = [
    "Board",
    "BoardProblem",
    "BoardRules",
    "Joist",
    "OffcutUse",
    "Rows",
    "Surface",
    "SurfaceKind",
    "Void",
]

Corner = tuple[int, int]


class SurfaceKind(StrEnum):
    """What a surface is."""

    WALL = "wall"
    CEILING = "ceiling"


class Rows(StrEnum):
    """Which way the long side of the boards runs on a surface."""

    ALONG = "along"
    """Along x, across the members."""
    ACROSS = "across"
    """Along y, with the members; the long edges must then land on members."""


class OffcutUse(StrEnum):
    """How far an off-cut may travel from the surface its board was first cut for."""

    NONE = "none"
    ROOM = "room"
    DAY = "day"
    HOUSE = "house"


@dataclass(frozen=True, slots=True, kw_only=True)
class Void:
    """A rectangle of a surface that gets no board: a door, a window, a tub surround.

    Parameters
    ----------
    x, y, w, h : int
        Lower left corner and size [1/64 in].
    name : str
        The opening's name in the house file.
    """

    x: int
    y: int
    w: int
    h: int
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joist:
    """A framing member behind a surface (stud, joist, truss chord), seen as a line a joint may land on.

    Parameters
    ----------
    x : int
        Centre [1/64 in].
    y_low, y_high : int
        The stretch over which it stands behind the surface [1/64 in].
    """

    x: int
    y_low: int
    y_high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """One surface to cover with one layer of one kind of board.

    Parameters
    ----------
    id : str
        Stable id; a second layer has an id of its own.
    label : str
        The surface in words: "bedroom, north wall".
    room : str
        Room id.
    kind : SurfaceKind
    outline : tuple of corner
        Counter-clockwise polygon of what is to be covered, floor gap already left off [1/64 in].
    voids : tuple of Void
        Openings and places without board; they may touch or leave through the outline.
    members : tuple of Joist
        In order of x.  The two ends of the surface need no member: corners have backing.
    board_kind : str
        Key of the kind of board it takes: "regular-1/2"; boards of another kind do not serve.
    rows : tuple of Rows
        The directions allowed, best first.
    longest : int
        The longest board that can be carried to it [1/64 in].
    member_spacing : int
        On-centre spacing of the members [1/64 in].
    sequence : int
        Place in the hanging order of the house (ceilings first); unique.
    day : int
        Number of the day it is hung on, for off-cuts kept within a day.
    layer : int
        1 for the layer on the framing, 2 for the one over it.
    over : str
        Id of the surface of the layer below, empty for the first layer.  Butt joints keep the stagger
        distance from the butt joints below them.
    """

    id: str
    label: str
    room: str
    kind: SurfaceKind
    outline: tuple[Corner, ...]
    voids: tuple[Void, ...]
    members: tuple[Joist, ...]
    board_kind: str
    rows: tuple[Rows, ...]
    longest: int
    member_spacing: int
    sequence: int
    day: int = 1
    layer: int = 1
    over: str = ""

    @property
    def width(self) -> int:
        """Extent along x [1/64 in]."""
        return max(x for x, _ in self.outline)

    @property
    def height(self) -> int:
        """Extent along y [1/64 in]."""
        return max(y for _, y in self.outline)


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board on the price list.

    Parameters
    ----------
    key : str
        Item key on the price list.
    kind : str
        The kind it serves: "regular-1/2".
    width, length : int
        Size [1/64 in].
    price_cents : int
        Price of one board [cents].
    """

    key: str
    kind: str
    width: int
    length: int
    price_cents: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRules:
    """The rules of layout in force, as numbers for the solver and the verifier.

    Parameters
    ----------
    stagger : int
        Least distance between butt joints in neighbouring rows [1/64 in]; 0 asks for none.
        "One member spacing" is filled in per surface when `stagger_one_spacing` is true.
    stagger_one_spacing : bool
        Joints in neighbouring rows apart by at least one member spacing of the surface.
    opening_clear : int
        Least distance of a joint's x from the side of an opening whose corner lies in (or on the edge
        of) the joint's row [1/64 in].  A board may *end* at the side of an opening only where the
        opening is as high as the row (nothing is left beside a corner).
    least_piece : int
        Shortest piece hung [1/64 in], except where the surface itself (between its ends or full-row
        openings) is shorter.
    least_row : int
        Narrowest row hung, except where the surface itself is narrower [1/64 in].
    butt_on_member : bool
        Butt joints stand on the centre of a member that backs the whole joint.
    trim_cut : int
        Loss of a cut [1/64 in]; a knife takes nothing.
    offcuts : OffcutUse
        How far an off-cut may travel.
    factory_edge_between_rows : bool
        Where two rows meet both edges are factory (tapered) edges, so only the rows at the top and
        bottom of a surface may be ripped.
    """

    stagger: int = 0
    stagger_one_spacing: bool = True
    opening_clear: int = 0
    least_piece: int = 0
    least_row: int = 0
    butt_on_member: bool = True
    trim_cut: int = 0
    offcuts: OffcutUse = OffcutUse.HOUSE
    factory_edge_between_rows: bool = True

    def stagger_on(self, surface: Surface) -> int:
        """Return the least distance of joints in neighbouring rows of `surface` [1/64 in]."""
        return surface.member_spacing if self.stagger_one_spacing else self.stagger


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardProblem:
    """Everything a layout depends on."""

    surfaces: tuple[Surface, ...]
    boards: tuple[Board, ...]
    rules: BoardRules
