"""A house of 50 by 30 ft outside, five rooms in a row, with whatever a test puts on its walls."""

from collections.abc import Sequence
from dataclasses import replace

from setday.cable import PANEL
from setday.findings import Where
from setday.house import (
    DeviceKind,
    House,
    Mount,
    TypedCircuit,
    TypedDevice,
    TypedWiring,
    build_house,
)
from setday.measure import Length
from tests.house.sketches import at, ceiling, ft, house, ring, room, wall

ROOMS = ("kitchen", "bath", "laundry", "bedroom", "living")
WIDE = 10
KINDS = {
    "receptacle": DeviceKind.RECEPTACLE,
    "switch": DeviceKind.SWITCH,
    "light": DeviceKind.LIGHT,
    "alarm": DeviceKind.ALARM,
    "fan": DeviceKind.FAN,
}


def device(name: str, where: str, is_: str = "appliance", *, line: int = 1, **more: object) -> TypedDevice:
    """A device in a room ("" outdoors); its place is given by `on_walls`."""
    given: dict[str, object] = {"what": "", "up": ft('16"')}
    given.update(more)
    return TypedDevice(
        name=name,
        kind=KINDS.get(is_, DeviceKind.APPLIANCE),
        room=where,
        where=Where(file="h.yaml", line=line, column=1),
        **given,  # type: ignore[arg-type]
    )


def on_walls(devices: Sequence[TypedDevice], rooms: Sequence[str]) -> tuple[TypedDevice, ...]:
    """Put devices on the south and north walls of their rooms, 14 in apart, so that none meets another."""
    count: dict[str, int] = {}
    placed = []
    for each in devices:
        if each.box and any(other.box == each.box for other in placed):
            first = next(other for other in placed if other.box == each.box)
            shift = 2 * sum(other.box == each.box for other in placed)
            placed.append(replace(first_place(each, first), along=first.along + Length.of(inches=shift)))
            continue
        n = count.get(each.room, 0)
        count[each.room] = n + 1
        wall_name, place = ("south", n) if n < 7 else ("north", n - 7)
        room_left = WIDE * 12 * rooms.index(each.room) if each.room else 0
        left = room_left + 14 + 14 * place
        along = left if wall_name == "south" else WIDE * len(rooms) * 12 - left
        side = "left" if each.room else "right"
        placed.append(
            replace(each, mount=Mount.WALL, wall=wall_name, side=side, along=Length.of(inches=along))
        )
    return tuple(placed)


def first_place(each: TypedDevice, first: TypedDevice) -> TypedDevice:
    return replace(each, mount=Mount.WALL, wall=first.wall, side=first.side, up=first.up)


def wired(
    *devices: TypedDevice,
    circuits: Sequence[TypedCircuit] = (),
    rooms: Sequence[str] = ROOMS,
    spaces: int = 30,
    rating: int = 200,
) -> House:
    """The house with these devices, the panel at its south-west corner."""
    width = f"{WIDE * len(rooms)}'"
    walls = list(ring(width, "30'"))
    for n in range(1, len(rooms)):
        x = f"{WIDE * n}'"
        walls.append(wall(f"across {n}", at(x, '5.5"'), at(x, "29'-6 1/2\""), kind="partition"))
    description = house(
        tuple(walls),
        rooms=tuple(replace(room(name, f"{WIDE * n + 5}'", "15'"), use=name) for n, name in enumerate(rooms)),
        ceilings=tuple(ceiling(name) for name in rooms),
        devices=on_walls(devices, rooms),
        circuits=tuple(circuits),
        wiring=TypedWiring(
            panel=at("1'", "1'"), spaces=spaces, rating=rating, where=Where(file="h.yaml", line=90)
        ),
    )
    made = build_house(description)
    problems = [str(finding) for finding in made.findings]
    assert made.house is not None, problems
    return made.house


def circuit(name: str, *devices: str, line: int = 50, **more: object) -> TypedCircuit:
    return TypedCircuit(
        name=name,
        devices=devices,
        where=Where(file="h.yaml", line=line, column=1),
        **more,  # type: ignore[arg-type]
    )


def straight(of: House):
    """Distance between boxes along the plan's two directions and upright [ft]; 12 ft more to the panel."""
    spot = {each.box: each for each in of.devices}

    def point(box: str) -> tuple[float, float, float]:
        if box == PANEL:
            panel = of.wiring.panel
            assert panel is not None
            return panel.point.x.inches, panel.point.y.inches, -12.0
        each = spot[box]
        return each.plan.x.inches, each.plan.y.inches, each.height.inches

    def distance(a: str, b: str) -> float:
        more = 12.0 if PANEL in (a, b) else 0.0
        return sum(abs(p - q) for p, q in zip(point(a), point(b), strict=True)) / 12 + more

    return distance
