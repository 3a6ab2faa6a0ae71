"""Which wall stands behind which stretch of a room's face."""

from setday.house.faces import PLAY, Face
from setday.house.model import Span, Wall
from setday.house.placing import PlacedWall, from_inches
from setday.measure import Length

__all__ = ["spans_of"]


def spans_of(face: Face, walls: tuple[tuple[PlacedWall, Wall], ...]) -> tuple[Span, ...]:
    """Return the stretches of a face from left to right, each with the wall behind it; none twice."""
    found = [span for placed, _ in walls if (span := _span(face, placed))]
    claimed: list[Span] = []
    for span in sorted(found, key=lambda s: (s.x, -s.width.sixtyfourths)):
        if all(span.x >= c.x + c.width or span.x + span.width <= c.x for c in claimed):
            claimed.append(span)
        else:
            trimmed = _trim(span, claimed[-1])
            if trimmed:
                claimed.append(trimmed)
    return tuple(claimed)


def _trim(span: Span, before: Span) -> Span | None:
    cut = before.x + before.width - span.x
    if cut >= span.width or cut.sixtyfourths <= 0:
        return None
    along = span.along + cut if span.forward else span.along - cut
    return Span(
        wall=span.wall,
        side=span.side,
        x=span.x + cut,
        width=span.width - cut,
        along=along,
        forward=span.forward,
    )


def _span(face: Face, wall: PlacedWall) -> Span | None:
    ux, uy = face.direction
    same_way = ux * wall.ux + uy * wall.uy
    offset = wall.left_of(*face.left)
    if abs(abs(same_way) - 1) > 1e-6:
        return _end_span(face, wall)
    if abs(abs(offset) - wall.half) > PLAY:
        return None
    a, b = wall.along(*face.left), wall.along(*face.right)
    low, high = max(min(a, b), wall.face_start), min(max(a, b), wall.face_end)
    # Wall on the left of the walk, room on the right: walking with the wall shows its right face.
    if high - low < PLAY or (offset < 0) != (same_way > 0):
        return None
    forward = same_way > 0
    x = low - a if forward else a - high
    return Span(
        wall=wall.name,
        side="left" if offset > 0 else "right",
        x=from_inches(x),
        width=from_inches(high - low),
        along=from_inches((low if forward else high) - wall.frame_start),
        forward=forward,
    )


def _end_span(face: Face, wall: PlacedWall) -> Span | None:
    ux, uy = face.direction
    if abs(ux * wall.ux + uy * wall.uy) > 1e-6:
        return None
    along = wall.along(*face.left)
    for at_start, end in ((True, wall.face_start), (False, wall.face_end)):
        sides = sorted((wall.left_of(*face.left), wall.left_of(*face.right)))
        inside = sides[0] >= -wall.half - PLAY and sides[1] <= wall.half + PLAY
        if abs(along - end) <= PLAY and inside:
            return Span(
                wall=wall.name,
                side="start" if at_start else "end",
                x=Length(0),
                width=from_inches(face.length),
                along=from_inches(end - wall.frame_start),
                forward=True,
            )
    return None
