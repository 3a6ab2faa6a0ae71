"""Figures of rooms: floor, perimeter, baseboard, walls, ceiling, boards by area and from a run."""

from collections.abc import Iterable, Iterator

from setday.house import House, Room, Surface, SurfaceKind
from setday.learning.building import added, feet_area, measure, per_piece, summed, times
from setday.learning.figures.covers import is_plain, peak_of, surface_lines
from setday.learning.tree import Figure, Line, Number, Of, Over, Part, Role, Sum, Up
from setday.measure import ZERO, Length
from setday.rules import RuleBook

__all__ = ["room_figures"]

_FOR_FRAMING = "Measured to the framing, without the thickness of neighbouring boards."


def room_figures(house: House, rules: RuleBook) -> Iterator[Figure]:
    """Yield the figures of every room.

    Parameters
    ----------
    house : House
    rules : RuleBook
        The rules of boards.
    """
    for room in house.rooms:
        surfaces = [house.surface(each) for each in room.surfaces]
        box = _box(room)
        if box is not None:
            yield from _of_box(room, box, surfaces)
        if all(is_plain(s) or peak_of(s) is not None for s in surfaces if s.kind is not SurfaceKind.CEILING):
            yield _walls(room, surfaces)
        if all(is_plain(each) or peak_of(each) is not None for each in surfaces):
            yield _boards(room, surfaces, rules)
        for surface in surfaces:
            yield from _of_surface(room, surface)


def _box(room: Room) -> tuple[Length, Length] | None:
    """Return the east-west and the north-south measure of a rectangular room."""
    east = {point.x for point in room.outline}
    north = {point.y for point in room.outline}
    if room.holes or len(east) != 2 or len(north) != 2 or len(room.outline) != 4:
        return None
    return max(east) - min(east), max(north) - min(north)


def _sides(room: Room, box: tuple[Length, Length]) -> tuple[Line, Line]:
    return (
        measure("ew", f"{room.name}, east to west", box[0]),
        measure("ns", f"{room.name}, north to south", box[1]),
    )


_SWAPS = (("ew", "ns"),)


def _of_box(room: Room, box: tuple[Length, Length], surfaces: list[Surface]) -> Iterator[Figure]:
    yield _floor(room, box)
    yield _perimeter(room, box)
    doors = _doors(surfaces)
    if doors:
        yield _baseboard(room, box, doors)
    ceiling = [each for each in surfaces if each.kind is SurfaceKind.CEILING]
    if len(ceiling) == 1 and is_plain(ceiling[0]):
        yield _joists(room, ceiling[0])


def _floor(room: Room, box: tuple[Length, Length]) -> Figure:
    ew, ns = _sides(room, box)
    return Figure(
        key=f"room/{room.name}/floor",
        kind="floor area",
        title=f"Floor of the {room.name}",
        ask=f"How many square feet is the floor of the {room.name}, between the framing?",
        lines=(ew, ns, feet_area("area", "floor, area", "ew", "ns")),
        swaps=_SWAPS,
        room=room.name,
        assumptions=(_FOR_FRAMING,),
    )


def _around(ew: Line, ns: Line) -> list[Part]:
    walls = (("north wall", ew), ("east wall", ns), ("south wall", ew), ("west wall", ns))
    return [added(line, feet=True, about=name) for name, line in walls]


def _perimeter(room: Room, box: tuple[Length, Length]) -> Figure:
    ew, ns = _sides(room, box)
    return Figure(
        key=f"room/{room.name}/perimeter",
        kind="perimeter",
        title=f"Around the {room.name}",
        ask=f"How many feet is it around the {room.name}, along its four walls?",
        lines=(ew, ns, summed("around", "around the room", _around(ew, ns), unit="ft")),
        swaps=_SWAPS,
        room=room.name,
        assumptions=(_FOR_FRAMING,),
    )


def _doors(surfaces: Iterable[Surface]) -> list[tuple[str, Length]]:
    return [
        (opening.name, opening.w) for surface in surfaces for opening in surface.openings if opening.y <= ZERO
        and surface.kind is SurfaceKind.WALL
    ]  # fmt: skip


def _baseboard(room: Room, box: tuple[Length, Length], doors: list[tuple[str, Length]]) -> Figure:
    ew, ns = _sides(room, box)
    off = [measure(f"door {n}", f"{name}, width", width) for n, (name, width) in enumerate(doors)]
    taken = [
        added(line, Role.OPENING, sign=-1, feet=True, about=name)
        for line, (name, _) in zip(off, doors, strict=True)
    ]
    around = summed("around", "around the room", _around(ew, ns), unit="ft")
    return Figure(
        key=f"room/{room.name}/baseboard",
        kind="baseboard",
        title=f"Baseboard of the {room.name}",
        ask=f"How many feet of baseboard go around the {room.name}, doors and openings taken off?",
        lines=(ew, ns, *off, around, summed("base", "baseboard", [added(around), *taken], unit="ft")),
        swaps=_SWAPS,
        room=room.name,
        assumptions=(_FOR_FRAMING, "Casings are not taken off.", "No waste."),
    )


def _joists(room: Room, ceiling: Surface) -> Figure:
    spacing = ceiling.member_spacing
    across = measure("across", "across the framing", ceiling.width)
    along = measure("along", "along the framing", ceiling.height)
    spaces = Up(
        node=Over(
            top=Of(line="across"), bottom=Number(value=spacing.inches, about="spacing", words=str(spacing))
        )
    )
    parts = (
        Part(node=spaces, about="the spaces"),
        Part(node=Number(value=1), role=Role.END, about="the one at the end"),
    )
    count = Line(key="members", label="members", node=Sum(parts=parts), unit="members", decimals=0)
    return Figure(
        key=f"room/{room.name}/members",
        kind="ceiling members",
        title=f"Furring over the {room.name}",
        ask=f"Furring is set {spacing} on center over the {room.name}, one at each end: how many pieces?",
        lines=(across, along, count),
        swaps=(("across", "along"),),
        room=room.name,
        surfaces=(ceiling.id,),
        assumptions=("One more stands at the far wall, on the layout or not.",),
    )


def _shared_height(surfaces: Iterable[Surface]) -> Line | None:
    heights = {each.height for each in surfaces if each.kind is SurfaceKind.WALL}
    return measure("height", "height of the walls", heights.pop()) if len(heights) == 1 else None


def _covered(surfaces: list[Surface]) -> tuple[list[Line], list[Part]]:
    height = _shared_height(surfaces)
    lines = [height] if height is not None else []
    parts: list[Part] = []
    for surface in surfaces:
        own = surface_lines(surface, height if surface.kind is SurfaceKind.WALL else None)
        lines += own.lines
        parts += own.parts
    return lines, parts


def _walls(room: Room, surfaces: list[Surface]) -> Figure:
    walls = [each for each in surfaces if each.kind is not SurfaceKind.CEILING]
    lines, parts = _covered(walls)
    return Figure(
        key=f"room/{room.name}/walls",
        kind="wall area",
        title=f"Walls of the {room.name}",
        ask=f"How many square feet are the walls of the {room.name}, openings taken off?",
        lines=(*lines, summed("net", "walls, net", parts)),
        room=room.name,
        surfaces=tuple(each.id for each in walls),
        assumptions=(_FOR_FRAMING,),
    )


def _boards(room: Room, surfaces: list[Surface], rules: RuleBook) -> Figure:
    lines, parts = _covered(surfaces)
    net = summed("net", "walls and ceiling, net", parts)
    width, length = rules.length("boards.by_area_width"), rules.length("boards.by_area_length")
    sheet = Number(value=width.feet * length.feet, about="a sheet", words=f"{width} x {length}")
    source = rules["boards.by_area_length"].source
    sheets = per_piece("sheets", "sheets", net, sheet, unit="sheets", source=source)
    percent = rules.number("boards.by_area_waste")
    factor = Part(node=Number(value=1 + percent / 100, about="waste"), role=Role.WASTE, about="waste")
    more = times("more", "sheets with waste", sheets, [factor], source=rules["boards.by_area_waste"].source)
    order = Line(
        key="order", label="sheets to order", node=Up(node=Of(line="more")), unit="sheets", decimals=0
    )
    return Figure(
        key=f"room/{room.name}/boards",
        kind="boards by area",
        title=f"Boards of the {room.name}, by area",
        ask=f"How many sheets of {width} x {length} does the {room.name} take by area, with "
        f"{percent:g} in a hundred for waste?",
        lines=(*lines, net, sheets, more, order),
        room=room.name,
        surfaces=room.surfaces,
        assumptions=(_FOR_FRAMING, "How the sheets are cut is not looked at."),
    )


def _of_surface(room: Room, surface: Surface) -> Iterator[Figure]:
    if surface.kind is SurfaceKind.SOFFIT_SIDE or not (is_plain(surface) or peak_of(surface) is not None):
        return
    own = surface_lines(surface)
    if len(own.parts) > 1:
        yield Figure(
            key=f"surface/{surface.id}/net",
            kind="surface area",
            title=f"Area of the {surface.label}",
            ask=f"How many square feet of board cover the {surface.label}, openings taken off?",
            lines=(*own.lines, summed("net", "net area", own.parts)),
            room=room.name,
            surfaces=(surface.id,),
            assumptions=(_FOR_FRAMING,),
        )
    if surface.kind is SurfaceKind.WALL and is_plain(surface):
        yield _by_run(room, surface)


def _by_run(room: Room, surface: Surface) -> Figure:
    wide = measure("width", "width of the wall", surface.width)
    high = measure("height", "height of the wall", surface.height)
    rows = per_piece(
        "rows", "rows", high, Number(value=54, about="a board's width", words='54"'), unit="rows"
    )
    each = per_piece("each", "boards in a row", wide, Number(value=96, words='96"'), unit="boards")
    total = times("boards", "boards", rows, [Part(node=Of(line="each"))], unit="boards")
    return Figure(
        key=f"surface/{surface.id}/run",
        kind="boards from a run",
        title=f"Boards of the {surface.label}, row by row",
        ask=f"Boards 54\" wide and 8' long lie level in rows on the {surface.label}, openings covered and "
        "cut out later: how many boards?",
        lines=(wide, high, rows, each, total),
        swaps=(("width", "height"),),
        room=room.name,
        surfaces=(surface.id,),
        assumptions=("Each row begins with a whole board; offcuts are not used.",),
    )
