"""What each room, the outdoors and the house as a whole must have: receptacles, lights, fans and alarms."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import hypot

from setday.cable.placing.fronts import front_and_back, weather_side
from setday.cable.placing.spacing import asked, counts_for_walls
from setday.cable.placing.spacing_counters import island_outlets
from setday.cable.placing.wall_spaces import wall_spaces
from setday.cable.placing.ways import OUTDOORS, Way, ways_of
from setday.cable.rooms import RoomKind, is_large_foyer, room_kinds
from setday.findings import Finding, Severity, Where
from setday.house import Device, DeviceKind, House, OpeningKind, Room, Wall
from setday.rules import RuleBook

__all__ = ["check_presence"]

_NEAR_DOOR = 96.0
"""A light this near an outside door's edge is that door's [in]; our own."""
_LIT = (
    RoomKind.KITCHEN,
    RoomKind.DINING,
    RoomKind.LIVING,
    RoomKind.BEDROOM,
    RoomKind.BATH,
    RoomKind.LAUNDRY,
    RoomKind.UTILITY,
    RoomKind.HALL,
    RoomKind.STAIR,
    RoomKind.GARAGE,
    RoomKind.OTHER,
)
_DWELT_IN = {RoomKind.KITCHEN, RoomKind.LIVING, RoomKind.BEDROOM, RoomKind.BATH}
"""A building with none of these is no dwelling, and the rules of dwellings are not held against it."""
_RECEPTACLE_FOR_LIGHT = (RoomKind.DINING, RoomKind.LIVING, RoomKind.BEDROOM, RoomKind.OTHER)
"""Rooms in which a receptacle on a wall switch may stand for the light."""


@dataclass(slots=True)
class _Look:
    """A house looked at with its rules."""

    house: House
    rules: RuleBook
    kinds: dict[str, RoomKind] = field(init=False)
    ways: dict[str, tuple[Way, ...]] = field(init=False)

    def __post_init__(self) -> None:
        self.kinds, self.ways = room_kinds(self.house), ways_of(self.house)

    def of(self, room: str, *kinds: DeviceKind) -> list[Device]:
        return [d for d in self.house.devices if d.room == room and d.kind in kinds]

    def where(self, room: str) -> Where:
        return next((r.where for r in self.house.description.rooms if r.name == room), Where())

    def lacks(self, rule: str, room: str, found: str, expected: str, do: str) -> Finding:
        return asked(
            self.rules[f"cable.{rule}"], f"room '{room}'", (found, expected, do), where=self.where(room)
        )

    def switched(self, device: Device) -> bool:
        return any(device.name in other.typed.serves for other in self.house.devices)


def check_presence(house: House, rules: RuleBook) -> tuple[Finding, ...]:
    """Return what is lacking in rooms, outdoors and in the house as a whole.

    Parameters
    ----------
    house : House
    rules : RuleBook
    """
    look = _Look(house=house, rules=rules)
    found: list[Finding] = []
    for room in house.rooms:
        found += _of_no_kind(look, room)
        found += _receptacles(look, room)
        found += _lights(look, room)
        found += _alarms(look, room)
    found += _islands(look)
    if not _DWELT_IN & set(look.kinds.values()):
        return tuple(found)
    found += [*_outdoors(look), *_outside_doors(look), *_outside_sleeping(look)]
    return (*found, *_later(look))


def _of_no_kind(look: _Look, room: Room) -> Iterator[Finding]:
    """Say which rooms no word sorts: a bedroom or a bath among them would go without its own rules."""
    if look.kinds[room.name] is not RoomKind.OTHER:
        return
    written = f"its use '{room.use}'" if room.use else "its name, with no use written,"
    yield asked(
        look.rules["cable.least_wall"],
        f"room '{room.name}'",
        (
            f"{written} is none that the wiring rules know: no alarm, fan or circuit is asked for it.",
            "a use like bedroom, bath, kitchen, living, laundry, hall, closet, utility or garage.",
            "Write the use that comes nearest, where it is one of these.",
        ),
        where=look.where(room.name),
        note=True,
    )


def _receptacles(look: _Look, room: Room) -> Iterator[Finding]:
    kind = look.kinds[room.name]
    there = look.of(room.name, DeviceKind.RECEPTACLE)
    add = "Add one."
    if kind is RoomKind.HALL:
        yield from _hall(look, room, there)
    elif kind is RoomKind.BATH and not there:
        reach = look.rules.length("cable.basin_reach")
        yield look.lacks(
            "basin_reach", room.name, "it has no receptacle.", f"one within {reach} of each basin.", add
        )
    elif kind is RoomKind.LAUNDRY:
        washers = [d for d in look.of(room.name, DeviceKind.APPLIANCE) if d.typed.what == "washer"]
        least = int(look.rules.number("cable.laundry_outlets"))
        if len(there) + len(washers) < least:
            yield look.lacks(
                "laundry_outlets",
                room.name,
                "it has no receptacle for the washer.",
                f"at least {least}.",
                add,
            )


def _hall(look: _Look, room: Room, there: list[Device]) -> Iterator[Finding]:
    least = look.rules.length("cable.hall_least")
    xs, ys = [p.x for p in room.outline], [p.y for p in room.outline]
    run = max(max(xs) - min(xs), max(ys) - min(ys))
    if run >= least and not there:
        yield look.lacks(
            "hall_least",
            room.name,
            f"it is {run} long and has no receptacle.",
            f"one in a hall of {least} or more.",
            "Add one.",
        )
    if is_large_foyer(room, look.rules):
        yield from _foyer(look, room)


def _foyer(look: _Look, room: Room) -> Iterator[Finding]:
    least = look.rules.length("cable.foyer_wall")
    counted = [
        d for d in look.house.devices if d.room == room.name and counts_for_walls(d, look.house, look.rules)
    ]
    for space in wall_spaces(look.house, room.name):
        has = any(
            d.surface == p.surface.id and p.low <= d.x.inches <= p.high for d in counted for p in space.pieces
        )
        if space.length >= least.inches and not has:
            yield look.lacks(
                "foyer_wall",
                room.name,
                f"the wall space that begins on its {space.pieces[0].surface.facing} wall has no receptacle.",
                f"one in each wall space of {least} or more of a large foyer.",
                "Add one.",
            )


def _lights(look: _Look, room: Room) -> Iterator[Finding]:
    kind = look.kinds[room.name]
    if kind in _LIT and look.rules.flag("cable.room_light"):
        sources = look.of(room.name, DeviceKind.LIGHT)
        if kind in _RECEPTACLE_FOR_LIGHT:
            sources += look.of(room.name, DeviceKind.RECEPTACLE)
        if not any(look.switched(each) for each in sources):
            yield look.lacks(
                "room_light",
                room.name,
                "it has no light on a wall switch.",
                "a light, and a switch that serves it.",
                "Add them, or write what the switch serves.",
            )
    windows = [
        o
        for s in look.house.surfaces
        if s.room == room.name
        for o in s.openings
        if o.kind == OpeningKind.WINDOW.value
    ]
    fans = look.of(room.name, DeviceKind.FAN)
    if kind is RoomKind.BATH and look.rules.flag("cable.bath_fan") and not (windows or fans):
        yield look.lacks(
            "bath_fan",
            room.name,
            "it has neither a window nor a fan.",
            "a fan that blows outdoors.",
            "Add one.",
        )


def _alarms(look: _Look, room: Room) -> Iterator[Finding]:
    if look.kinds[room.name] is not RoomKind.BEDROOM or not look.rules.flag("cable.smoke_bedroom"):
        return
    if not any("smoke" in d.typed.what for d in look.of(room.name, DeviceKind.ALARM)):
        yield look.lacks(
            "smoke_bedroom", room.name, "it has no smoke alarm.", "one in every bedroom.", "Add one."
        )


def _outside_sleeping(look: _Look) -> Iterator[Finding]:
    passages = dict.fromkeys(
        way.leads_to
        for room in look.house.rooms
        if look.kinds[room.name] is RoomKind.BEDROOM
        for way in look.ways[room.name]
        if way.leads_to and look.kinds[way.leads_to] not in (RoomKind.CLOSET, RoomKind.BATH, RoomKind.BEDROOM)
    )
    for name in passages:
        alarms = look.of(name, DeviceKind.ALARM)
        for rule, word, said in (
            ("smoke_outside", "smoke", "smoke alarm"),
            ("co_outside", "CO", "carbon monoxide alarm"),
        ):
            if look.rules.flag(f"cable.{rule}") and not any(word in d.typed.what for d in alarms):
                yield look.lacks(
                    rule, name, f"a bedroom opens to it, and it has no {said}.", "one outside it.", "Add one."
                )


def _islands(look: _Look) -> Iterator[Finding]:
    for counter in look.house.counters:
        if counter.surface:
            continue
        typed = counter.typed
        long, short = max(typed.width, typed.depth), min(typed.width, typed.depth)
        least, source = island_outlets(long, short, look.rules)
        at = [d for d in look.of(typed.room, DeviceKind.RECEPTACLE) if d.typed.what == "island"]
        if len(at) < least:
            yield Finding(
                rule="cable.island",
                about=f"counter '{typed.name}'",
                found=f"{len(at)} receptacle{'s' if len(at) != 1 else ''} at an island of {long} by {short}.",
                expected=f"at least {least}.",
                do='Add receptacles with what: "island".',
                where=typed.where,
                severity=Severity.ASK,
                source=source,
            )


def _outdoors(look: _Look) -> Iterator[Finding]:
    walls = front_and_back(look.house, look.ways)
    for rule, words, wall in (("outdoor_front", "front", walls[0]), ("outdoor_back", "back", walls[1])):
        if wall is None or not look.rules.flag(f"cable.{rule}"):
            continue
        there = [
            d
            for d in look.of(OUTDOORS, DeviceKind.RECEPTACLE)
            if _faces_like(look.house, look.house.wall(d.typed.wall), wall)
        ]
        if not there:
            yield asked(
                look.rules[f"cable.{rule}"],
                "outdoors",
                (
                    f"there is no receptacle at the {words} of the house (wall '{wall.name}').",
                    "one that can be reached from the ground.",
                    "Add one.",
                ),
            )


def _faces_like(house: House, wall: Wall, other: Wall) -> bool:
    ax, ay = _out(house, wall)
    bx, by = _out(house, other)
    return ax * bx + ay * by > 0.5


def _out(house: House, wall: Wall) -> tuple[float, float]:
    dx, dy = (wall.end.x - wall.start.x).inches, (wall.end.y - wall.start.y).inches
    run = hypot(dx, dy)
    return (-dy / run, dx / run) if weather_side(house, wall) == "left" else (dy / run, -dx / run)


def _outside_doors(look: _Look) -> Iterator[Finding]:
    """Ask about outside doors without a light of their own: a light is that of the door nearest to it."""
    if not look.rules.flag("cable.outside_door_light"):
        return
    doors = [way for ways in look.ways.values() for way in ways if way.leads_to == OUTDOORS]
    lit = {
        min((_off(device, way), way.opening) for way in doors)[1]
        for device in look.of(OUTDOORS, DeviceKind.LIGHT)
        if look.switched(device) and any(_off(device, way) <= _NEAR_DOOR for way in doors)
    }
    for way in doors:
        if way.opening not in lit:
            yield asked(
                look.rules["cable.outside_door_light"],
                f"opening '{way.opening}'",
                ("no light on a wall switch is outdoors beside it.", "one at every outside door.", "Add it."),
            )


def _off(device: Device, way: Way) -> float:
    return hypot(device.plan.x.inches - way.plan[0], device.plan.y.inches - way.plan[1])


def _later(look: _Look) -> Iterator[Finding]:
    """Say what belongs to the foundation or to the stair, which are built after the set."""
    kind = look.house.foundation.kind
    if kind != "slab":
        yield asked(
            look.rules["cable.smoke_outside"],
            kind,
            (
                f"receptacle, light, alarm and what else the {kind} needs come after the set.",
                "they are planned with whoever builds the foundation.",
                "Leave spaces for them in the panel.",
            ),
            note=True,
        )
    for room in look.house.rooms:
        if look.kinds[room.name] is RoomKind.STAIR:
            risers = int(look.rules.number("cable.stair_risers"))
            yield asked(
                look.rules["cable.stair_risers"],
                f"room '{room.name}'",
                (
                    "its switch at the other floor is not in this house file.",
                    f"a switch at each floor of a stair of {risers} risers or more.",
                    "Run a three-wire cable to the foot of the stair and leave it as a loose end.",
                ),
                note=True,
            )
