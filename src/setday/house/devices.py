"""Electrical devices and circuits on the house: what was written, and where each device stands.

A device is anything with a box or a cable of its own: receptacles, switches, lights, alarms, fans,
appliances.  What a device *needs* is the cable trade's affair; the house only knows what it is called and
where it stands.  Heights are above the subfloor, to the centre of the box.
"""

from dataclasses import dataclass
from enum import StrEnum

from setday.findings import Where
from setday.house.points import Point
from setday.measure import ZERO, Length

__all__ = [
    "Device",
    "DeviceKind",
    "Mount",
    "PanelPlace",
    "TypedCircuit",
    "TypedDevice",
    "TypedWiring",
    "Wiring",
]


class DeviceKind(StrEnum):
    """What a device is; appliances are told apart by `what`."""

    RECEPTACLE = "receptacle"
    SWITCH = "switch"
    LIGHT = "light"
    FAN = "fan"
    ALARM = "alarm"
    APPLIANCE = "appliance"
    """Fastened in place or on a receptacle of its own: range, dryer, water heater, furnace ..."""
    JUNCTION = "junction box"


class Mount(StrEnum):
    """What a device is fastened to."""

    WALL = "wall"
    CEILING = "ceiling"
    FLOOR = "floor"


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedDevice:
    """A device as the house file places it.

    Parameters
    ----------
    name : str
    kind : DeviceKind
    what : str
        Further word: "counter", "outdoor" ... or ""; of fans, alarms and appliances the whole name:
        "bath fan", "smoke alarm", "range", "dryer" ...
    mount : Mount
    room : str
        Room it faces; "" outdoors.
    wall : str
        Name of its wall when mounted on one, else "".
    side : str
        Side of that wall, "left" or "right" looking from the wall's start to its end; "" takes the side
        that faces the room, or the weather.
    along : Length
        Centre of the box from the start of the wall's framing; where `measured_from` is written, from
        there.
    measured_from : str
        "" for the start of the framing, "end" for its end; a compass word for the end of the wall as
        seen in the room, or the name of a wall or an opening whose near side the tape was held to.
    going : str
        A compass word: which way the tape ran from an opening.
    up : Length
        Centre of the box above the subfloor; 0 for floor devices, not used on ceilings.
    point : Point or None
        Place on the plan when on a ceiling or a floor; None takes the middle of the room.
    gangs : int
        Devices side by side share one box when they are typed with the same `box`; `gangs` is the
        width of a box typed alone.
    box : str
        Name of the box it shares with others, "" when it has its own.
    serves : tuple of str
        For a switch: names of the lights, fans or receptacles it switches.  Two switches that serve the
        same device make a three-way pair; more make a chain with four-ways.
    half_switched : bool
        For a receptacle: only its upper half is switched.
    volts : int
        120 or 240 [V].
    load : int or None
        Nameplate load [VA]; None takes the trade's default for `what`.
    circuit : str
        Name of the typed circuit it is on, "" when circuits are to be proposed.
    where : Where
    """

    name: str
    kind: DeviceKind
    what: str = ""
    mount: Mount = Mount.WALL
    room: str = ""
    wall: str = ""
    side: str = "left"
    along: Length = ZERO
    measured_from: str = ""
    going: str = ""
    up: Length = ZERO
    point: Point | None = None
    gangs: int = 1
    box: str = ""
    serves: tuple[str, ...] = ()
    half_switched: bool = False
    volts: int = 120
    load: int | None = None
    circuit: str = ""
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedCircuit:
    """A circuit as the house file names it.

    Parameters
    ----------
    name : str
    use : str
        "general", "small appliance", "laundry", "bath", "individual" ...
    breaker : int
        [A].
    volts : int
        120 or 240 [V].
    wire : int or None
        Conductor size [AWG], copper; None takes the size the breaker asks for.
    devices : tuple of str
        In the order the cable reaches them when `ordered`.
    ordered : bool
        True when the instructor fixed the order of boxes.
    where : Where
    """

    name: str
    use: str = "general"
    breaker: int = 15
    volts: int = 120
    wire: int | None = None
    devices: tuple[str, ...] = ()
    ordered: bool = False
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPlace:
    """Where the home runs end: a point on the plan under which they are coiled for the set.

    Parameters
    ----------
    point : Point
        On the plan; the corner of the foundation where the panel will be.
    set_slack : Length or None
        Extra cable on every home run; None takes the trade's default.
    rating : int
        Of the service [A].
    spaces : int
        Breaker spaces of the panel.
    where : Where
    """

    point: Point
    set_slack: Length | None = None
    rating: int = 200
    spaces: int = 30
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedWiring:
    """What the house file says of wiring as a whole.

    Parameters
    ----------
    panel : Point or None
        None takes the corner named by the foundation.
    set_slack, hole_height : Length or None
        As in `PanelPlace` and `Wiring`.
    rating, spaces : int
        Of the service [A]; breaker spaces of the panel.
    closed_walls : tuple of str
    where : Where
    """

    panel: Point | None = None
    set_slack: Length | None = None
    rating: int = 200
    spaces: int = 30
    hole_height: Length | None = None
    closed_walls: tuple[str, ...] = ()
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class Wiring:
    """The wiring of a house as a whole.

    Parameters
    ----------
    panel : PanelPlace or None
        None where neither its place nor the corner of the foundation is written.
    hole_height : Length or None
        Height of the bored holes along walls above the subfloor; None takes the trade's default.
    closed_walls : tuple of str
        Walls that no cable may run in.
    """

    panel: PanelPlace | None = None
    hole_height: Length | None = None
    closed_walls: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A device standing in the house.

    Parameters
    ----------
    typed : TypedDevice
        As written, with its place taken from the start of the wall's framing, its side, its point and
        its circuit filled in.
    surface : str
        Id of the surface it shows on; "" when it stands outdoors or on a floor.
    x, y : Length
        Centre on that surface, in surface coordinates.
    plan : Point
        Centre on the plan: at the face of the framing for wall devices.
    height : Length
        Centre above the subfloor, ceilings included.
    """

    typed: TypedDevice
    surface: str
    x: Length
    y: Length
    plan: Point
    height: Length

    @property
    def name(self) -> str:
        """Name of the device."""
        return self.typed.name

    @property
    def kind(self) -> DeviceKind:
        """What it is."""
        return self.typed.kind

    @property
    def box(self) -> str:
        """Name of its box: its own name where it shares none."""
        return self.typed.box or self.typed.name

    @property
    def room(self) -> str:
        """Room it faces; "" outdoors."""
        return self.typed.room
