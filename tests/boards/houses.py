"""Houses for the tests of boards: single faces put together by hand, and whole rooms built up."""

from dataclasses import replace

from setday.boards import Board
from setday.house import (
    Backing,
    House,
    HouseDescription,
    Point,
    Room,
    Span,
    Surface,
    SurfaceKind,
    TypedOpening,
    Wall,
    WallKind,
)
from setday.measure import Area, Length, parse_length
from tests.house.sketches import PARTITION, at, ceiling, house, ring, room, wall

SHELL = WallKind(
    name="shell", depth=parse_length('5 1/2"'), outside=True, bearing=True, spacing=parse_length('16"')
)


def feet(value: float) -> Length:
    return Length.of(inches=value * 12)


def rectangle(width: Length, height: Length) -> tuple[tuple[Length, Length], ...]:
    zero = Length(0)
    return ((zero, zero), (width, zero), (width, height), (zero, height))


def studs(width: Length, height: Length, spacing: Length) -> tuple[Backing, ...]:
    found = []
    x = spacing
    while x < width:
        found.append(Backing(kind="stud", x=x, width=Length(96), y_low=Length(0), y_high=height))
        x += spacing
    return tuple(found)


def face(
    in_room: str, number: int, width_ft: float, height_ft: float, *, wall: str, **changes: object
) -> Surface:
    """One wall surface, standing by itself on the plan."""
    width, height = feet(width_ft), feet(height_ft)
    plain = Surface(
        id=f"{in_room}/face-{number}",
        label=f"{in_room}, face {number}",
        room=in_room,
        kind=SurfaceKind.WALL,
        facing="north",
        outline=rectangle(width, height),
        openings=(),
        wet=(),
        backing=studs(width, height, parse_length('16"')),
        member_spacing=parse_length('16"'),
        spans=(Span(wall=wall, side="left", x=Length(0), width=width, along=Length(0), forward=True),),
        plan_origin=(0.0, 1000.0 * number),
    )
    return replace(plain, **changes)


def plain_house(surfaces: list[Surface], *, ceiling: tuple[float, float] | None = None) -> House:
    """A house that is nothing but these faces, one outside and one inside wall, and perhaps a ceiling."""
    name = surfaces[0].room
    if ceiling is not None:
        size = rectangle(feet(ceiling[1]), feet(ceiling[0]))
        surfaces = [
            *surfaces,
            replace(
                surfaces[0],
                id=f"{name}/ceiling",
                kind=SurfaceKind.CEILING,
                outline=size,
                spans=(),
                facing="up",
            ),
        ]
    origin = Point(x=Length(0), y=Length(0))
    walls = tuple(
        Wall(
            name=kind, kind=replace(SHELL, name=kind, outside=kind == "shell"), start=origin,
            end=Point(x=feet(200), y=Length(0)), length=feet(200), top=(), spacing=SHELL.spacing,
            openings=(), members=(),
        )
        for kind in ("shell", "inner")
    )  # fmt: skip
    only = Room(
        name=name, use="", outline=(), holes=(), area=Area.rectangle(feet(1), feet(1)),
        surfaces=tuple(s.id for s in surfaces),
    )  # fmt: skip
    return House(
        name="faces",
        description=HouseDescription(name="faces", kinds=(), walls=()),
        walls=walls,
        rooms=(only,),
        surfaces=tuple(surfaces),
        footprint=(),
    )


def single_room(
    width: float, depth: float, height: float, *, openings: tuple[TypedOpening, ...] = (), **changes: object
) -> HouseDescription:
    """One room of a given inside size [ft], framing to framing, its ceiling at the top of its walls."""
    thick = parse_length('5 1/2"')
    outer = (str(feet(width) + thick * 2), str(feet(depth) + thick * 2))
    walls = tuple(replace(w, height=feet(height)) for w in ring(*outer))
    over = ceiling("shop", height=feet(height), **changes)
    return house(walls, openings=openings, rooms=(room("shop", "3'", "3'"),), ceilings=(over,))


def shell_with_partition(case: dict[str, object]) -> HouseDescription:
    """A shell with one partition across it, as the published case gives it."""
    width, length = case["shell_ft"]
    height, thin = feet(case["height_ft"]), Length.of(inches=case["partition_in"])
    walls = [replace(w, height=height) for w in ring(f"{length}'", f"{width}'")]
    inner = Length.of(inches=case["walls_in"])
    across = wall(
        "across",
        Point(x=feet(20), y=inner),
        Point(x=feet(20), y=feet(width) - inner),
        kind="thin",
        height=height,
    )
    described = house(
        (*walls, across),
        rooms=(room("west", "6'", "6'"), room("east", "30'", "6'")),
        ceilings=(ceiling("west", height=height), ceiling("east", height=height)),
    )
    return replace(described, kinds=(*described.kinds, replace(PARTITION, name="thin", depth=thin)))


def price_list(
    *, lengths: tuple[int, ...] = (8, 10, 12, 14, 16), widths: tuple[int, ...] = (48, 54)
) -> tuple[Board, ...]:
    """Boards of every size, at an invented price of 40 cents a square foot."""
    return tuple(
        Board(
            key=f"board-{kind}-{w}x{n * 12}", kind=kind, width=w * 64, length=n * 768,
            price_cents=round(w / 12 * n * cents),
        )
        for kind, cents in (("regular-1/2", 40), ("wet-area-1/2", 60), ("regular-5/8", 50))
        for w in widths
        for n in lengths
    )  # fmt: skip


__all__ = ["at", "face", "feet", "plain_house", "price_list", "shell_with_partition", "single_room"]
