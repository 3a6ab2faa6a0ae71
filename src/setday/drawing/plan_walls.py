"""Walls, doors and windows on the plan, by general drafting convention."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.drawing.ink import BOLD, DASHED, FINE, HAIR, LINE, Svg, circle, group, line, number, path, polygon
from setday.drawing.lettering import SMALL, Box, Taken, letters
from setday.drawing.paper import Link, linked
from setday.drawing.placing import inside
from setday.drawing.plan_sight import Sight, WallOnPlan
from setday.house import House, MemberKind, Opening, OpeningKind, Room, SurfaceKind, Wall, hung

__all__ = ["Tag", "draw_openings", "draw_surface_strips", "draw_tags", "draw_walls", "tags_of"]

_PAIR_IN = 48.0
"""A door opening wider than this is drawn as a pair of leaves [in]; common practice, no source."""
_TAG = 7.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """The mark of an opening on the plan: numbers for doors and cased openings, letters for windows."""

    mark: str
    wall: Wall
    opening: Opening


def tags_of(house: House) -> tuple[Tag, ...]:
    """Give every opening of the house its mark, in the order of the walls."""
    tags, doors, windows = [], 0, 0
    for wall in house.walls:
        for opening in wall.openings:
            if opening.kind is OpeningKind.WINDOW:
                mark, windows = _letter(windows), windows + 1
            else:
                doors += 1
                mark = str(doors)
            tags.append(Tag(mark=mark, wall=wall, opening=opening))
    return tuple(tags)


def draw_walls(house: House, sight: Sight, *, studs: bool, link: Link | None, solid: str = "ink") -> Svg:
    """Draw every wall: bearing and outside walls solid, others blank between two lines; or their studs.

    `solid` is the fill of a solid wall: "ink", or "shade" where lines have to be seen on it.
    """
    outline = "".join(
        "M" + "L".join(f"{number(x)} {number(y)}" for x, y in sight.ring(ring)) + "Z"
        for ring in house.footprint
    )
    under = path(outline, width=0, fill="paper", fill_rule="evenodd")
    walls = [_wall(wall, sight, studs=studs, link=link, solid=solid) for wall in house.walls]
    return group(under, path(outline, width=LINE), *walls)


def _wall(wall: Wall, sight: Sight, *, studs: bool, link: Link | None, solid: str) -> Svg:
    on_plan = WallOnPlan(wall=wall, sight=sight)
    half = on_plan.half
    filled = wall.kind.outside or wall.kind.bearing
    marks: list[Svg] = []
    if studs:
        marks = [_stud(on_plan, m.left.inches, m.right.inches) for m in wall.members if m.kind in _UPRIGHT]
    elif filled:
        marks = [
            polygon(on_plan.patch(ends, (-half, half)), width=HAIR, fill=solid)
            for ends in _between_openings(wall)
        ]
    touch = polygon(on_plan.patch((0, wall.length.inches), (-half, half)), width=0, fill="touch")
    label = f"wall {wall.name}, {wall.length}"
    return linked(*marks, touch, kind="wall", name=wall.name, label=label, link=link)


_UPRIGHT = {
    MemberKind.STUD,
    MemberKind.END_STUD,
    MemberKind.CORNER,
    MemberKind.PARTITION,
    MemberKind.KING,
    MemberKind.JACK,
}


def _stud(on_plan: WallOnPlan, left_in: float, right_in: float) -> Svg:
    return polygon(on_plan.patch((left_in, right_in), (-on_plan.half, on_plan.half)), width=HAIR, fill="ink")


def _between_openings(wall: Wall) -> list[tuple[float, float]]:
    """Return the stretches of a wall without opening [in]."""
    stretches, start = [], 0.0
    for opening in wall.openings:
        stretches.append((start, opening.along.inches))
        start = max(start, (opening.along + opening.width).inches)
    stretches.append((start, wall.length.inches))
    return [(low, high) for low, high in stretches if high > low]


def draw_openings(house: House, sight: Sight, *, taken: Taken) -> Svg:
    """Draw the symbol of every opening: glass, a leaf and its swing, or the dashed head."""
    symbols = []
    for tag in tags_of(house):
        on_plan = WallOnPlan(wall=tag.wall, sight=sight)
        faces = (-on_plan.half, on_plan.half)
        blank = polygon(on_plan.patch(_ends(tag.opening), faces), width=FINE, fill="paper")
        if tag.opening.kind is OpeningKind.WINDOW:
            symbol = _glass(on_plan, tag.opening)
        elif tag.opening.kind is OpeningKind.CASED:
            symbol = _cased(on_plan, tag.opening)
        else:
            symbol = _door(on_plan, tag.opening, house, taken)
        symbols.append(group(blank, symbol, data_kind="opening", data_id=tag.opening.name))
    return group(*symbols, pointer_events="none")


def draw_tags(house: House, sight: Sight, *, taken: Taken, all_of_them: bool = True) -> Svg:
    """Draw the mark of every opening where nothing stands; narrow openings choose first.

    Where a mark finds no place it stands on other things, or is left out unless `all_of_them`.
    """
    drawn = []
    for tag in sorted(tags_of(house), key=lambda tag: tag.opening.width):
        on_plan = WallOnPlan(wall=tag.wall, sight=sight)
        if tag.opening.kind is OpeningKind.WINDOW:
            side = _outward(on_plan, tag.opening, house.rooms)
        else:
            side = -_swing_side(on_plan, tag.opening, house)
        drawn.append(_mark(tag, on_plan, side, taken=taken, needed=all_of_them))
    return group(*drawn, pointer_events="none")


def _ends(opening: Opening) -> tuple[float, float]:
    return opening.along.inches, (opening.along + opening.width).inches


def _glass(on_plan: WallOnPlan, opening: Opening) -> Svg:
    start, end = _ends(opening)
    (x1, y1), (x2, y2) = on_plan.at(start, 0), on_plan.at(end, 0)
    return line(x1=x1, y1=y1, x2=x2, y2=y2, width=LINE)


def _cased(on_plan: WallOnPlan, opening: Opening) -> Svg:
    """Draw an opening without leaf, its head dashed across it."""
    start, end = _ends(opening)
    parts = []
    for face in (-on_plan.half, on_plan.half):
        (x1, y1), (x2, y2) = on_plan.at(start, face), on_plan.at(end, face)
        parts.append(line(x1=x1, y1=y1, x2=x2, y2=y2, width=HAIR, dash=DASHED))
    return group(*parts)


def _door(on_plan: WallOnPlan, opening: Opening, house: House, taken: Taken) -> Svg:
    """Draw leaf and swing, hung as `setday.house.hung` takes it."""
    start, end = _ends(opening)
    side = _swing_side(on_plan, opening, house)
    if end - start > _PAIR_IN:
        middle = (start + end) / 2
        leaves = [_leaf(on_plan, (start, middle), side), _leaf(on_plan, (end, middle), side)]
    else:
        hinge_at_start = hung(house, on_plan.wall, opening).hinge_at_start
        leaves = [_leaf(on_plan, (start, end) if hinge_at_start else (end, start), side)]
    reach = (end - start) / len(leaves)
    corners = on_plan.patch((start, end), (side * on_plan.half, side * (on_plan.half + reach)))
    taken.take(_hull(corners))
    return group(*leaves)


def _leaf(on_plan: WallOnPlan, hinge_to_latch: tuple[float, float], side: int) -> Svg:
    hinge, latch = hinge_to_latch
    face = side * on_plan.half
    reach = abs(latch - hinge)
    hinge_x, hinge_y = on_plan.at(hinge, face)
    tip_x, tip_y = on_plan.at(hinge, face + side * reach)
    latch_x, latch_y = on_plan.at(latch, face)
    radius = reach * on_plan.sight.per_inch
    turn = (tip_x - hinge_x) * (latch_y - hinge_y) - (tip_y - hinge_y) * (latch_x - hinge_x)
    swing = (
        f"M{number(tip_x)} {number(tip_y)}A{number(radius)} {number(radius)} 0 0 {1 if turn > 0 else 0} "
        f"{number(latch_x)} {number(latch_y)}"
    )
    return group(line(x1=hinge_x, y1=hinge_y, x2=tip_x, y2=tip_y, width=BOLD * 0.75), path(swing, width=HAIR))


def _swing_side(on_plan: WallOnPlan, opening: Opening, house: House) -> int:
    return 1 if hung(house, on_plan.wall, opening).side == "left" else -1


def _room_beside(on_plan: WallOnPlan, opening: Opening, rooms: Sequence[Room], side: int) -> Room | None:
    middle = (opening.along + opening.width // 2).inches
    x, y = on_plan.plan_at(middle, side * (on_plan.half + 2))
    for room in rooms:
        rings = [[(p.x.inches, p.y.inches) for p in ring] for ring in (room.outline, *room.holes)]
        if inside(x, y, *rings):
            return room
    return None


def _outward(on_plan: WallOnPlan, opening: Opening, rooms: Sequence[Room]) -> int:
    return 1 if _room_beside(on_plan, opening, rooms, 1) is None else -1


def _mark(tag: Tag, on_plan: WallOnPlan, side: int, *, taken: Taken, needed: bool) -> Svg:
    """Draw the mark of an opening beside it, at the nearest of many places where nothing stands."""
    start, end = _ends(tag.opening)
    middle, step = (start + end) / 2, (_TAG * 2 + 1) / on_plan.sight.per_inch
    near = on_plan.half + (_TAG + 3) / on_plan.sight.per_inch
    candidates = []
    for off in (near, near + step):
        for along in (middle, start, end, start - step, end + step):
            for direction in (side, -side):
                x, y = on_plan.at(along, direction * off)
                candidates.append(Box(x - _TAG, y - _TAG, x + _TAG, y + _TAG))
    box = taken.first_free(candidates) or (candidates[0] if needed else None)
    if box is None:
        return Svg("")
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    if tag.opening.kind is OpeningKind.WINDOW:
        six = [(x + _TAG * dx, y + _TAG * dy) for dx, dy in _HEXAGON]
        ring = polygon(six, width=FINE, fill="paper")
    else:
        ring = circle(x=x, y=y, r=_TAG, width=FINE, fill="paper")
    return group(ring, letters(tag.mark, x=x, y=y, size=SMALL, bold=True))


_HEXAGON = ((1.1, 0), (0.55, 0.95), (-0.55, 0.95), (-1.1, 0), (-0.55, -0.95), (0.55, -0.95))


def draw_surface_strips(house: House, sight: Sight, *, link: Link | None) -> Svg:
    """Lay a strip to touch inside every room along each of its wall surfaces."""
    if link is None:
        return Svg("")
    strips = []
    for surface in house.surfaces:
        if surface.kind is not SurfaceKind.WALL:
            continue
        patches = []
        for span in surface.spans:
            if span.side not in {"left", "right"}:
                continue
            on_plan = WallOnPlan(wall=house.wall(span.wall), sight=sight)
            sign = 1 if span.side == "left" else -1
            start = span.along.inches
            end = start + span.width.inches * (1 if span.forward else -1)
            faces = (sign * on_plan.half, sign * (on_plan.half + 9 / sight.per_inch))
            patches.append(polygon(on_plan.patch((start, end), faces), width=0, fill="touch"))
        strips.append(linked(*patches, kind="surface", name=surface.id, label=surface.label, link=link))
    return group(*strips)


def _hull(corners: Sequence[tuple[float, float]]) -> Box:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _letter(index: int) -> str:
    """Count A to Z, then AA, AB ...; I and O are left out, since they read as figures."""
    alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    text = alphabet[index % len(alphabet)]
    while index >= len(alphabet):
        index = index // len(alphabet) - 1
        text = alphabet[index % len(alphabet)] + text
    return text
