"""Small houses written by hand for the tests."""

from setday.findings import Where
from setday.house import (
    Axis,
    CeilingShape,
    HouseDescription,
    OpeningKind,
    Point,
    TypedCeiling,
    TypedOpening,
    TypedRoom,
    TypedWall,
    WallKind,
    WallLine,
)
from setday.measure import Length, parse_length


def ft(text: str) -> Length:
    return parse_length(text)


def at(x: str, y: str) -> Point:
    return Point(x=ft(x), y=ft(y))


OUTSIDE = WallKind(name="outside", depth=ft('5 1/2"'), outside=True, bearing=True, spacing=ft('16"'))
PARTITION = WallKind(name="partition", depth=ft('3 1/2"'), outside=False, bearing=False, spacing=ft('16"'))


def wall(name: str, start: Point, end: Point, **changes: object) -> TypedWall:
    given: dict[str, object] = {
        "kind": "outside",
        "height": ft("8'-1 1/8\""),
        "where": Where(file="h.yaml", line=5),
    }
    given.update(changes)
    return TypedWall(name=name, start=start, end=end, **given)  # type: ignore[arg-type]


def ring(width: str, depth: str) -> tuple[TypedWall, ...]:
    """Four walls, walked round the outside face with the framing on the left."""
    corners = [at("0'", "0'"), at(width, "0'"), at(width, depth), at("0'", depth)]
    names = ("south", "east", "north", "west")
    return tuple(
        wall(name, a, b, line=WallLine.RIGHT)
        for name, a, b in zip(names, corners, corners[1:] + corners[:1], strict=True)
    )


def door(name: str, on: str, distance: str, measured_from: str, **changes: object) -> TypedOpening:
    given: dict[str, object] = {
        "kind": OpeningKind.DOOR,
        "width": ft('38"'),
        "height": ft('82 1/2"'),
        "sill": ft('0"'),
        "where": Where(file="h.yaml", line=20),
    }
    given.update(changes)
    return TypedOpening(
        name=name,
        wall=on,
        distance=ft(distance),
        measured_from=measured_from,
        **given,  # type: ignore[arg-type]
    )


def window(name: str, on: str, distance: str, measured_from: str, **changes: object) -> TypedOpening:
    given: dict[str, object] = {
        "kind": OpeningKind.WINDOW,
        "width": ft('48"'),
        "height": ft('42"'),
        "sill": ft('40 1/2"'),
    }
    given.update(changes)
    return door(name, on, distance, measured_from, **given)


def ceiling(room: str, **changes: object) -> TypedCeiling:
    given: dict[str, object] = {
        "shape": CeilingShape.FLAT,
        "height": ft("8'-1 1/8\""),
        "framing_runs": Axis.NORTH_SOUTH,
        "spacing": ft('24"'),
    }
    given.update(changes)
    return TypedCeiling(room=room, **given)  # type: ignore[arg-type]


def room(name: str, x: str, y: str) -> TypedRoom:
    return TypedRoom(name=name, at=at(x, y), where=Where(file="h.yaml", line=30))


def house(
    walls: tuple[TypedWall, ...],
    *,
    openings: tuple[TypedOpening, ...] = (),
    rooms: tuple[TypedRoom, ...] = (),
    ceilings: tuple[TypedCeiling, ...] = (),
    **more: object,
) -> HouseDescription:
    return HouseDescription(
        name="sketch",
        kinds=(OUTSIDE, PARTITION),
        walls=walls,
        openings=openings,
        rooms=rooms,
        ceilings=ceilings,
        **more,  # type: ignore[arg-type]
    )


def shed() -> HouseDescription:
    """One room, 16 x 12 ft outside, a door on the south and a window on the north."""
    return house(
        ring("16'", "12'"),
        openings=(door("door", "south", "4'", "west"), window("window", "north", "5'", "west")),
        rooms=(room("shop", "8'", "6'"),),
        ceilings=(ceiling("shop"),),
    )


def two_rooms() -> HouseDescription:
    """The shed of 24 x 12 ft with a partition across and a door in it."""
    across = wall("across", at("14'", '5.5"'), at("14'", "11'-6 1/2\""), kind="partition")
    return house(
        (*ring("24'", "12'"), across),
        openings=(
            door("front", "south", "4'", "west"),
            door("inner", "across", "2'", "south"),
            window("window", "north", "3'", "across", going="east"),
        ),
        rooms=(room("big", "6'", "6'"), room("small", "20'", "6'")),
        ceilings=(ceiling("big"), ceiling("small", framing_runs=Axis.EAST_WEST)),
    )
