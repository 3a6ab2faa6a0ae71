"""Rooms for the tests of cable: walls of exact length, and rooms drawn at random."""

from dataclasses import replace

from hypothesis import strategies as st

from setday.findings import Where
from setday.house import (
    DeviceKind,
    House,
    HouseDescription,
    Mount,
    OpeningKind,
    Point,
    TypedCounter,
    TypedDevice,
    TypedOpening,
    TypedRoom,
    build_house,
)
from setday.measure import Length
from tests.house.sketches import at, ceiling, door, house, ring, room, wall, window

INCH = 64


def inches(count: float) -> Length:
    return Length(round(count * INCH))


def receptacle(name: str, on: str, along: float, *, up: float = 16, **more: object) -> TypedDevice:
    given: dict[str, object] = {"kind": DeviceKind.RECEPTACLE, "room": "room", "side": ""}
    given.update(more)
    return TypedDevice(
        name=name,
        wall=on,
        along=inches(along),
        up=inches(up),
        where=Where(file="h.yaml", line=40),
        **given,  # type: ignore[arg-type]
    )


def opening(
    name: str, on: str, left: float, width: float, kind: OpeningKind, sill: float = 0
) -> TypedOpening:
    """An opening by the left end of its rough opening from the south or west end of the wall's inner face."""
    return TypedOpening(
        name=name,
        wall=on,
        kind=kind,
        width=inches(width),
        height=inches(82.5 - sill),
        sill=inches(sill),
        measured_from="west" if on in ("south", "north") else "south",
        distance=inches(left + 5.5),
        where=Where(file="h.yaml", line=20),
    )


def plain_room(
    *,
    width: float,
    depth: float,
    openings: tuple[TypedOpening, ...] = (),
    devices: tuple[TypedDevice, ...] = (),
    counters: tuple[TypedCounter, ...] = (),
    use: str = "bedroom",
) -> House:
    """One room, `width` by `depth` inside the framing [in], its walls 5 1/2 in deep."""
    sides = f'{width + 11:g}"', f'{depth + 11:g}"'
    description = house(
        ring(*sides),
        openings=openings,
        rooms=(replace(room("room", "2'", "2'"), use=use),),
        ceilings=(ceiling("room"),),
        devices=devices,
        counters=counters,
    )
    return built(description)


def built(description: HouseDescription) -> House:
    made = build_house(description)
    assert made.house is not None, [str(finding) for finding in made.findings]
    return made.house


def two_doors(gap: float, *, devices: tuple[TypedDevice, ...] = (), use: str = "bedroom") -> House:
    """A room with two doors on its south wall, `gap` inches of wall between them, counted from 48 in."""
    first, second = (
        opening("one", "south", 10, 38, OpeningKind.DOOR),
        opening("other", "south", 48 + gap, 38, OpeningKind.DOOR),
    )
    return plain_room(width=360, depth=144, openings=(first, second), devices=devices, use=use)


USES = ("bedroom", "living", "dining", "hall", "bath", "laundry", "kitchen", "closet", "utility", "study")


@st.composite
def houses(draw: st.DrawFn) -> HouseDescription:
    """Draw a house of one to three rooms in a row, with doors and windows wherever they fit."""
    count = draw(st.integers(1, 3))
    widths = [draw(st.integers(72, 300)) for _ in range(count)]
    depth = draw(st.integers(84, 300))
    total = sum(widths) + 3.5 * (count - 1)
    walls = list(ring(f'{total + 11:g}"', f'{depth + 11:g}"'))
    openings: list[TypedOpening] = []
    rooms: list[TypedRoom] = []
    left = 5.5
    for n, width in enumerate(widths):
        middle = f'{left + width / 2:g}"'
        use = draw(st.sampled_from(USES))
        rooms.append(replace(room(f"room {n}", middle, "3'"), use=use))
        for side in ("south", "north"):
            openings += draw(_row(f"{side} {n}", side, left - 5.5, width))
        left += width
        if n < count - 1:
            x = f'{left + 1.75:g}"'
            name = f"across {n}"
            walls.append(wall(name, at(x, '5.5"'), at(x, f'{depth + 5.5:g}"'), kind="partition"))
            openings.append(door(f"door {n}", name, f'{draw(st.integers(4, depth - 46))}"', "south"))
            left += 3.5
    openings += draw(_row("west", "west", 0, depth))
    openings += draw(_row("east", "east", 0, depth))
    return house(
        tuple(walls),
        openings=tuple(openings),
        rooms=tuple(rooms),
        ceilings=tuple(ceiling(each.name) for each in rooms),
    )


@st.composite
def _row(draw: st.DrawFn, name: str, on: str, start: float, width: float) -> list[TypedOpening]:
    """Draw openings along a stretch of outside wall, each clear of the next by room for its studs."""
    found: list[TypedOpening] = []
    left = start + draw(st.integers(6, 120))
    while len(found) < 3:
        kind = draw(st.sampled_from((OpeningKind.DOOR, OpeningKind.WINDOW, OpeningKind.CASED)))
        wide = draw(st.sampled_from((28, 32, 38, 50)))
        if left + wide + 6 > start + width:
            return found
        sill = draw(st.sampled_from((24, 36, 46))) if kind is OpeningKind.WINDOW else 0
        found.append(opening(f"{name} {len(found)}", on, left, wide, kind, sill))
        left += wide + draw(st.integers(6, 160))
    return found


def point(x: float, y: float) -> Point:
    return Point(x=inches(x), y=inches(y))


__all__ = [
    "Mount",
    "built",
    "houses",
    "inches",
    "opening",
    "plain_room",
    "point",
    "receptacle",
    "two_doors",
    "window",
]
