"""Devices being proposed: what has been put so far, on walls and on ceilings."""

from dataclasses import dataclass, field

from setday.cable.placing.box_places import Boxes, BoxPlace, length, nearest
from setday.cable.placing.ceiling_places import CeilingBoxes
from setday.cable.placing.ways import Way, ways_of
from setday.cable.rooms import RoomKind, room_kinds
from setday.house import DeviceKind, House, Mount, Point, Room, Surface, TypedDevice
from setday.rules import RuleBook

__all__ = ["Draft"]


@dataclass(slots=True)
class Draft:
    """A proposal under way.

    Parameters
    ----------
    house : House
    rules : RuleBook
    """

    house: House
    rules: RuleBook
    boxes: Boxes = field(init=False)
    overhead: CeilingBoxes = field(init=False)
    kinds: dict[str, RoomKind] = field(init=False)
    ways: dict[str, tuple[Way, ...]] = field(init=False)
    devices: list[TypedDevice] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.boxes = Boxes(house=self.house, rules=self.rules)
        self.overhead = CeilingBoxes(house=self.house)
        self.kinds = room_kinds(self.house)
        self.ways = ways_of(self.house)

    def rooms(self, *kinds: RoomKind) -> list[Room]:
        """Return the rooms of these kinds, in the order of the house."""
        return [room for room in self.house.rooms if self.kinds[room.name] in kinds]

    def walls_of(self, room: str) -> list[Surface]:
        """Return the wall surfaces of a room, clockwise."""
        return [s for s in self.house.surfaces if s.room == room and s.spans]

    def inches(self, key: str) -> float:
        """Return a length rule in inches."""
        return self.rules.length(f"cable.{key}").inches

    def name(self, words: str) -> str:
        """Return a name no device has: the words, with a number after the first of them."""
        taken = {device.name for device in self.devices}
        names = (words if n == 1 else f"{words} {n}" for n in range(1, len(taken) + 2))
        return next(name for name in names if name not in taken)

    def on_wall(
        self,
        words: str,
        kind: DeviceKind,
        place: BoxPlace,
        *,
        room: str,
        what: str = "",
        box: str = "",
        gangs: int = 1,
        take: bool = True,
        serves: tuple[str, ...] = (),
        volts: int = 120,
        load: int | None = None,
    ) -> TypedDevice:
        """Put a device on a wall."""
        device = TypedDevice(
            name=self.name(words),
            kind=kind,
            what=what,
            mount=Mount.WALL,
            room=room,
            wall=place.wall,
            side=place.side,
            along=length(place.along),
            up=length(place.up),
            gangs=gangs,
            box=box,
            serves=serves,
            volts=volts,
            load=load,
        )
        if take:
            self.boxes.take(place.wall, place.along, place.up, gangs=gangs)
        self.devices.append(device)
        return device

    def on_ceiling(
        self,
        words: str,
        kind: DeviceKind,
        wanted: tuple[float, float],
        *,
        room: str,
        what: str = "",
        apart: float = 12.0,
    ) -> TypedDevice | None:
        """Put a device on the ceiling near a point of the plan; None where there is no ceiling."""
        spot = self.overhead.put(room, wanted, apart=apart)
        if spot is None:
            return None
        device = TypedDevice(
            name=self.name(words),
            kind=kind,
            what=what,
            mount=Mount.CEILING,
            room=room,
            point=Point(x=length(spot[0]), y=length(spot[1])),
        )
        self.devices.append(device)
        return device

    def place_near(
        self,
        surface: Surface,
        x: float,
        *,
        up: float,
        low: float = 0.0,
        high: float | None = None,
        gangs: int = 1,
    ) -> BoxPlace | None:
        """Return the box place on a stretch of a surface nearest to `x`; between studs if need be."""
        end = surface.width.inches if high is None else high
        at_studs = self.boxes.on_surface(surface, low, end, up=up, gangs=gangs)
        return nearest(at_studs, x) or nearest(
            self.boxes.on_surface(surface, low, end, up=up, gangs=gangs, bars=True), x
        )
