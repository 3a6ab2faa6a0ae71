"""Room names, sizes and areas on the plan, and what hangs from or opens in ceilings and floors."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from setday.drawing.ink import DASHED, DOTTED, FINE, HAIR, LINE, Svg, group, line, polygon, rect
from setday.drawing.lettering import NORMAL, SMALL, Box, Taken, letters, text_width
from setday.drawing.paper import Link, linked
from setday.drawing.placing import free_place
from setday.drawing.plan_sight import Sight
from setday.house import Axis, CeilingShape, House, Room, Surface, SurfaceKind, TypedCeiling
from setday.measure import Length, write_inches

__all__ = ["Key", "draw_arrows", "draw_boxes", "draw_ridges", "draw_rooms", "room_size"]

_LEADING = 1.3


@dataclass(slots=True)
class Key:
    """What the small letters on a plan stand for, where a thing has no space for its own words."""

    entries: list[tuple[str, str]] = field(default_factory=list)

    def mark(self, words: str) -> str:
        """Note the words and return their mark: a, b, c ... z, a2, b2 ..."""
        turn, place = divmod(len(self.entries), 26)
        mark = chr(ord("a") + place) + (str(turn + 1) if turn else "")
        self.entries.append((mark, words))
        return mark


def room_size(room: Room) -> str:
    """Write a room's inside size, framing to framing: east-west by north-south, over all when not a box."""
    xs, ys = [point.x for point in room.outline], [point.y for point in room.outline]
    size = f"{max(xs) - min(xs)} x {max(ys) - min(ys)}"
    return size if len(room.outline) == 4 else f"{size} over all"


def draw_rooms(house: House, sight: Sight, *, taken: Taken, key: Key, link: Link | None) -> Svg:
    """Letter every room with its name, inside size and area; rooms too small for it get a mark."""
    parts: list[Svg] = []
    for room in sorted(house.rooms, key=lambda room: -room.area.sqft):
        rings = [sight.ring(ring) for ring in (room.outline, *room.holes)]
        lettered = _lettered(room, rings, taken)
        if lettered is None:
            mark = key.mark(f"{room.name}: {room_size(room)}, {room.area}")
            lettered = _marked(mark, rings, taken)
        touch = polygon(rings[0], width=0, fill="touch")
        label = f"{room.name}, {room.area}"
        parts.append(linked(touch, lettered, kind="room", name=room.name, label=label, link=link))
    return group(*parts)


def _lettered(room: Room, rings: Sequence[list[tuple[float, float]]], taken: Taken) -> Svg | None:
    for words, lines, size, upright in _wordings(room):
        every = [(text, size + 1, True) for text in words] + [(text, size, False) for text in lines]
        wide = max(text_width(text, size=large) for text, large, _ in every) + 6
        tall = len(every) * size * _LEADING + 4
        box = free_place(rings, (tall, wide) if upright else (wide, tall), taken)
        if box:
            return _lines(every, box, leading=size * _LEADING, upright=upright)
    return None


def _wordings(room: Room) -> Iterator[tuple[tuple[str, ...], tuple[str, ...], float, bool]]:
    """Yield ways to letter a room, fullest first: lines of its name, further lines, size, upright."""
    size, area = room_size(room), str(room.area)
    whole = (room.name,)
    broken = tuple(room.name.split(" ", 1))
    for upright in (False, True):
        yield whole, (size, area), NORMAL, upright
        yield broken, (size, area), SMALL, upright
        if " x " in size:
            first, _, second = size.partition(" x ")
            yield broken, (f"{first} x", second, area), SMALL, upright
    for upright in (False, True):
        yield whole, (area,), SMALL, upright
        yield whole, (), SMALL, upright
        yield broken, (), SMALL, upright


def _lines(every: Sequence[tuple[str, float, bool]], box: Box, *, leading: float, upright: bool) -> Svg:
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    parts = []
    for i, (text, size, bold) in enumerate(every):
        off = (i - (len(every) - 1) / 2) * leading
        at_x, at_y = (x + off, y) if upright else (x, y + off)
        parts.append(letters(text, x=at_x, y=at_y, size=size, upright=upright, bold=bold))
    return group(*parts)


def _marked(mark: str, rings: Sequence[list[tuple[float, float]]], taken: Taken) -> Svg:
    wide = text_width(mark, size=SMALL) + 2
    box = free_place(rings, (wide, SMALL * 1.2), taken) or free_place(rings, (wide, SMALL * 1.2), Taken())
    if box is None:
        xs, ys = [x for x, _ in rings[0]], [y for _, y in rings[0]]
        x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        return letters(mark, x=x, y=y, size=SMALL, bold=True, halo=True)
    return letters(mark, x=(box.left + box.right) / 2, y=(box.top + box.bottom) / 2, size=SMALL, bold=True)


def draw_arrows(house: House, sight: Sight, *, taken: Taken, link: Link | None) -> Svg:
    """Draw on every framed ceiling the way its framing runs; the arrow leads to the ceiling."""
    parts = []
    for surface in house.surfaces:
        if surface.kind is not SurfaceKind.CEILING or not surface.backing:
            continue
        upright = abs(surface.plan_y[1]) > abs(surface.plan_y[0])
        ring = [sight.at(*_on_plan(surface, x.inches, y.inches)) for x, y in surface.outline]
        arrow = _framing_arrow(write_inches(surface.member_spacing), [ring], taken, upright=upright)
        parts.append(linked(arrow, kind="surface", name=surface.id, label=surface.label, link=link))
    return group(*parts)


def _on_plan(surface: Surface, x: float, y: float) -> tuple[float, float]:
    (ox, oy), (xx, xy), (yx, yy) = surface.plan_origin, surface.plan_x, surface.plan_y
    return ox + x * xx + y * yx, oy + x * xy + y * yy


def draw_ridges(house: House, sight: Sight, *, taken: Taken) -> Svg:
    """Draw the ridges of vaulted ceilings."""
    vaults = (pair for pair in _ceilings(house) if pair[0].shape is CeilingShape.VAULT)
    return group(*(_ridge(ceiling, room, sight, taken) for ceiling, room in vaults), pointer_events="none")


def _ceilings(house: House) -> list[tuple[TypedCeiling, Room]]:
    rooms = {room.name: room for room in house.rooms}
    return [(ceiling, rooms[ceiling.room]) for ceiling in house.description.ceilings if ceiling.room in rooms]


def _framing_arrow(
    spacing: str, rings: Sequence[list[tuple[float, float]]], taken: Taken, *, upright: bool
) -> Svg:
    """Draw a double arrow along the joists with their spacing; left out where there is no room for it."""
    words = f"{spacing} o.c."
    for text, long in (
        (f"framing {words}", 98.0),
        (words, 60.0),
        (words, text_width(words, size=SMALL) + 4),
        ("", 30.0),
    ):
        tall = SMALL * 1.35 + 6 if text else 8.0
        box = free_place(rings, (tall, long) if upright else (long, tall), taken)
        if box:
            return _arrow(box, text, upright=upright)
    return Svg("")


def _arrow(box: Box, text: str, *, upright: bool) -> Svg:
    if upright:
        x = box.right - 4
        shaft = line(x1=x, y1=box.top + 1, x2=x, y2=box.bottom - 1, width=FINE)
        heads = [_head(x, box.top + 1, 0, 1), _head(x, box.bottom - 1, 0, -1)]
        at = ((box.left + box.right - 8) / 2, (box.top + box.bottom) / 2)
    else:
        y = box.bottom - 4
        shaft = line(x1=box.left + 1, y1=y, x2=box.right - 1, y2=y, width=FINE)
        heads = [_head(box.left + 1, y, 1, 0), _head(box.right - 1, y, -1, 0)]
        at = ((box.left + box.right) / 2, (box.top + box.bottom - 8) / 2)
    words = letters(text, x=at[0], y=at[1], size=SMALL, upright=upright) if text else Svg("")
    wide, tall = box.right - box.left, box.bottom - box.top
    touch = rect(x=box.left, y=box.top, w=wide, h=tall, width=0, fill="touch")
    return group(touch, shaft, *heads, words)


def _head(x: float, y: float, dx: int, dy: int) -> Svg:
    wing = 3.0
    tail = (x + dx * 7, y + dy * 7)
    return polygon(
        [(x, y), (tail[0] - dy * wing, tail[1] - dx * wing), (tail[0] + dy * wing, tail[1] + dx * wing)],
        width=0,
        fill="ink",
    )


def _ridge(ceiling: TypedCeiling, room: Room, sight: Sight, taken: Taken) -> Svg:
    """Draw the ridge of a vault as a dash-dot line with its height."""
    if ceiling.ridge_at is None:
        return Svg("")
    xs, ys = [p.x for p in room.outline], [p.y for p in room.outline]
    level = ceiling.ridge_runs is Axis.EAST_WEST
    low, high = (min(ys), max(ys)) if level else (min(xs), max(xs))
    run = max(ceiling.ridge_at - low, high - ceiling.ridge_at)
    height = ceiling.height + Length(round(run.sixtyfourths * ceiling.rise.inches / 12))
    at = ceiling.ridge_at.inches
    ends = (
        ((min(xs).inches, at), (max(xs).inches, at))
        if level
        else ((at, max(ys).inches), (at, min(ys).inches))
    )
    (x1, y1), (x2, y2) = sight.at(*ends[0]), sight.at(*ends[1])
    shaft = line(x1=x1, y1=y1, x2=x2, y2=y2, width=FINE, dash="14 3 2 3")
    text = f"ridge {height}, rises {ceiling.rise.inches:g} in 12"
    for words, part in (
        (text, 0.5),
        (text, 0.3),
        (f"ridge {height}", 0.5),
        (f"ridge {height}", 0.8),
        ("ridge", 0.5),
    ):
        x, y = x1 + (x2 - x1) * part, y1 + (y2 - y1) * part
        half = text_width(words, size=SMALL) / 2 + 3
        box = Box(x - half, y - 13, x + half, y - 1) if level else Box(x - 13, y - half, x - 1, y + half)
        if half * 2 < max(x2 - x1, y2 - y1) and taken.free(box):
            taken.take(box)
            taken.take(Box(min(x1, x2) - 1, min(y1, y2) - 1, max(x1, x2) + 1, max(y1, y2) + 1))
            mid = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
            return group(shaft, letters(words, x=mid[0], y=mid[1], size=SMALL, upright=not level))
    return shaft


def draw_boxes(house: House, sight: Sight, *, taken: Taken, key: Key) -> Svg:
    """Draw floor holes with a cross, drops and hatches dashed, reserved space dotted, each with its name."""
    parts = []
    words: tuple[str, ...]
    for hole in house.floor_holes:
        box = sight.box(hole.corner, hole.east.inches, hole.north.inches)
        words = ("floor hole", hole.name, f"{hole.east} x {hole.north}")
        parts.append(_marked_box(box, words, dash=None, crossed=True, taken=taken, key=key))
    for drop in house.description.drops:
        box = sight.box(drop.corner, drop.east.inches, drop.north.inches)
        words = (drop.name, f"underside {drop.bottom}")
        parts.append(_marked_box(box, words, dash=DASHED, crossed=False, taken=taken, key=key))
    for hatch in house.description.hatches:
        box = sight.box(hatch.corner, hatch.east.inches, hatch.north.inches)
        words = (hatch.name, f"{hatch.east} x {hatch.north}")
        parts.append(_marked_box(box, words, dash=DASHED, crossed=True, taken=taken, key=key))
    for reserve in house.reserves:
        box = sight.box(reserve.corner, reserve.east.inches, reserve.north.inches)
        words = (f"kept for {reserve.trade}",)
        parts.append(_marked_box(box, words, dash=DOTTED, crossed=False, taken=taken, key=key))
    return group(*parts, pointer_events="none")


def _marked_box(
    box: Box, words: tuple[str, ...], *, dash: str | None, crossed: bool, taken: Taken, key: Key
) -> Svg:
    wide, tall = box.right - box.left, box.bottom - box.top
    parts = [rect(x=box.left, y=box.top, w=wide, h=tall, width=LINE if dash is None else FINE, dash=dash)]
    if crossed:
        parts += [
            line(x1=box.left, y1=box.top, x2=box.right, y2=box.bottom, width=HAIR),
            line(x1=box.left, y1=box.bottom, x2=box.right, y2=box.top, width=HAIR),
        ]
    parts.append(_box_words(box, words, taken, key))
    _take_edges(box, taken, whole=crossed)
    return group(*parts)


def _box_words(box: Box, words: tuple[str, ...], taken: Taken, key: Key) -> Svg:
    """Letter a box in its middle, or mark it and put its words into the key."""
    wide, tall = box.right - box.left, box.bottom - box.top
    for lines in (words, (", ".join(words),)):
        need = max(text_width(text, size=SMALL) for text in lines) + 6
        high = len(lines) * SMALL * _LEADING + 2
        for upright in (False, True):
            across, up = (high, need) if upright else (need, high)
            if across <= wide and up <= tall:
                return _knocked_out(box, lines, (across, up), upright=upright, taken=taken)
    mark = key.mark(", ".join(words))
    return _knocked_out(
        box, (mark,), (text_width(mark, size=SMALL) + 4, SMALL * _LEADING), upright=False, taken=taken
    )


def _knocked_out(
    box: Box, lines: tuple[str, ...], size: tuple[float, float], *, upright: bool, taken: Taken
) -> Svg:
    """Letter on a patch of blank paper in the middle of a box."""
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    across, up = size
    taken.take(Box(x - across / 2, y - up / 2, x + across / 2, y + up / 2))
    patch = rect(x=x - across / 2, y=y - up / 2, w=across, h=up, width=0, fill="paper")
    parts = []
    for i, text in enumerate(lines):
        off = (i - (len(lines) - 1) / 2) * SMALL * _LEADING
        at = (x + off, y) if upright else (x, y + off)
        parts.append(letters(text, x=at[0], y=at[1], size=SMALL, upright=upright))
    return group(patch, *parts)


def _take_edges(box: Box, taken: Taken, *, whole: bool) -> None:
    if whole:
        taken.take(box)
        return
    for edge in (
        Box(box.left - 1, box.top, box.left + 1, box.bottom),
        Box(box.right - 1, box.top, box.right + 1, box.bottom),
        Box(box.left, box.top - 1, box.right, box.top + 1),
        Box(box.left, box.bottom - 1, box.right, box.bottom + 1),
    ):
        taken.take(edge)
