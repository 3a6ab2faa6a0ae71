"""The house as derived from its description: rooms, surfaces and framing, all frozen.

Plan coordinates as in `setday.house.description`.  Wall coordinates: `along` from the start of the
wall's framing, `up` from the subfloor.  Surface coordinates: seen from inside the room (a ceiling from
below), x to the right, y up, origin at the lower left of the box around the outline; on a wall y = 0 is
the subfloor.  On ceilings x runs across the framing members.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from setday.house.box_size import BoxSize, usual_box
from setday.house.counters import Counter
from setday.house.description import (
    Axis,
    FloorHole,
    Foundation,
    HouseDescription,
    OpeningKind,
    Point,
    TypedReserve,
    WallKind,
)
from setday.house.devices import Device, TypedCircuit, Wiring
from setday.measure import Area, Length

__all__ = [
    "Backing",
    "FramingMember",
    "House",
    "MemberKind",
    "Opening",
    "Room",
    "Span",
    "Surface",
    "SurfaceKind",
    "SurfaceOpening",
    "Wall",
    "WetPatch",
]


class MemberKind(StrEnum):
    """What a framing member of a wall is."""

    STUD = "stud"
    END_STUD = "end stud"
    CORNER = "corner backer"
    PARTITION = "partition backer"
    KING = "king stud"
    JACK = "jack stud"
    CRIPPLE = "cripple"
    HEADER = "header"
    SILL = "rough sill"
    BOTTOM_PLATE = "bottom plate"
    TOP_PLATE = "top plate"


@dataclass(frozen=True, slots=True, kw_only=True)
class FramingMember:
    """One framing member, as a four-cornered shape on its wall's elevation.

    Parameters
    ----------
    kind : MemberKind
    left, right : Length
        Faces along the wall.
    bottom : Length
        Lower end or edge.
    top_left, top_right : Length
        Upper end at the left and the right face; they differ under a sloping top.  For a sloping top
        plate, `bottom` is the lower edge at the left face and the upper edge is `top_left`; its lower
        edge follows the slope.
    face : str
        "both" when it backs boards on both sides, "left" or "right" when on one side only (looking
        from the wall's start to its end).
    built : bool
        True when the house file says so (a framing change), False when derived.
    """

    kind: MemberKind
    left: Length
    right: Length
    bottom: Length
    top_left: Length
    top_right: Length
    face: str = "both"
    built: bool = False

    @property
    def center(self) -> Length:
        """Centre along the wall."""
        return (self.left + self.right) // 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """An opening placed in its wall: `along` is the left side of the rough opening from the wall's start."""

    name: str
    kind: OpeningKind
    along: Length
    width: Length
    height: Length
    sill: Length

    @property
    def head(self) -> Length:
        """Top of the rough opening above the subfloor."""
        return self.sill + self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall, its framing and its openings.

    Parameters
    ----------
    name : str
    kind : WallKind
    start, end : Point
        Ends of the centre line of the framing; 'left' and 'right' are as seen from start to end.
    length : Length
        Of the framing, end to end.
    top : tuple of (Length, Length)
        Height of the top plate's top: points (along, height), from 0 to `length`.
    spacing : Length
    openings : tuple of Opening
        By `along`.
    members : tuple of FramingMember
    layout : tuple of Length
        Centres of the stud layout along the framing, openings and doubled studs not considered.
    """

    name: str
    kind: WallKind
    start: Point
    end: Point
    length: Length
    top: tuple[tuple[Length, Length], ...]
    spacing: Length
    openings: tuple[Opening, ...]
    members: tuple[FramingMember, ...]
    layout: tuple[Length, ...] = ()


class SurfaceKind(StrEnum):
    """What a surface is."""

    WALL = "wall"
    CEILING = "ceiling"
    SOFFIT_SIDE = "soffit side"
    """The upright side of a soffit or drop; boarded like a wall."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch of a surface that belongs to one wall.

    Parameters
    ----------
    wall : str
    side : str
        "left", "right" (looking from start to end of the wall), "start" or "end" (the end of a wall
        that stands free).
    x : Length
        Where the stretch begins on the surface.
    width : Length
    along : Length
        Place on the wall of the surface's x (at the left of the stretch).
    forward : bool
        True when surface x grows with `along`.
    """

    wall: str
    side: str
    x: Length
    width: Length
    along: Length
    forward: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceOpening:
    """An opening as seen on a surface: box with lower left corner (x, y)."""

    name: str
    kind: str
    x: Length
    y: Length
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """A member behind a surface: its centre line x, its width, and the stretch it backs."""

    kind: str
    x: Length
    width: Length
    y_low: Length
    y_high: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class WetPatch:
    """A wet area on a surface: "none" is left bare, otherwise the kind of board it takes."""

    name: str
    board: str
    x: Length
    y: Length
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """One face to be covered.

    Parameters
    ----------
    id : str
        "bedroom/north", "bedroom/north-2" (a second north face), "bedroom/ceiling",
        "living/ceiling-south" ...
    label : str
        In words: "bedroom, north wall".
    room : str
    kind : SurfaceKind
    facing : str
        The compass side of the room it stands on ("north"), or "up" for ceilings.
    outline : tuple of (Length, Length)
        Counter-clockwise, to the framing: subfloor, neighbouring framing faces, underside of the
        ceiling framing.  Nothing taken off for boards or gaps.
    openings : tuple of SurfaceOpening
    wet : tuple of WetPatch
    backing : tuple of Backing
        Members that a joint may land on, by x; for ceilings the joists.
    member_spacing : Length
    spans : tuple of Span
        Which walls it lies on; empty for ceilings.
    top_meets_ceiling : bool
        True when its top edge is at a ceiling that is boarded before it.
    plan_origin, plan_x, plan_y : tuples of float
        Plan point of (0, 0) [in] and plan vectors of one inch along x and y; for drawing ceilings.
    """

    id: str
    label: str
    room: str
    kind: SurfaceKind
    facing: str
    outline: tuple[tuple[Length, Length], ...]
    openings: tuple[SurfaceOpening, ...]
    wet: tuple[WetPatch, ...]
    backing: tuple[Backing, ...]
    member_spacing: Length
    spans: tuple[Span, ...] = ()
    top_meets_ceiling: bool = True
    plan_origin: tuple[float, float] = (0.0, 0.0)
    plan_x: tuple[float, float] = (1.0, 0.0)
    plan_y: tuple[float, float] = (0.0, 1.0)

    @property
    def width(self) -> Length:
        """Extent along x."""
        return max(x for x, _ in self.outline)

    @property
    def height(self) -> Length:
        """Extent along y."""
        return max(y for _, y in self.outline)

    @property
    def gross_area(self) -> Area:
        """Area inside the outline, openings not taken off."""
        return Area.polygon(self.outline)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room found from the walls.

    Parameters
    ----------
    name, use : str
    outline : tuple of Point
        Counter-clockwise, along the framing faces.
    holes : tuple of tuples of Point
        Free-standing walls inside it.
    area : Area
        Of the floor, framing to framing.
    surfaces : tuple of str
        Ids of its surfaces: walls clockwise from the west end of the north wall, then ceilings.
    """

    name: str
    use: str
    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    area: Area
    surfaces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """A house: what was written and everything derived from it.

    `footprint` is the outline of all framing on the plan (outer rings first), `joists_run` the way the
    ceiling framing runs by room, `boxes` the size of what its devices are in.
    """

    name: str
    description: HouseDescription
    walls: tuple[Wall, ...]
    rooms: tuple[Room, ...]
    surfaces: tuple[Surface, ...]
    footprint: tuple[tuple[Point, ...], ...]
    joists_run: dict[str, Axis] = field(default_factory=dict)
    floor_holes: tuple[FloorHole, ...] = ()
    reserves: tuple[TypedReserve, ...] = ()
    foundation: Foundation = field(default_factory=Foundation)
    devices: tuple[Device, ...] = ()
    circuits: tuple[TypedCircuit, ...] = ()
    wiring: Wiring = field(default_factory=Wiring)
    counters: tuple[Counter, ...] = ()
    boxes: BoxSize = field(default_factory=usual_box)

    def wall(self, name: str) -> Wall:
        """Return the wall of that name."""
        return next(wall for wall in self.walls if wall.name == name)

    def room(self, name: str) -> Room:
        """Return the room of that name."""
        return next(room for room in self.rooms if room.name == name)

    def surface(self, surface_id: str) -> Surface:
        """Return the surface of that id."""
        return next(surface for surface in self.surfaces if surface.id == surface_id)

    def device(self, name: str) -> Device:
        """Return the device of that name."""
        return next(device for device in self.devices if device.name == name)
