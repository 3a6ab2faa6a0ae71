"""A hookup: boxes, cables, devices, and which conductor ends and terminals are joined in each box."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from setday.findings import Where
from setday.measure import Length
from setday.rules import LocalRules
from setday.switching.kinds import GREEN, DeviceKind, cable_kind, position_words, shape_of

__all__ = [
    "FEED",
    "PANEL",
    "Box",
    "Cable",
    "Device",
    "Feed",
    "Hookup",
    "Join",
    "LoadName",
    "Path",
    "Point",
    "Want",
    "position_text",
]

FEED = "feed"
"""The name of the cable that comes from the panel."""
PANEL = "panel"
"""The box at the far end of the feed; nobody opens it."""

LoadName = str
"""A lamp's name, or a receptacle's with its half: "L1", "R1 lower"."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Point:
    """A place that can be joined or measured: a conductor's end, or a terminal, in a box.

    Parameters
    ----------
    box : str
    holder : str
        The cable, the device, or "box" for the box's own metal.
    part : str
        The conductor's color, or the terminal's name.
    """

    box: str
    holder: str
    part: str

    def __str__(self) -> str:
        return f"{self.holder} {self.part}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A box.

    Parameters
    ----------
    name : str
    volume_in3 : float or None
        Marked on plastic boxes, or from the table for a trade size; None when nobody wrote it.
    size : str
        Trade size, where one is given.
    metal : bool
        A metal box is itself joined to the equipment ground.
    clamps : bool
        Internal cable clamps; they count once, together.
    reopens : bool
        A cable can be added later without taking a finish off (or there is a raceway).
    at : tuple of two floats or None
        Where it is on the sketch, column and row.
    where : Where
    """

    name: str
    volume_in3: float | None = None
    size: str = ""
    metal: bool = False
    clamps: bool = False
    reopens: bool = False
    at: tuple[float, float] | None = None
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """A cable between two boxes; `remarked` colors are marked at both ends as no longer white."""

    name: str
    kind: str
    a: str
    b: str
    length_ft: float
    remarked: tuple[str, ...] = ()
    where: Where = Where()

    @property
    def length(self) -> Length:
        """Its length as on the tape."""
        return Length.of(inches=self.length_ft * 12)

    @property
    def colors(self) -> tuple[str, ...]:
        """The colors of its conductors, ground last."""
        return cable_kind(self.kind).colors

    def ends(self, color: str) -> tuple[Point, Point]:
        """Return the two ends of a conductor."""
        return (
            Point(box=self.a, holder=self.name, part=color),
            Point(box=self.b, holder=self.name, part=color),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """Where a cable could be run: between which boxes, and how long it would be."""

    a: str
    b: str
    length_ft: float
    where: Where = Where()

    @property
    def length(self) -> Length:
        """Its length as on the tape."""
        return Length.of(inches=self.length_ft * 12)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """Where the circuit enters: the cable from the panel and its breaker."""

    box: str
    kind: str = "14/2"
    length_ft: float = 30.0
    breaker_a: float = 15.0
    leg: str = "A"
    where: Where = Where()

    @property
    def length(self) -> Length:
        """Its length as on the tape."""
        return Length.of(inches=self.length_ft * 12)

    def as_cable(self) -> Cable:
        """Return the feed as a cable from the panel."""
        return Cable(
            name=FEED, kind=self.kind, a=PANEL, b=self.box, length_ft=self.length_ft, where=self.where
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A switch, a lampholder or a receptacle.

    Parameters
    ----------
    name, box : str
    kind : DeviceKind
    watts : float or None
        Of the lamp, or of what is plugged into each half; None for the usual one.
    brass_tab : bool
        Receptacles: False when the tab between the brass screws is broken off.
    where : Where
    """

    name: str
    kind: DeviceKind
    box: str
    watts: float | None = None
    brass_tab: bool = True
    where: Where = Where()

    def point(self, terminal: str) -> Point:
        """Return a terminal as a point of its box."""
        return Point(box=self.box, holder=self.name, part=terminal)

    @property
    def terminals(self) -> tuple[Point, ...]:
        """All terminals, the green one last."""
        return tuple(self.point(name) for name in shape_of(self.kind).terminals)

    @property
    def tabs(self) -> tuple[tuple[Point, Point], ...]:
        """The pairs of terminals that a tab still holds together."""
        tabs = shape_of(self.kind).tabs
        kept = tabs if self.brass_tab else tabs[1:]
        return tuple((self.point(first), self.point(second)) for first, second in kept)

    @property
    def loads(self) -> tuple[tuple[LoadName, Point, Point], ...]:
        """Each load with its name and its two terminals."""
        return tuple(
            (f"{self.name} {load.part}".strip(), self.point(load.first), self.point(load.second))
            for load in shape_of(self.kind).loads
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Points of one box joined: under a screw, in a splice, or both by a pigtail."""

    points: tuple[Point, ...]
    where: Where = Where()

    @property
    def box(self) -> str:
        """The box it is in."""
        return self.points[0].box

    def __str__(self) -> str:
        return " + ".join(str(point) for point in self.points)


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """A load and the switches it is wanted from; no switches: always on."""

    load: LoadName
    switches: tuple[str, ...] = ()
    where: Where = Where()

    def __str__(self) -> str:
        return f"{self.load} from {' and '.join(self.switches)}" if self.switches else f"{self.load} always"


@dataclass(frozen=True, kw_only=True)
class Hookup:
    """A hookup.  `check` tells what in it does not fit together; until it is silent, nothing is tried.

    Parameters
    ----------
    name : str
    feed : Feed
    boxes, cables, devices, joins, wants : tuples
        In the order of the file.
    paths : tuple of Path
        Where a cable could be run, for planning.
    local : LocalRules
        Rules the local authority or the instructor set.
    more_feeds : tuple of Feed
        Feeds written after the first; a hookup that can be tried has none.
    """

    name: str
    feed: Feed
    boxes: tuple[Box, ...]
    cables: tuple[Cable, ...]
    devices: tuple[Device, ...]
    joins: tuple[Join, ...]
    wants: tuple[Want, ...] = ()
    paths: tuple[Path, ...] = ()
    local: LocalRules = field(default_factory=LocalRules)
    more_feeds: tuple[Feed, ...] = ()

    @cached_property
    def switches(self) -> tuple[Device, ...]:
        """The switches, in the order of the file; positions are written in this order."""
        return tuple(device for device in self.devices if device.kind.is_switch)

    @cached_property
    def loads(self) -> tuple[LoadName, ...]:
        """The names of all loads, in the order of the file."""
        return tuple(name for device in self.devices for name, _, _ in device.loads)

    @cached_property
    def all_cables(self) -> tuple[Cable, ...]:
        """The feed, then the cables."""
        return (self.feed.as_cable(), *self.cables)

    @cached_property
    def lighting(self) -> frozenset[str]:
        """The switches wanted for a lamp; all of them where nothing is wanted."""
        if not self.wants:
            return frozenset(switch.name for switch in self.switches)
        lamps = {name for d in self.devices if d.kind is DeviceKind.LAMP for name, _, _ in d.loads}
        return frozenset(switch for want in self.wants if want.load in lamps for switch in want.switches)

    def box(self, name: str) -> Box:
        """Return a box by its name."""
        return next(box for box in self.boxes if box.name == name)

    def device(self, name: str) -> Device:
        """Return a device by its name."""
        return next(device for device in self.devices if device.name == name)

    def points(self) -> Iterator[Point]:
        """Yield every conductor end, terminal and metal box, in a fixed order; the panel's ends first."""
        for cable in self.all_cables:
            for color in cable.colors:
                yield from cable.ends(color)
        for device in self.devices:
            yield from device.terminals
        for box in self.boxes:
            if box.metal:
                yield Point(box=box.name, holder="box", part=GREEN)

    def points_in(self, box: str) -> tuple[Point, ...]:
        """Return the points of one box."""
        return tuple(point for point in self.points() if point.box == box)

    def joins_in(self, box: str) -> tuple[Join, ...]:
        """Return the joins of one box."""
        return tuple(join for join in self.joins if join.box == box)

    def with_joins(self, joins: tuple[Join, ...]) -> "Hookup":
        """Return the same boxes, cables and devices joined otherwise."""
        return replace(self, joins=joins)


def position_text(hookup: Hookup, position: tuple[int, ...]) -> str:
    """Return a position in words, in the order of the switches: "S1 up, S2 down"."""
    words = (
        f"{switch.name} {position_words(switch.kind)[state]}"
        for switch, state in zip(hookup.switches, position, strict=True)
    )
    return ", ".join(words) or "no switches"
