"""Forty figures of the demo house for the invented students: walks and measures, read off the geometry."""

from itertools import pairwise

import slip_walks as walks

__all__ = ["forty"]

QUOTA = {
    "floor": 3, "perimeter": 3, "baseboard": 4, "walls": 4, "boards": 3, "net": 5, "run": 1, "members": 1,
    "studs": 1, "plates": 3, "faces": 3, "batts": 1, "whole": 2, "home": 3, "circuit": 1, "box": 2,
}  # fmt: skip


def forty(house, cable):
    """Return (key, kind, walk, measures) of forty figures."""
    found = {kind: [] for kind in QUOTA}
    for kind, entry in (*of_rooms(house), *of_walls(house), *of_plan(house), *of_cable(cable)):
        found[kind].append(entry)
    return [
        (key, kind, walk, data) for kind, n in QUOTA.items() for key, walk, data in spread(found[kind], n)
    ]


def spread(entries, count):
    """Return so many of a list, from all over it."""
    step = max(1, len(entries) // count)
    return entries[::step][:count]


def sixteenths(length):
    """Return a length as a tape shows it [in]."""
    return round(length.sixtyfourths / 4) / 16


def of_rooms(house):
    """Yield the figures of rooms."""
    for room in house.rooms:
        surfaces = [surface(each) for each in house.surfaces if each.id in room.surfaces]
        box = box_of(room)
        if box:
            yield from of_box(room.name, box, surfaces)
        if None not in surfaces:
            yield from of_covers(room.name, surfaces, box)


def box_of(room):
    """Return the measures of a rectangular room."""
    xs, ys = {q.x for q in room.outline}, {q.y for q in room.outline}
    if len(xs) != 2 or len(ys) != 2 or room.holes:
        return {}
    return {"ew": sixteenths(max(xs) - min(xs)), "ns": sixteenths(max(ys) - min(ys))}


def of_box(name, box, surfaces):
    """Yield floor, perimeter and baseboard."""
    data = {"name": name, "what": "room"} | box
    yield "floor", (f"room/{name}/floor", walks.walk_floor, data)
    yield "perimeter", (f"room/{name}/perimeter", walks.walk_perimeter, data)
    walls = [s for s in surfaces if s and s["wall"]]
    doors = [(o[0], o[1]) for s in walls for o, low in zip(s["openings"], s["low"], strict=True) if low]
    if len(doors) > 1:
        yield "baseboard", (f"room/{name}/baseboard", walks.walk_baseboard, data | {"doors": doors})


def of_covers(name, surfaces, box):
    """Yield walls, boards, single surfaces and ceilings."""
    walls = [s for s in surfaces if s["wall"]]
    ceilings = [s for s in surfaces if not s["wall"]]
    heights = {s["h"] + s["rise"] for s in walls}
    one = len(heights) == 1 and not any(s["rise"] for s in walls)
    cover = {"height": heights.pop() if one else None}
    if sum(len(s["openings"]) for s in surfaces) <= 5:
        data = {"what": "walls net", "surfaces": walls} | cover
        yield "walls", (f"room/{name}/walls", walks.walk_cover, data)
        yield "boards", (f"room/{name}/boards", walks.walk_boards, {"surfaces": surfaces} | cover)
    for s in walls:
        if s["openings"]:
            own = {"what": "net area", "surfaces": [s], "height": None}
            yield "net", (f"surface/{s['id']}/net", walks.walk_cover, own)
        if not s["rise"]:
            yield "run", (f"surface/{s['id']}/run", walks.walk_run, {"w": s["w"], "h": s["h"]})
    if box and len(ceilings) == 1:
        s = ceilings[0]
        across = {"across": s["w"], "along": s["h"], "spacing": s["spacing"]}
        yield "members", (f"room/{name}/members", walks.walk_members, across)


def surface(s):
    """Return a surface as plain numbers; None where it is no rectangle, with or without a triangle on it."""
    corners = [(sixteenths(x), sixteenths(y)) for x, y in s.outline]
    w, h = max(x for x, _ in corners), max(y for _, y in corners)
    eaves = sorted({y for x, y in corners if x in (0, w) and y > 0})
    if s.kind.value == "soffit side" or len(eaves) != 1:
        return None
    area = (
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
        / 2
    )
    low = eaves[0]
    if abs(area - (w * low + w * (h - low) / 2)) > 2:
        return None
    return {
        "id": s.id, "k": s.id.split("/")[-1], "name": s.label.split(", ", 1)[-1],
        "w": w, "h": low, "rise": h - low,
        "wall": s.kind.value == "wall", "spacing": s.member_spacing.inches,
        "openings": [(o.name, sixteenths(o.w), sixteenths(o.h)) for o in s.openings],
        "low": [o.y.inches <= 0 for o in s.openings],
    }  # fmt: skip


def of_walls(house):
    """Yield the figures of walls."""
    for wall in house.walls:
        tops = {sixteenths(h) for _, h in wall.top}
        openings = [(o.name, sixteenths(o.width), sixteenths(o.height)) for o in wall.openings]
        doors = [(o.name, sixteenths(o.width)) for o in wall.openings if o.sill.inches <= 0]
        data = {
            "name": wall.name,
            "length": sixteenths(wall.length),
            "spacing": wall.spacing.inches,
            "openings": openings,
        }
        yield "studs", (f"wall/{wall.name}/studs", walks.walk_studs, data)
        if doors:
            yield "plates", (f"wall/{wall.name}/plates", walks.walk_plates, data | {"doors": doors})
        if wall.kind.outside:
            yield "batts", (f"wall/{wall.name}/batts", walks.walk_batts, data)
        elif len(tops) == 1:
            yield "faces", (f"wall/{wall.name}/faces", walks.walk_faces, data | {"h": tops.pop()})


def of_plan(house):
    """Yield the figures of the whole plan."""
    ring = house.footprint[0]
    ew = sixteenths(max(q.x for q in ring) - min(q.x for q in ring))
    ns = sixteenths(max(q.y for q in ring) - min(q.y for q in ring))
    deep = next(wall.kind.depth.inches for wall in house.walls if wall.kind.outside) / 12
    data = {"name": "house", "what": "house", "ew": ew, "ns": ns, "corner": deep}
    yield "perimeter", ("house/perimeter", walks.walk_perimeter, data)
    holes = [(hole.name, sixteenths(hole.east), sixteenths(hole.north)) for hole in house.floor_holes]
    yield "whole", ("house/subfloor", walks.walk_subfloor, data | {"holes": holes})
    inner = [wall for wall in house.walls if not wall.kind.outside and len({h for _, h in wall.top}) == 1]
    high = inner[0].top[0][1]
    walls = [(wall.name, sixteenths(wall.length)) for wall in inner]
    data = {"walls": walls, "h": sixteenths(high)}
    yield "whole", (f"house/partitions/{high.sixtyfourths}", walks.walk_partitions, data)


def of_cable(cable):
    """Yield the figures of the cable."""
    for run in cable.routing.runs:
        if run.cable.home and len(legs_of(run)) >= 2:
            extra = [("tail in the box", 8 / 12), ("slack for the set", run.slack.feet)]
            data = {"legs": legs_of(run), "extra": extra}
            yield "home", (f"cable/run/{run.number}", walks.walk_cable, data)
    for circuit in cable.plan.circuits:
        own = [r for r in cable.routing.runs if r.circuit == circuit.name]
        if 3 <= len(own) <= 12:
            data = {"runs": [(f"run {r.number}", sixteenths(r.cut)) for r in own]}
            yield "circuit", (f"cable/circuit/{circuit.name}", walks.walk_circuit, data)
    for fill in cable.worked.fills:
        steps = [
            (s.label, *(float(n) for n in s.expression.split(": ")[-1].removesuffix(" in3").split(" x ")))
            for s in fill.working.steps
        ]
        if len(steps) >= 4:
            yield "box", (f"cable/box/{fill.box}", walks.walk_fill, {"steps": steps})


def legs_of(run):
    """Return the stretches of a run in words, alike ones that follow each other as one."""
    legs = []
    for a, b in pairwise(run.points):
        level = abs((b.plan.x - a.plan.x).inches) + abs((b.plan.y - a.plan.y).inches)
        rise = (b.up - a.up).inches
        where = {"ceiling": "over the ceiling", "floor": "under the floor"}.get(
            a.medium.value, f"along the {a.wall}"
        )
        sloped = level and rise
        steps = ((where, level), ("up" if rise > 0 else "down", abs(rise)))
        for words, inches in [("along the slope", (level**2 + rise**2) ** 0.5)] if sloped else steps:
            if inches and legs and legs[-1][0] == words:
                legs[-1][1] += inches
            elif inches:
                legs.append([words, inches])
    return [(f"{n}: {words}", round(inches * 16) / 16) for n, (words, inches) in enumerate(legs, start=1)]
