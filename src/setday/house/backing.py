"""What is behind a surface: its openings, and what the edge of a board may land on."""

from itertools import pairwise

from setday.house.faces import PLAY, Knot
from setday.house.lumber import THICK
from setday.house.model import Backing, MemberKind, Span, SurfaceOpening, Wall
from setday.house.placing import from_inches
from setday.house.wall_top import height_at

__all__ = ["backing_of", "openings_on"]

_END_BACKING = 1.0
"""Members whose centre is nearer than this to the end of a surface are that end's own backing [in]."""
_UPRIGHT = (
    MemberKind.STUD,
    MemberKind.END_STUD,
    MemberKind.CORNER,
    MemberKind.PARTITION,
    MemberKind.KING,
    MemberKind.JACK,
)


def openings_on(span: Span, wall: Wall) -> list[SurfaceOpening]:
    """Return the openings of a wall that are in one stretch of a surface."""
    found = []
    if span.side not in ("left", "right"):
        return []
    for opening in wall.openings:
        ahead = opening.along - span.along if span.forward else span.along - opening.along - opening.width
        x = (span.x + ahead).inches
        low, high = max(x, span.x.inches), min(x + opening.width.inches, (span.x + span.width).inches)
        if high - low > PLAY:
            found.append(
                SurfaceOpening(
                    name=opening.name,
                    kind=opening.kind.value,
                    x=from_inches(low),
                    y=opening.sill,
                    w=from_inches(high - low),
                    h=opening.height,
                )
            )
    return found


def backing_of(span: Span, wall: Wall, outline: list[Knot]) -> list[Backing]:
    """Return what a joint may land on: each upright and the plates and header in line with it."""
    if span.side not in ("left", "right"):
        return []
    sign = 1 if span.forward else -1
    length = max(x for x, _ in outline)
    found = []
    for kind, along, low, high in _lines(span, wall):
        x = span.x.inches + sign * (along - span.along.inches)
        top = min(high, _top_at(outline, x))
        in_span = span.x.inches < x < (span.x + span.width).inches
        if in_span and top > low and _END_BACKING <= x <= length - _END_BACKING:
            found.append(_bar(kind, x, low, top))
    return found


def _top_at(outline: list[Knot], x: float) -> float:
    """Return the height of the outline over `x`; the lower one where it steps."""
    heights = []
    for (ax, ay), (bx, by) in pairwise([*outline, outline[0]]):
        low, high = sorted((ax, bx))
        if low <= x <= high and high > low and max(ay, by) > 0:
            heights.append(ay + (by - ay) * (x - ax) / (bx - ax))
    return min(heights, default=0.0)


def _lines(span: Span, wall: Wall) -> list[tuple[str, float, float, float]]:
    """Return kind, place along the wall, low and high end of everything upright behind a face [in]."""
    top = max(h.inches for _, h in wall.top)
    lines = []
    for member in wall.members:
        if member.kind not in _UPRIGHT or member.face not in ("both", span.side):
            continue
        along = member.center.inches
        high = _header_top(along, wall, top) if member.kind is MemberKind.JACK else top
        lines.append((member.kind.value, along, 0.0, high))
    for opening in wall.openings:
        left, right = opening.along.inches, (opening.along + opening.width).inches
        for mark in wall.layout:
            if left < mark.inches < right:
                lines.append((MemberKind.HEADER.value, mark.inches, opening.head.inches, top))
                if opening.sill.sixtyfourths > 0:
                    lines.append((MemberKind.SILL.value, mark.inches, 0.0, opening.sill.inches))
    return [line for line in lines if line[3] > line[2]]


def _header_top(along: float, wall: Wall, top: float) -> float:
    headers = [
        m for m in wall.members if m.kind is MemberKind.HEADER and m.left.inches <= along <= m.right.inches
    ]
    reach = max((m.top_left.inches for m in headers), default=0.0)
    plates = THICK * wall.kind.plates_above
    return top if reach >= height_at(wall.top, along) - plates - THICK / 2 else reach


def _bar(kind: str, x: float, low: float, high: float) -> Backing:
    return Backing(
        kind=kind,
        x=from_inches(x),
        width=from_inches(THICK),
        y_low=from_inches(low),
        y_high=from_inches(high),
    )
