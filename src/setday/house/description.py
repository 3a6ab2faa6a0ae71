"""What a person wrote of a house, before anything is derived from it.

Plan coordinates: x to the east, y to the north, from a corner the writer chose.  Heights are above the
subfloor.  Every entry carries the place in the file it came from, so that a finding can point at it.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from setday.findings import Where
from setday.house.counters import TypedCounter
from setday.house.devices import TypedCircuit, TypedDevice, TypedWiring
from setday.house.points import Point
from setday.measure import Length

__all__ = [
    "Axis",
    "CeilingShape",
    "FloorHole",
    "Foundation",
    "FramingChange",
    "HouseDescription",
    "OpeningKind",
    "Point",
    "Side",
    "TypedCeiling",
    "TypedDrop",
    "TypedHatch",
    "TypedOpening",
    "TypedReserve",
    "TypedRoom",
    "TypedWall",
    "TypedWet",
    "WallKind",
    "WallLine",
]


class Side(StrEnum):
    """A compass side of the plan; north is up."""

    NORTH = "north"
    EAST = "east"
    SOUTH = "south"
    WEST = "west"


class Axis(StrEnum):
    """The way members run on the plan."""

    EAST_WEST = "east-west"
    NORTH_SOUTH = "north-south"


class WallLine(StrEnum):
    """Which line of a wall's framing its points give, looking from its start to its end."""

    CENTER = "center"
    LEFT = "left face"
    RIGHT = "right face"


class OpeningKind(StrEnum):
    """What stands in an opening."""

    DOOR = "door"
    WINDOW = "window"
    CASED = "cased opening"
    """An opening without a door or a window, its sides covered by trim or by board."""


class CeilingShape(StrEnum):
    """The shape of a room's ceiling."""

    FLAT = "flat"
    SLOPE = "slope"
    """One plane, low on one side."""
    VAULT = "vault"
    """Two planes that meet in a ridge; scissors trusses give the same shape with a gentler rise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallKind:
    """A build-up of wall.

    Parameters
    ----------
    name : str
        Its name in the house file.
    depth : Length
        Depth of the framing, face to face: 3-1/2 in for 2x4 studs.
    outside : bool
        True for walls with weather on one side; it takes boards on its inner side only.
    bearing : bool
        True when it carries floor or roof.
    spacing : Length
        On-centre spacing of the studs.
    plates_below, plates_above : int
        Number of bottom and top plates.
    """

    name: str
    depth: Length
    outside: bool
    bearing: bool
    spacing: Length
    plates_below: int = 1
    plates_above: int = 2
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class FramingChange:
    """What was really built where it differs from what is derived.

    `do` is "add", "remove" or "move"; `member` a kind like "stud" or "backer"; `at` the centre of
    the member from the wall's start, `to` where it stands now (for "move").
    """

    do: str
    member: str
    at: Length
    to: Length | None = None
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedWall:
    """A wall: a straight run of framing between two points.

    Parameters
    ----------
    name : str
    kind : str
        Name of a `WallKind`.
    start, end : Point
        Ends of the line named by `line`; an end on or in another wall's framing meets that wall.
    line : WallLine
    height : Length
        Top of the top plate above the subfloor.
    gable : tuple of (Length, Length)
        For a wall with a sloping top: points (distance from the start, height of the top plate), in
        order; empty for a level top.
    spacing : Length or None
        Overrides the kind's stud spacing.
    layout_from_end : bool
        True when the stud layout starts at the wall's end instead of its start.
    layout_offset : Length
        Centre of the first layout stud, less one spacing, from that end of the framing.
    changes : tuple of FramingChange
    """

    name: str
    kind: str
    start: Point
    end: Point
    line: WallLine = WallLine.CENTER
    height: Length
    gable: tuple[tuple[Length, Length], ...] = ()
    spacing: Length | None = None
    layout_from_end: bool = False
    layout_offset: Length = Length(0)
    changes: tuple[FramingChange, ...] = ()
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedOpening:
    """An opening in a wall; sizes are the rough opening in the framing.

    Parameters
    ----------
    name : str
    wall : str
    kind : OpeningKind
    width, height : Length
        Rough opening.
    sill : Length
        Bottom of the rough opening above the subfloor; 0 for doors.
    measured_from : str
        "start", "end", a compass word for the end that lies that way ("west"), or the name of a wall
        that meets this one, whose near face the tape was held to.
    distance : Length
        From there to the near side of the rough opening, or to its centre.
    to_center : bool
    going : str
        A compass word: which way the tape ran from a wall that meets this one in mid-run; empty where
        only one way is possible.
    jacks : int
        Jack studs on each side.
    header_depth : Length or None
        Depth of the header; None takes the default.
    """

    name: str
    wall: str
    kind: OpeningKind
    width: Length
    height: Length
    sill: Length
    measured_from: str
    distance: Length
    to_center: bool = False
    going: str = ""
    jacks: int = 1
    header_depth: Length | None = None
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRoom:
    """A room: a name and any point inside it; `use` is "bedroom", "bath", "kitchen", "closet" ..."""

    name: str
    at: Point
    use: str = ""
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedCeiling:
    """A room's ceiling, to the underside of its framing.

    Parameters
    ----------
    room : str
    shape : CeilingShape
    height : Length
        Of a flat ceiling; at the low side of a slope; at the springing (both low sides at the walls
        nearest and farthest from the ridge take what the rise gives) of a vault: the height at the
        side farther from the ridge.
    rise : Length
        Rise per foot of run [in per 12 in]; 0 for flat.
    low_side : Side or None
        For a slope.
    ridge_runs : Axis or None
        For a vault.
    ridge_at : Length or None
        For a vault: plan y of an east-west ridge, plan x of a north-south one.
    framing_runs : Axis
        The way joists, rafters or trusses run.
    spacing : Length
        On-centre spacing of the framing.
    layout_at : Length or None
        Plan coordinate (across the framing) of one member's centre; None starts at the low-coordinate
        outside face of the house.
    """

    room: str
    shape: CeilingShape
    height: Length
    rise: Length = Length(0)
    low_side: Side | None = None
    ridge_runs: Axis | None = None
    ridge_at: Length | None = None
    framing_runs: Axis
    spacing: Length
    layout_at: Length | None = None
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedDrop:
    """A soffit or a dropped part of a ceiling: a box on the plan, and the height of its underside."""

    name: str
    room: str
    corner: Point
    east: Length
    north: Length
    bottom: Length
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedHatch:
    """An opening in a ceiling (attic hatch, flue, light well): a box on the plan."""

    name: str
    room: str
    corner: Point
    east: Length
    north: Length
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedWet:
    """A wet stretch of a wall, as seen in one room.

    Parameters
    ----------
    name, wall, room : str
    measured_from : str
        As for openings, but a wall's name or a compass word names the end of the *surface* in this room.
    distance, width : Length
        Along the wall from there.
    bottom, top : Length
        Heights above the subfloor.
    board : str
        "none" behind a tub surround, otherwise a board kind without thickness, like "wet-area".
    """

    name: str
    wall: str
    room: str
    measured_from: str
    distance: Length
    width: Length
    bottom: Length
    top: Length
    board: str
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorHole:
    """A hole in the floor, for stairs or a chase: a box on the plan."""

    name: str
    corner: Point
    east: Length
    north: Length
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedReserve:
    """Space kept free for a later trade: words, and a box on the plan with heights."""

    name: str
    trade: str
    corner: Point
    east: Length
    north: Length
    bottom: Length
    top: Length
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class Foundation:
    """What waits at the far end: "basement", "crawl space" or "slab", and where the panel will be."""

    kind: str = "basement"
    panel_corner: str = ""
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseDescription:
    """Everything a house file says of the house itself."""

    name: str
    kinds: tuple[WallKind, ...]
    walls: tuple[TypedWall, ...]
    openings: tuple[TypedOpening, ...] = ()
    rooms: tuple[TypedRoom, ...] = ()
    ceilings: tuple[TypedCeiling, ...] = ()
    drops: tuple[TypedDrop, ...] = ()
    hatches: tuple[TypedHatch, ...] = ()
    wets: tuple[TypedWet, ...] = ()
    floor_holes: tuple[FloorHole, ...] = ()
    reserves: tuple[TypedReserve, ...] = ()
    foundation: Foundation = field(default_factory=Foundation)
    devices: tuple[TypedDevice, ...] = ()
    circuits: tuple[TypedCircuit, ...] = ()
    wiring: TypedWiring = field(default_factory=TypedWiring)
    counters: tuple[TypedCounter, ...] = ()
    where: Where = Where()
