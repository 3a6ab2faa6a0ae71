"""Runs of cable: where each one passes, what it needs in the wood, how long it is cut, what its labels say.

A run is one length of cable between two stops: boxes, or the corner where the home runs are coiled for
the set.  Its way is a chain of points; points in a wall know their place on that wall's elevation, so
that a drawing of the wall takes them as they are.
"""

from dataclasses import dataclass
from enum import StrEnum

from setday.findings import Where
from setday.house import MemberKind, Mount, Point
from setday.measure import ZERO, Length
from setday.working import Working

__all__ = [
    "PANEL",
    "Cable",
    "Hole",
    "Medium",
    "PlateNeed",
    "Pull",
    "RoutePoint",
    "Run",
    "Stop",
]

PANEL = "panel"
"""The stop where every home run ends: the corner of the foundation where the panel will be."""


class Medium(StrEnum):
    """What a stretch of cable runs in."""

    WALL = "wall"
    CEILING = "ceiling"
    """On or through the framing over a ceiling."""
    FLOOR = "floor"
    """Under the subfloor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where a run may end: a box with all the devices in it, or the panel's corner.

    Parameters
    ----------
    name : str
        Of the box; of the device where it has a box of its own.
    devices : tuple of str
        Empty for the panel's corner.
    mount : Mount
    wall, side : str
        "" unless on a wall.
    along, up : Length
        Centre of the box on the wall; `up` is above the subfloor for every stop.
    plan : Point
    room : str
    label : str
        In words: "receptacle 3, bedroom".
    where : Where
    """

    name: str
    devices: tuple[str, ...] = ()
    mount: Mount = Mount.WALL
    wall: str = ""
    side: str = ""
    along: Length = ZERO
    up: Length = ZERO
    plan: Point
    room: str = ""
    label: str = ""
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """A run that is wanted: what kind of cable from which stop to which.

    Parameters
    ----------
    number : str
        Run number, unique in the house: "4-2" is the second run of circuit 4.
    circuit : str
    start, end : str
        Names of stops; a home run starts at `PANEL`.
    kind : str
        Cable as on the price list: "14/2", "12/3", "10/2".
    purpose : str
        "home run", "feed" or "switch leg".
    """

    number: str
    circuit: str
    start: str
    end: str
    kind: str
    purpose: str = "feed"

    @property
    def home(self) -> bool:
        """Whether it ends at the panel."""
        return PANEL in (self.start, self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoutePoint:
    """One point of a run's way.

    Where the way turns from one wall into another, the point stands twice, once for each wall.

    Parameters
    ----------
    plan : Point
        On the plan.
    up : Length
        Above the subfloor; below nothing under the floor.
    medium : Medium
        What the cable is in here.
    wall : str
        The wall, "" over ceilings and under floors.
    along : Length
        On that wall; may lie half a wall's thickness beyond its ends, where two walls meet.
    """

    plan: Point
    up: Length
    medium: Medium
    wall: str = ""
    along: Length = ZERO


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole bored through one member.

    Parameters
    ----------
    wall : str
        The wall; "" for a joist.
    room : str
        The room under a bored joist, "" in walls.
    member : MemberKind or None
        None for a joist.
    member_at : Length
        Centre of the member along the wall; for plates, of the hole.
    along, up : Length
        Centre of the hole on the wall's elevation.
    plan : Point
    upright : bool
        True when bored up and down, through a plate; False when bored level.
    diameter : Length
    edge : Length
        Wood left between the hole and the nearer face of the wall.
    runs : tuple of str
        Numbers of the runs that pass.
    plated : bool
        True when so little wood is left that a steel plate must cover it.
    """

    wall: str
    room: str = ""
    member: MemberKind | None
    member_at: Length
    along: Length
    up: Length
    plan: Point
    upright: bool
    diameter: Length
    edge: Length
    runs: tuple[str, ...]
    plated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateNeed:
    """A steel plate that must cover a cable before the wall is closed.

    Parameters
    ----------
    wall : str
    side : str
        "left" or "right", looking from the wall's start to its end.
    along, up : Length
        Centre.
    why : str
    runs : tuple of str
    """

    wall: str
    side: str
    along: Length
    up: Length
    why: str
    runs: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A cable with its way through the framing.

    Parameters
    ----------
    cable : Cable
    points : tuple of RoutePoint
        From `cable.start` to `cable.end`.
    path : Length
        Along the way, without any allowance.
    cut : Length
        What is cut off the coil: path, drape, a tail in each box, the slack for the set; up to the next
        whole inch.
    slack : Length
        Of `cut`, what stays coiled for the set; nothing but on home runs.
    passes : tuple of str
        Where it passes, in words, in order from the start.
    staples : int
    bored : int
        Members bored on its way.
    working : Working
        How `cut` was come by.
    """

    cable: Cable
    points: tuple[RoutePoint, ...]
    path: Length
    cut: Length
    slack: Length
    passes: tuple[str, ...]
    staples: int
    bored: int
    working: Working

    @property
    def number(self) -> str:
        """Run number."""
        return self.cable.number

    @property
    def circuit(self) -> str:
        """Name of its circuit."""
        return self.cable.circuit

    @property
    def walls(self) -> tuple[str, ...]:
        """The walls it runs in, each once, in order."""
        return tuple(dict.fromkeys(point.wall for point in self.points if point.wall))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """One line of the pull list.

    Parameters
    ----------
    number, circuit, kind : str
    start, end : str
        In words.
    cut : Length
    passes : tuple of str
    staples : int
    label : str
        Written on the cable's whole length in the list: "4-2 12/2 kitchen counter 1 to kitchen counter 2".
    start_label, end_label : str
        For the tape at each end.
    home : bool
    reserve : Length
        Kept on the coil for a miscut of this run; not part of `cut`.
    """

    number: str
    circuit: str
    kind: str
    start: str
    end: str
    cut: Length
    passes: tuple[str, ...]
    staples: int
    label: str
    start_label: str
    end_label: str
    home: bool
    reserve: Length = ZERO
