"""The ways invented students go through figures, in plain numbers; `p` is the student, `d` the measures."""

import math

__all__ = [
    "walk_baseboard",
    "walk_batts",
    "walk_boards",
    "walk_cable",
    "walk_circuit",
    "walk_cover",
    "walk_faces",
    "walk_fill",
    "walk_floor",
    "walk_members",
    "walk_partitions",
    "walk_perimeter",
    "walk_plates",
    "walk_run",
    "walk_studs",
    "walk_subfloor",
]


def rectangle(p, k, name, w, h, *, tall=None):
    """Measure and multiply one wall or ceiling, in feet."""
    wide = p.tape(f"{k} w", f"{name} width", w)
    high = p.tape(f"{k} h", f"{name} height", h) if tall is None else tall[0]
    about = f"{name}, width", (f"{name}, height" if tall is None else tall[1])
    return p.times(k, f"{name} area", p.feet(wide, k, about[0]), p.feet(high, k, about[1])), wide


def opening(p, k, name, w, h):
    """Measure an opening in inches and divide by 144."""
    wide, high = p.tape(f"{k} w", f"{name} width", w), p.tape(f"{k} h", f"{name} height", h)
    if p.happens("by-twelve", k):
        return p.line(k, f"{name} area", wide * high / 12, "ft2")
    if p.happens("wrong-unit", k):
        return p.line(k, f"{name} area", wide * high, "ft2")
    return p.line(k, f"{name} area", wide * high / 144, "ft2")


def cover(p, surfaces, height):
    """Measure walls and ceilings with their openings; return the parts of the sum."""
    parts = []
    tall = (p.tape("height", "height of the walls", height), "height of the walls") if height else None
    for s in surfaces:
        area, wide = rectangle(p, s["k"], s["name"], s["w"], s["h"], tall=tall if s["wall"] else None)
        parts.append((f"{s['name']}, area", area, "side" if s["wall"] else "ceiling"))
        if s["rise"]:
            rise = p.tape(f"{s['k']} rise", f"{s['name']} rise of the peak", s["rise"])
            halves = p.feet(wide, f"{s['k']} top", f"{s['name']}, width")
            halves *= p.feet(rise, f"{s['k']} top", f"{s['name']}, rise of the peak")
            halves *= 1 if p.happens("half-forgotten", f"{s['k']} top") else 0.5
            top = p.line(f"{s['k']} top", f"{s['name']} triangle", halves, "ft2")
            parts.append((f"{s['name']}, triangle", top, "side"))
        parts += [(o[0], opening(p, f"{s['k']} {o[0]}", *o), "opening") for o in s["openings"]]
    return parts


def walk_floor(p, d):
    ew, ns = p.tape("ew", "east to west", d["ew"]), p.tape("ns", "north to south", d["ns"])
    names = f"{d['name']}, east to west", f"{d['name']}, north to south"
    return p.times("area", "floor area", p.feet(ew, "area", names[0]), p.feet(ns, "area", names[1]))


def around(p, d, corner=0.0):
    ew, ns = p.tape("ew", "east to west", d["ew"]), p.tape("ns", "north to south", d["ns"])
    names = f"{d['name']}, east to west", f"{d['name']}, north to south"
    walls = []
    for wall, value, about in zip(
        ("north", "east", "south", "west"), (ew, ns, ew, ns), (*names, *names), strict=True
    ):
        walls.append(
            (
                f"{wall} wall",
                value / 12 if wall in {"south", "west"} else p.feet(value, "around", about),
                "side",
            )
        )
    return p.add("around", f"around the {d['what']}", walls, "ft", corner=corner)


def walk_perimeter(p, d):
    return around(p, d, d.get("corner", 0.0))


def walk_baseboard(p, d):
    doors = [(n, name, p.tape(f"door {n}", f"{name} width", w)) for n, (name, w) in enumerate(d["doors"])]
    whole = around(p, d)
    off = [(name, p.feet(w, "base", f"{name}, width"), "opening") for _, name, w in doors]
    return p.add("base", "baseboard", [("around the room", whole, "side"), *off], "ft")


def walk_cover(p, d):
    return p.add("net", d["what"], cover(p, d["surfaces"], d["height"]))


def walk_boards(p, d):
    net = p.add("net", "walls and ceiling net", cover(p, d["surfaces"], d["height"]))
    sheets = p.pieces("sheets", "sheets", net, 32, "sheets")
    waste = 1.1
    if p.happens("waste-forgotten", "more", "waste"):
        waste = 1.0
    elif p.happens("waste-twice", "more", "waste"):
        waste = 1.21
    more = p.line("more", "sheets with waste", sheets * waste, "sheets")
    return p.pieces("order", "sheets to order", more, 1, "sheets")


def walk_run(p, d):
    wide, high = p.tape("width", "width of the wall", d["w"]), p.tape("height", "height of the wall", d["h"])
    up = wide if p.happens("other-measure", "rows", "height of the wall") else high
    rows = p.pieces("rows", "rows", up, 54, "rows")
    along = high if p.happens("other-measure", "each", "width of the wall") else wide
    each = p.pieces("each", "boards in a row", along, 96, "boards")
    return p.line("boards", "boards", rows * each, "boards", whole=True)


def walk_members(p, d):
    across, along = (
        p.tape("across", "across the framing", d["across"]),
        p.tape("along", "along the framing", d["along"]),
    )
    taken = along if p.happens("other-measure", "members", "across the framing") else across
    spaces = (
        math.floor(taken / d["spacing"])
        if p.happens("rounded-down", "members")
        else math.ceil(taken / d["spacing"])
    )
    return p.add(
        "members", "members", [("", spaces, "plain"), ("the one at the end", 1, "end")], "members", whole=True
    )


def walk_studs(p, d):
    long = p.tape("length", f"{d['name']} length", d["length"])
    spaces = (
        math.floor(long / d["spacing"])
        if p.happens("rounded-down", "studs")
        else math.ceil(long / d["spacing"])
    )
    return p.add(
        "studs", "studs", [("", spaces, "plain"), ("the one at the end", 1, "end")], "studs", whole=True
    )


def walk_plates(p, d):
    long = p.tape("length", f"{d['name']} length", d["length"])
    doors = [(name, p.tape(f"door {n}", f"{name} width", w)) for n, (name, w) in enumerate(d["doors"])]
    gross = p.line("gross", "plates", p.feet(long, "gross", f"{d['name']}, length") * 3, "ft")
    off = [(name, p.feet(w, "net", f"{name}, width"), "opening") for name, w in doors]
    return p.add("net", "plates, doors off", [("plates", gross, "side"), *off], "ft") if off else gross


def walk_faces(p, d):
    long, high = (
        p.tape("length", f"{d['name']} length", d["length"]),
        p.tape("height", f"{d['name']} height", d["h"]),
    )
    feet = p.feet(long, "gross", f"{d['name']}, length"), p.feet(high, "gross", f"{d['name']}, height")
    parts = [("one side, gross", p.times("gross", "one side gross", *feet), "side")]
    for n, o in enumerate(d["openings"]):
        parts.append((o[0], opening(p, f"o{n}", *o), "opening"))
    net = p.add("net", "one side net", parts)
    sides = 1 if p.happens("one-face", "both", "both sides") else 2
    sides = 4 if sides == 2 and p.happens("faces-twice", "both", "both sides") else sides
    return p.line("both", "both sides", net * sides, "ft2")


def walk_batts(p, d):
    long = p.tape("length", f"{d['name']} length", d["length"])
    parts = []
    for n, (name, w, _h) in enumerate(d["openings"]):
        wide = p.tape(f"o{n}", f"{name} width", w)
        parts.append((name, p.pieces(f"o{n} bays", f"{name} bays", wide, d["spacing"], "bays"), "opening"))
    bays = (
        math.floor(long / d["spacing"])
        if p.happens("rounded-down", "batts")
        else math.ceil(long / d["spacing"])
    )
    return p.add("batts", "batts", [("the bays", bays, "plain"), *parts], "batts", whole=True)


def walk_subfloor(p, d):
    gross_ew, gross_ns = (
        p.tape("ew", "house east to west", d["ew"]),
        p.tape("ns", "house north to south", d["ns"]),
    )
    names = "house, east to west", "house, north to south"
    gross = p.times(
        "gross", "floor gross", p.feet(gross_ew, "gross", names[0]), p.feet(gross_ns, "gross", names[1])
    )
    parts = [("floor, gross", gross, "side")]
    for n, (name, ew, ns) in enumerate(d["holes"]):
        wide, deep = (
            p.tape(f"hole {n} ew", f"{name} east to west", ew),
            p.tape(f"hole {n} ns", f"{name} north to south", ns),
        )
        key = f"hole {n}"
        area = p.times(
            key,
            f"{name} area",
            p.feet(wide, key, f"{name}, east to west"),
            p.feet(deep, key, f"{name}, north to south"),
        )
        parts.append((name, area, "opening"))
    return p.pieces("sheets", "sheets", p.add("net", "floor net", parts), 32, "sheets")


def walk_partitions(p, d):
    walls = [(name, p.tape(f"wall {n}", f"{name} length", w)) for n, (name, w) in enumerate(d["walls"])]
    run = p.add(
        "run",
        "length of all partitions",
        [(n, p.feet(w, "run", f"{n}, length"), "side") for n, w in walls],
        "ft",
    )
    high = p.tape("height", "height of the partitions", d["h"])
    sides = 1 if p.happens("one-face", "area", "both sides") else 2
    area = p.line(
        "area", "both sides area", run * p.feet(high, "area", "height of the partitions") * sides, "ft2"
    )
    return p.pieces("sheets", "sheets", area, 32, "sheets")


def walk_cable(p, d):
    legs = [(label, p.tape(f"leg {n}", label, w)) for n, (label, w) in enumerate(d["legs"], start=1)]
    way = p.add("way", "the way", [(label, p.feet(w, "way", label), "side") for label, w in legs], "ft")
    drape = p.line("drape", "drape", way * 0.05, "ft")
    parts = [
        ("the way", way, "plain"),
        ("drape", drape, "allowance"),
        *((n, v, "allowance") for n, v in d["extra"]),
    ]
    return p.add("total", "cable to cut", parts, "ft")


def walk_circuit(p, d):
    runs = [(name, p.tape(name, name, w)) for name, w in d["runs"]]
    return p.add("total", "cable of the circuit", [(n, p.feet(w, "total", n), "side") for n, w in runs], "ft")


def walk_fill(p, d):
    parts = []
    for n, (label, count, each) in enumerate(d["steps"]):
        parts.append((label, p.line(f"step {n}", label, count * each, "in3"), "side"))
    return p.add("total", "box fill", parts, "in3")
