"""Houses with boxes put straight on their walls and ceilings, for the tests of ways and runs."""

from collections.abc import Iterable
from dataclasses import replace
from random import Random

from setday.cable import PANEL, Cable, Passages, cable_rules, route_rules, stops_of
from setday.house import (
    Device,
    DeviceKind,
    House,
    HouseDescription,
    Mount,
    OpeningKind,
    PanelPlace,
    Point,
    TypedDevice,
    Wall,
    Wiring,
    build_house,
)
from setday.measure import ZERO, Length
from setday.rules import LocalRules
from tests.house.sketches import at, ceiling, door, house, ring, room, wall, window

INCH = 64


def inches(count: float) -> Length:
    return Length(round(count * INCH))


def built(description: HouseDescription) -> House:
    outcome = build_house(description)
    assert outcome.house is not None, [str(finding) for finding in outcome.findings]
    return outcome.house


def on_wall(of: House, name: str, wall_name: str, along: float, up: float, side: str = "left") -> Device:
    """A box `along` and `up` inches on a wall's framing."""
    typed = TypedDevice(
        name=name, kind=DeviceKind.RECEPTACLE, wall=wall_name, side=side, along=inches(along), up=inches(up)
    )
    return Device(
        typed=typed,
        surface="",
        x=ZERO,
        y=ZERO,
        plan=plan_of(of.wall(wall_name), inches(along).sixtyfourths),
        height=inches(up),
    )


def plan_of(wall_: Wall, along: int) -> Point:
    run = wall_.length.sixtyfourths
    dx, dy = wall_.end.x - wall_.start.x, wall_.end.y - wall_.start.y
    return Point(
        x=Length(round(wall_.start.x.sixtyfourths + dx.sixtyfourths * along / run)),
        y=Length(round(wall_.start.y.sixtyfourths + dy.sixtyfourths * along / run)),
    )


def on_ceiling(name: str, x: float, y: float, *, up: float = 97.125) -> Device:
    typed = TypedDevice(
        name=name, kind=DeviceKind.LIGHT, mount=Mount.CEILING, point=Point(x=inches(x), y=inches(y))
    )
    return Device(
        typed=typed, surface="", x=ZERO, y=ZERO, plan=typed.point or Point(x=ZERO, y=ZERO), height=inches(up)
    )


def wired(
    of: House, devices: Iterable[Device], *, panel: tuple[float, float] = (0, 0), closed: tuple[str, ...] = ()
) -> House:
    """The house with boxes, the panel's corner and closed walls."""
    place = PanelPlace(point=Point(x=inches(panel[0]), y=inches(panel[1])))
    return replace(of, devices=tuple(devices), wiring=Wiring(panel=place, closed_walls=closed))


def passages(of: House, **local: str) -> Passages:
    """The ways of a house under local rules, keys without the prefix."""
    book = cable_rules(LocalRules(values={f"cable.{key}": value for key, value in local.items()}))
    return Passages(of, stops_of(of), route_rules(of, book))


def feed(start: str, end: str, *, number: str = "1-1", kind: str = "14/2") -> Cable:
    purpose = "home run" if PANEL in (start, end) else "feed"
    return Cable(number=number, circuit="general 1", start=start, end=end, kind=kind, purpose=purpose)


def plain_shed(**more: object) -> House:
    """One room, 16 x 12 ft over 2x6 framing, no openings, plates at 8'-1 1/8"."""
    return built(
        house(ring("16'", "12'"), rooms=(room("shop", "8'", "6'"),), ceilings=(ceiling("shop"),), **more)  # type: ignore[arg-type]
    )


def drawn(seed: int) -> House:
    """A house drawn at random: a ring, one or two partitions, doors and windows, boxes, a panel corner."""
    draw = Random(seed)
    wide, deep = draw.randrange(16 * 12, 30 * 12), draw.randrange(11 * 12, 18 * 12)
    at_x = draw.randrange(6 * 12, wide - 7 * 12)
    across = wall("across", at(f'{at_x}"', '5.5"'), at(f'{at_x}"', f'{deep - 5.5}"'), kind="partition")
    walls, rooms = [*ring(f'{wide}"', f'{deep}"'), across], [room("west", "3'", "3'")]
    rooms.append(room("east", f'{wide - 24}"', "3'"))
    openings = [
        door("front", "south", f'{draw.randrange(8, at_x - 50)}"', "west"),
        door("inner", "across", f'{draw.randrange(10, 40)}"', "south"),
        window("north window", "north", f'{draw.randrange(10, wide - 70)}"', "east"),
        window("low window", "east", f'{draw.randrange(10, deep - 70)}"', "south", sill=inches(20)),
    ]
    openings = [o for o in openings if draw.random() < 0.85]
    description = house(
        tuple(walls),
        openings=tuple(openings),
        rooms=tuple(rooms),
        ceilings=(ceiling("west"), ceiling("east")),
    )
    bare = _clear(description)
    boxes = [box for n in range(4) if (box := _some_box(bare, draw, f"box {n}")) is not None]
    boxes += [
        on_wall(bare, f"under {o.name}", w.name, (o.along + o.width // 3).inches, 16)
        for w in bare.walls
        for o in w.openings
        if o.kind is OpeningKind.WINDOW
    ]
    lights = [
        on_ceiling(f"light {n}", draw.randrange(12, at_x - 12), draw.randrange(12, deep - 12))
        for n in range(2)
    ]
    return wired(bare, [*boxes, *lights], panel=draw.choice([(0, 0), (0, deep), (wide, 0)]))


def _clear(description: HouseDescription) -> House:
    """Build it; leave out openings that stand on a partition's end."""
    outcome = build_house(description)
    while outcome.house is None:
        description = replace(description, openings=description.openings[:-1])
        outcome = build_house(description)
    return outcome.house


def _some_box(of: House, draw: Random, name: str) -> Device | None:
    wall_ = draw.choice(of.walls)
    along, up = draw.uniform(6, wall_.length.inches - 6), draw.choice([16, 16, 42, 48, 80])
    for o in wall_.openings:
        beside = o.along.inches - 6 < along < (o.along + o.width).inches + 6
        if beside and (o.kind is OpeningKind.DOOR or up > o.sill.inches - 4):
            return None
    return on_wall(of, name, wall_.name, along, up)
