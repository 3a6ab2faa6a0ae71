"""Figures of walls and of the whole plan: studs, both faces, plates, batts, perimeter, floor, partitions."""

from collections.abc import Iterator
from itertools import pairwise

from setday.house import House, Wall
from setday.learning.building import added, feet_area, inch_area, measure, per_piece, summed, times
from setday.learning.tree import Figure, Line, Number, Of, Over, Part, Product, Role, Sum, Up
from setday.measure import ZERO, Length

__all__ = ["wall_figures"]

_SQFT = "ft2"
_LAYOUT_ONLY = "Openings, corners and doubled studs are not looked at: the studs of the layout only."


def wall_figures(house: House) -> Iterator[Figure]:
    """Yield the figures of every wall, then those of the whole plan.

    Parameters
    ----------
    house : House
    """
    for wall in house.walls:
        yield _studs(wall)
        if wall.kind.plates_above:
            yield _plates(wall)
        if wall.kind.outside:
            yield _batts(wall)
        elif _level(wall) is not None:
            yield _faces(wall)
    yield from _whole(house)


def _level(wall: Wall) -> Length | None:
    heights = {height for _, height in wall.top}
    return heights.pop() if len(heights) == 1 else None


def _spaces(wall: Wall) -> Up:
    spacing = Number(value=wall.spacing.inches, about="spacing", words=str(wall.spacing))
    return Up(node=Over(top=Of(line="length"), bottom=spacing))


def _length(wall: Wall) -> Line:
    return measure("length", f"{wall.name}, length", wall.length)


def _studs(wall: Wall) -> Figure:
    parts = (
        Part(node=_spaces(wall), about="the spaces"),
        Part(node=Number(value=1), role=Role.END, about="the one at the end"),
    )
    count = Line(key="studs", label="studs", node=Sum(parts=parts), unit="studs", decimals=0)
    return Figure(
        key=f"wall/{wall.name}/studs",
        kind="studs",
        title=f"Studs of the {wall.name}",
        ask=f"How many studs stand in the layout of the {wall.name}, {wall.spacing} on center?",
        lines=(_length(wall), count),
        wall=wall.name,
        assumptions=(_LAYOUT_ONLY,),
    )


def _plates(wall: Wall) -> Figure:
    above, below = wall.kind.plates_above, wall.kind.plates_below
    long = _length(wall)
    count = Number(value=above + below, about="plates")
    gross = times("gross", "plates", long, [Part(node=count)], unit="ft", feet=True)
    doors = [
        measure(f"door {n}", f"{opening.name}, width", opening.width)
        for n, opening in enumerate(each for each in wall.openings if each.sill <= ZERO)
    ]
    off = [
        added(each, Role.OPENING, sign=-1, feet=True, about=each.label.removesuffix(", width"))
        for each in doors
    ]
    net = summed("net", "plates, doors taken off", [added(gross), *off], unit="ft")
    return Figure(
        key=f"wall/{wall.name}/plates",
        kind="plates",
        title=f"Plates of the {wall.name}",
        ask=f"How many feet of plates go into the {wall.name}: {above} on top, {below} at the bottom, "
        "none in doors?",
        lines=(long, *doors, gross, net) if doors else (long, gross),
        wall=wall.name,
        assumptions=("Joints and waste are not looked at.",),
    )


def _faces(wall: Wall) -> Figure:
    high = measure("height", f"{wall.name}, height", _level(wall) or ZERO)
    long = _length(wall)
    lines: list[Line] = [long, high, feet_area("gross", "one side, gross", "length", "height")]
    parts = [added(lines[-1])]
    for n, opening in enumerate(wall.openings):
        wide = measure(f"o{n} w", f"{opening.name}, width", opening.width)
        tall = measure(f"o{n} h", f"{opening.name}, height", opening.height)
        area = inch_area(f"o{n}", f"{opening.name}, area", wide.key, tall.key)
        lines += [wide, tall, area]
        parts.append(added(area, Role.OPENING, sign=-1, about=opening.name))
    net = summed("net", "one side, net", parts)
    two = Part(node=Number(value=2, about="sides"), role=Role.FACES, about="both sides")
    return Figure(
        key=f"wall/{wall.name}/faces",
        kind="both faces",
        title=f"Both sides of the {wall.name}",
        ask=f"How many square feet are both sides of the {wall.name} together, openings taken off?",
        lines=(*lines, net, times("both", "both sides", net, [two])),
        wall=wall.name,
        assumptions=("Walls that end against it are not taken off.",),
    )


def _batts(wall: Wall) -> Figure:
    lines = [_length(wall)]
    parts = [Part(node=_spaces(wall), about="the bays")]
    for n, opening in enumerate(wall.openings):
        wide = measure(f"o{n}", f"{opening.name}, width", opening.width)
        bays = Up(
            node=Over(
                top=Of(line=wide.key), bottom=Number(value=wall.spacing.inches, words=str(wall.spacing))
            )
        )
        taken = Line(key=f"o{n} bays", label=f"{opening.name}, bays", node=bays, unit="bays", decimals=0)
        lines += [wide, taken]
        parts.append(added(taken, Role.OPENING, sign=-1, about=opening.name))
    count = Line(key="batts", label="batts", node=Sum(parts=tuple(parts)), unit="batts", decimals=0)
    return Figure(
        key=f"wall/{wall.name}/batts",
        kind="batts",
        title=f"Batts of the {wall.name}",
        ask=f"How many full batts go into the {wall.name}, studs {wall.spacing} on center, the bays of "
        "openings taken off?",
        lines=(*lines, count),
        wall=wall.name,
        assumptions=("Short pieces over and under openings come from the offcuts and are not counted.",),
    )


def _whole(house: House) -> Iterator[Figure]:
    yield from _footprint(house)
    partitions = [wall for wall in house.walls if not wall.kind.outside and _level(wall) is not None]
    for height in sorted({_level(wall) or ZERO for wall in partitions}):
        alike = [wall for wall in partitions if _level(wall) == height]
        if len(alike) > 1:
            yield _partitions(alike, height)


def _footprint(house: House) -> Iterator[Figure]:
    ring = house.footprint[0]
    sides = [
        abs(b.x - a.x) + abs(b.y - a.y) for a, b in pairwise((*ring, ring[0])) if a.x == b.x or a.y == b.y
    ]
    if len(sides) != 4 or len(ring) != 4:
        return
    outside = [wall for wall in house.walls if wall.kind.outside]
    ew = measure("ew", "house, east to west", max(p.x for p in ring) - min(p.x for p in ring))
    ns = measure("ns", "house, north to south", max(p.y for p in ring) - min(p.y for p in ring))
    around = (("north wall", ew), ("east wall", ns), ("south wall", ew), ("west wall", ns))
    deep = outside[0].kind.depth.feet if outside else 0.0
    parts = [added(line, feet=True, about=name) for name, line in around]
    yield Figure(
        key="house/perimeter",
        kind="perimeter",
        title="Around the house",
        ask="How many feet is it around the outside of the framing?",
        lines=(ew, ns, summed("around", "around the house", parts, unit="ft", corner=deep)),
        swaps=(("ew", "ns"),),
    )
    yield _house_floor(house, ew, ns)


def _house_floor(house: House, ew: Line, ns: Line) -> Figure:
    lines = [ew, ns, feet_area("gross", "floor, gross", "ew", "ns")]
    parts = [added(lines[-1])]
    for n, hole in enumerate(house.floor_holes):
        wide = measure(f"hole {n} ew", f"{hole.name}, east to west", hole.east)
        deep = measure(f"hole {n} ns", f"{hole.name}, north to south", hole.north)
        area = feet_area(f"hole {n}", f"{hole.name}, area", wide.key, deep.key)
        lines += [wide, deep, area]
        parts.append(added(area, Role.OPENING, sign=-1, about=hole.name))
    net = summed("net", "floor, net", parts)
    sheet = Number(value=32, about="a sheet", words="4' x 8'")
    return Figure(
        key="house/subfloor",
        kind="subfloor",
        title="Subfloor of the house",
        ask="How many sheets of 4' x 8' cover the floor, the stair opening taken off?",
        lines=(*lines, net, per_piece("sheets", "sheets", net, sheet, unit="sheets")),
        swaps=(("ew", "ns"),),
        assumptions=("How the sheets are cut is not looked at; no waste.",),
    )


def _partitions(walls: list[Wall], height: Length) -> Figure:
    lines = [measure(f"wall {n}", f"{wall.name}, length", wall.length) for n, wall in enumerate(walls)]
    names = [wall.name for wall in walls]
    parts = [added(line, feet=True, about=name) for line, name in zip(lines, names, strict=True)]
    run = summed("run", "all partitions, length", parts, unit="ft")
    high = measure("height", "height of the partitions", height)
    two = Part(node=Number(value=2, about="sides"), role=Role.FACES, about="both sides")
    factors = (Part(node=Of(line="run")), Part(node=Of(line="height", feet=True)), two)
    area = Line(key="area", label="both sides, area", node=Product(parts=factors), unit=_SQFT)
    sheet = Number(value=32, about="a sheet", words="4' x 8'")
    return Figure(
        key=f"house/partitions/{height.sixtyfourths}",
        kind="partitions",
        title="Boards of the partitions, by the running foot",
        ask=f"How many sheets of 4' x 8' cover both sides of the partitions that are {height} high, openings "
        "not taken off?",
        lines=(*lines, run, high, area, per_piece("sheets", "sheets", area, sheet, unit="sheets")),
        assumptions=("Openings stay in; no waste.",),
    )
