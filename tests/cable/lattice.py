"""Shortest ways found another way: a fine lattice over every wall, every ceiling and the floor, by networkx.

It knows the house only by its walls, openings, headers, sills and corners, and lets a cable go up and down,
and in and out of the ceilings, at every step of the lattice; heights to bore at are figured here anew.
"""

from itertools import pairwise

import networkx as nx

from setday.house import House, MemberKind, Mount, Wall

INCH = 64
STEP = 6 * INCH
HOLES = 24 * INCH
BELOW = 6 * INCH


def line(low: int, high: int, extra: set[int]) -> list[int]:
    """Steps from low to high, with all the places that must be on the line."""
    return sorted({low, high, *range(low, high, STEP), *(e for e in extra if low <= e <= high)})


def solid(wall: Wall) -> list[tuple[int, int, int, int]]:
    """Boxes (left, right, low, high) that nothing enters."""
    boxes = [(o.along, o.along + o.width, o.sill, o.head) for o in wall.openings] + [
        (m.left, m.right, m.bottom, m.top_left)
        for m in wall.members
        if m.kind in (MemberKind.HEADER, MemberKind.SILL)
    ]
    return [tuple(v.sixtyfourths for v in box) for box in boxes]  # type: ignore[misc]


def packs(wall: Wall) -> list[tuple[int, int]]:
    """Studs that stand against one another beside openings: nothing goes up and down inside of them."""
    kinds = (
        MemberKind.HEADER,
        MemberKind.SILL,
        MemberKind.CRIPPLE,
        MemberKind.BOTTOM_PLATE,
        MemberKind.TOP_PLATE,
    )
    standing = sorted(
        (m.left.sixtyfourths, m.right.sixtyfourths) for m in wall.members if m.kind not in kinds
    )
    merged: list[tuple[int, int]] = []
    for left, right in standing:
        if merged and left <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(right, merged[-1][1]))
        else:
            merged.append((left, right))
    return [pack for pack in merged if pack[1] - pack[0] > 96]


def heights(wall: Wall) -> set[int]:
    """Heights to bore at: 2 ft, and 3 in over headers and under sills; half of a gap under 6 in."""
    top = wall.top[0][1].sixtyfourths - 3 * INCH
    found = {HOLES}
    for o in wall.openings:
        boxes = [b for b in solid(wall) if b[0] <= (o.along + o.width // 2).sixtyfourths <= b[1]]
        low, high = min(b[2] for b in boxes), max(b[3] for b in boxes)
        if not low - INCH < HOLES < high + INCH:
            continue
        if top - high >= 3 * INCH:
            found.add(high + min(3 * INCH, (top - high) // 2))
        if low - 96 >= 3 * INCH:
            found.add(low - min(3 * INCH, (low - 96) // 2))
    return found


def plan(wall: Wall, along: int) -> tuple[int, int]:
    run = wall.length.sixtyfourths
    x, y = wall.start.x.sixtyfourths, wall.start.y.sixtyfourths
    dx, dy = wall.end.x.sixtyfourths - x, wall.end.y.sixtyfourths - y
    return round(x + dx * along / run), round(y + dy * along / run)


def crossing(a: Wall, b: Wall) -> tuple[int, int]:
    """Where the middles of an east-west and a north-south wall cross."""
    level = a if a.start.y == a.end.y else b
    upright = b if level is a else a
    return upright.start.x.sixtyfourths, level.start.y.sixtyfourths


def touches(a: Wall, b: Wall) -> bool:
    """Tell whether two walls that run across each other meet."""
    if (a.start.y == a.end.y) == (b.start.y == b.end.y):
        return False
    x, y = crossing(a, b)
    for wall, other in ((a, b), (b, a)):
        half = other.kind.depth.sixtyfourths // 2 + 2
        spot = along_of(wall, x, y)
        if not -half <= spot <= wall.length.sixtyfourths + half:
            return False
    return True


def along_of(wall: Wall, x: int, y: int) -> int:
    x0, y0 = wall.start.x.sixtyfourths, wall.start.y.sixtyfourths
    forward = 1 if (wall.end.x > wall.start.x or wall.end.y > wall.start.y) else -1
    return forward * ((x - x0) + (y - y0))


def net(house: House, *, below: bool) -> nx.Graph:
    """The lattice of a house whose walls run east-west and north-south and have level tops."""
    graph = nx.Graph()
    tops: set[tuple[int, int]] = set()
    for wall in house.walls:
        meets = {
            other.name: crossing(wall, other)
            for other in house.walls
            if other is not wall and touches(wall, other)
        }
        spots = {along_of(wall, x, y) for x, y in meets.values()}
        boxes = {d.typed.along.sixtyfourths for d in house.devices if d.typed.wall == wall.name}
        ups = {d.height.sixtyfourths for d in house.devices if d.typed.wall == wall.name}
        studs = {m.left.sixtyfourths for m in wall.members} | {m.right.sixtyfourths for m in wall.members}
        low, high = min(spots | {0}), max(spots | {wall.length.sixtyfourths})
        alongs = line(low, high, spots | boxes | studs)
        lay_wall(graph, wall, alongs, heights(wall), ups, below, must=spots | boxes)
        tops |= {plan(wall, along) for along in alongs}
    lay_floor_or_ceiling(graph, house, tops, "over", house.walls[0].top[0][1].sixtyfourths)
    if below:
        lay_floor_or_ceiling(graph, house, tops, "below", -BELOW)
    return graph


def lay_wall(
    graph: nx.Graph,
    wall: Wall,
    alongs: list[int],
    bored: set[int],
    ups: set[int],
    below: bool,
    *,
    must: set[int],
) -> None:
    top = wall.top[0][1].sixtyfourths
    levels = line(0, top, bored | ups)
    hard, thick = solid(wall), packs(wall)
    for along in alongs:
        if any(left < along < right for left, right in thick) and along not in must:
            continue
        for low, high in pairwise(levels):
            if not any(b[0] < along < b[1] and b[2] < high and b[3] > low for b in hard):
                graph.add_edge(spot(wall, along, low), spot(wall, along, high), weight=high - low)
        x, y = plan(wall, along)
        graph.add_edge(spot(wall, along, top), ("over", x, y), weight=0)
        if below:
            graph.add_edge(spot(wall, along, 0), ("below", x, y), weight=BELOW)
    for up in bored:
        for a, b in pairwise(alongs):
            near = any(h[0] < b and h[1] > a and h[2] - INCH < up < h[3] + INCH for h in hard)
            if not near and 96 + INCH <= up <= top - 3 * INCH - INCH:
                graph.add_edge(spot(wall, a, up), spot(wall, b, up), weight=b - a)


def spot(wall: Wall, along: int, up: int) -> tuple[str, int, int, int]:
    """A place in a wall; walls that cross share the place where their middles cross."""
    x, y = plan(wall, along)
    return ("wall", x, y, up)


def lay_floor_or_ceiling(
    graph: nx.Graph, house: House, tops: set[tuple[int, int]], name: str, level: int
) -> None:
    points = set(tops)
    for d in house.devices:
        if d.typed.mount is Mount.CEILING:
            points.add((d.plan.x.sixtyfourths, d.plan.y.sixtyfourths))
            if name == "over":
                here = (d.plan.x.sixtyfourths, d.plan.y.sixtyfourths)
                graph.add_edge((d.name,), ("over", *here), weight=abs(level - d.height.sixtyfourths))
    assert house.wiring.panel is not None
    panel = (house.wiring.panel.point.x.sixtyfourths, house.wiring.panel.point.y.sixtyfourths)
    points.add(panel)
    if name == "below":
        graph.add_edge(("panel",), ("below", *panel), weight=0)
    xs, ys = sorted({x for x, _ in points}), sorted({y for _, y in points})
    for x in xs:
        for a, b in pairwise(ys):
            graph.add_edge((name, x, a), (name, x, b), weight=b - a)
    for y in ys:
        for a, b in pairwise(xs):
            graph.add_edge((name, a, y), (name, b, y), weight=b - a)


def place(house: House, name: str) -> tuple[object, ...]:
    """The lattice's place of a stop."""
    device = next((d for d in house.devices if d.name == name), None)
    if device is None:
        return ("panel",)
    if device.typed.mount is Mount.CEILING:
        return (name,)
    wall = house.wall(device.typed.wall)
    return spot(wall, device.typed.along.sixtyfourths, device.height.sixtyfourths)
