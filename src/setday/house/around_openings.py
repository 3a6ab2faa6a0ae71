"""The members around an opening: jacks, kings, header, sill and cripples."""

from dataclasses import replace

from setday.house.lumber import THICK
from setday.house.model import FramingMember, MemberKind, Opening
from setday.house.placing import from_inches
from setday.house.uprights import Frame, layout_centers, level, upright

__all__ = ["around_opening"]


def around_opening(opening: Opening, frame: Frame) -> list[FramingMember]:
    """Return the members around one opening, jacks and kings from the opening outwards."""
    jacks = frame.typed[opening.name].jacks
    left, right = opening.along.inches, (opening.along + opening.width).inches
    depth = _header_depth(opening, frame)
    members = []
    for side, edge in ((-1, left), (1, right)):
        members += [_jack(edge + side * THICK * (n + 0.5), opening, frame) for n in range(jacks)]
        members.append(upright(MemberKind.KING, edge + side * THICK * (jacks + 0.5), frame))
    if depth > 0:
        reach = THICK * jacks
        head = opening.head.inches
        members.append(level(MemberKind.HEADER, left - reach, right + reach, head, head + depth))
    if opening.sill.inches > frame.base:
        sill = opening.sill.inches
        members.append(level(MemberKind.SILL, left, right, sill - THICK, sill))
    return members + _cripples(opening, frame, depth)


def _header_depth(opening: Opening, frame: Frame) -> float:
    typed = frame.typed[opening.name]
    head = opening.head.inches
    middle = opening.along.inches + opening.width.inches / 2
    space = max(0.0, frame.under_plates(middle) - head)
    if typed.header_depth is not None:
        return min(typed.header_depth.inches, space)
    habits = frame.habits
    wanted = min(habits.header_bearing if frame.wall.kind.bearing else habits.header_light, space)
    return space if space - wanted < THICK else wanted


def _jack(center: float, opening: Opening, frame: Frame) -> FramingMember:
    return replace(upright(MemberKind.JACK, center, frame), top_left=opening.head, top_right=opening.head)


def _cripples(opening: Opening, frame: Frame, depth: float) -> list[FramingMember]:
    left, right = opening.along.inches, (opening.along + opening.width).inches
    over, under = opening.head.inches + depth, opening.sill.inches - THICK
    cripples = []
    for at in layout_centers(frame.wall):
        if not left + THICK / 2 <= at <= right - THICK / 2:
            continue
        if frame.under_plates(at) - over >= THICK:
            cripples.append(upright(MemberKind.CRIPPLE, at, frame, bottom=over))
        if under - frame.base > 0:
            top = from_inches(under)
            cripples.append(replace(upright(MemberKind.CRIPPLE, at, frame), top_left=top, top_right=top))
    return cripples
