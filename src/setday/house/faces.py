"""Wall surfaces: every straight face of a room, its outline, openings and backing."""

from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from shapely import Polygon
from shapely.geometry.polygon import orient

from setday.house.ceilings import Overhead
from setday.house.framing import Top, height_at
from setday.house.model import Backing, MemberKind, Span, Surface, SurfaceKind, SurfaceOpening, Wall
from setday.house.placing import PlacedWall, from_inches
from setday.house.rooms import FoundRoom
from setday.measure import Length

__all__ = ["Face", "profile", "room_faces", "surface_of", "tidy"]

_PLAY = 1 / 32
_INSIDE = 0.01
_HALF_STUD = 0.75
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

Knot = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One straight face of a room on the plan: from `left` to `right` as seen from inside [in]."""

    left: Knot
    right: Knot
    facing: str

    @property
    def length(self) -> float:
        """Length of the face [in]."""
        return hypot(self.right[0] - self.left[0], self.right[1] - self.left[1])

    @property
    def direction(self) -> Knot:
        """Unit vector from left to right."""
        return (
            (self.right[0] - self.left[0]) / self.length,
            (self.right[1] - self.left[1]) / self.length,
        )

    def at(self, x: float, into_room: float = 0.0) -> Knot:
        """Return the plan point at `x` along the face and `into_room` off it [in]."""
        ux, uy = self.direction
        return (self.left[0] + ux * x + uy * into_room, self.left[1] + uy * x - ux * into_room)


def room_faces(space: Polygon) -> tuple[Face, ...]:
    """Return the faces of a room clockwise, from the west end of its northernmost north wall."""
    turned = orient(space, sign=-1.0)
    faces: list[Face] = []
    for ring in (turned.exterior, *turned.interiors):
        knots = tidy(list(ring.coords)[:-1])
        ring_faces = [
            Face(left=a, right=b, facing=_facing(a, b))
            for a, b in zip(knots, knots[1:] + knots[:1], strict=True)
        ]
        north = [n for n, face in enumerate(ring_faces) if face.facing == "north"]
        first = max(north, key=lambda n: (ring_faces[n].left[1], -ring_faces[n].left[0]), default=0)
        faces += ring_faces[first:] + ring_faces[:first]
    return tuple(faces)


def tidy(knots: list[Knot]) -> list[Knot]:
    """Return a ring of corners without doubled ones and without corners on a straight side."""
    ring = [
        (k[0], k[1])
        for n, k in enumerate(knots)
        if hypot(k[0] - knots[n - 1][0], k[1] - knots[n - 1][1]) > _PLAY / 2
    ]
    kept = []
    for n, knot in enumerate(ring):
        before, after = ring[n - 1], ring[(n + 1) % len(ring)]
        turn = (knot[0] - before[0]) * (after[1] - knot[1]) - (knot[1] - before[1]) * (after[0] - knot[0])
        if abs(turn) > 1e-6 * max(1.0, hypot(after[0] - before[0], after[1] - before[1])):
            kept.append(knot)
    return kept


def _facing(left: Knot, right: Knot) -> str:
    ux, uy = right[0] - left[0], right[1] - left[1]
    out_x, out_y = -uy, ux
    if abs(out_y) >= abs(out_x):
        return "north" if out_y > 0 else "south"
    return "east" if out_x > 0 else "west"


def surface_of(
    face: Face,
    room: FoundRoom,
    overhead: Overhead,
    walls: tuple[tuple[PlacedWall, Wall], ...],
    surface_id: str,
    label: str,
) -> Surface | None:
    """Return the surface on one face of a room, or None where nothing of it is left to cover."""
    spans = _spans(face, walls)
    outline, meets_ceiling = _outline(face, overhead, spans, walls)
    if len(outline) < 3:
        return None
    framed = {wall.name: wall for _, wall in walls}
    backing = [b for span in spans for b in _backing(span, framed[span.wall], outline)]
    spacing = max((framed[span.wall].spacing for span in spans), default=Length(16 * 64))
    return Surface(
        id=surface_id,
        label=label,
        room=room.typed.name,
        kind=SurfaceKind.WALL,
        facing=face.facing,
        outline=tuple((from_inches(x), from_inches(y)) for x, y in outline),
        openings=tuple(o for span in spans for o in _openings(span, framed[span.wall])),
        wet=(),
        backing=tuple(sorted(backing, key=lambda b: (b.x, b.y_low))),
        member_spacing=spacing,
        spans=spans,
        top_meets_ceiling=meets_ceiling,
        plan_origin=face.left,
        plan_x=face.direction,
        plan_y=(0.0, 0.0),
    )


def _spans(face: Face, walls: tuple[tuple[PlacedWall, Wall], ...]) -> tuple[Span, ...]:
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
    if abs(abs(offset) - wall.half) > _PLAY:
        return None
    a, b = wall.along(*face.left), wall.along(*face.right)
    low, high = max(min(a, b), wall.face_start), min(max(a, b), wall.face_end)
    # Wall on the left of the walk, room on the right: walking with the wall shows its right face.
    if high - low < _PLAY or (offset < 0) != (same_way > 0):
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
        inside = sides[0] >= -wall.half - _PLAY and sides[1] <= wall.half + _PLAY
        if abs(along - end) <= _PLAY and inside:
            return Span(
                wall=wall.name,
                side="start" if at_start else "end",
                x=Length(0),
                width=from_inches(face.length),
                along=from_inches(end - wall.frame_start),
                forward=True,
            )
    return None


def profile(
    face: Face, overhead: Overhead, spans: tuple[Span, ...], tops: dict[str, Top]
) -> tuple[tuple[float, float, Knot, Knot | None], ...]:
    """Return stretch by stretch along a face: from, to, and both heights of ceiling and of wall top [in].

    Parameters
    ----------
    face : Face
    overhead : Overhead
    spans : tuple of Span
    tops : dict
        The tops of the walls by name.
    """
    cuts = sorted(
        {0.0, face.length, *_ridge_cuts(face, overhead), *_drop_cuts(face, overhead), *_top_cuts(spans, tops)}
    )
    return tuple(
        (low, high, _ceiling_line(face, overhead, low, high), _wall_line(spans, tops, low, high))
        for low, high in pairwise(cuts)
        if high - low >= _PLAY
    )


def _outline(
    face: Face, overhead: Overhead, spans: tuple[Span, ...], walls: tuple[tuple[PlacedWall, Wall], ...]
) -> tuple[list[Knot], bool]:
    roof: list[Knot] = []
    meets = True
    for low, high, ceiling, wall in profile(face, overhead, spans, {w.name: w.top for _, w in walls}):
        pieces, ceiling_only = _lower_of(low, high, ceiling, wall)
        meets = meets and ceiling_only
        roof += pieces
    ring = [(0.0, 0.0), (face.length, 0.0), *reversed(roof)]
    return tidy([(x, max(y, 0.0)) for x, y in ring]), meets


def _ridge_cuts(face: Face, overhead: Overhead) -> list[float]:
    if len(overhead.planes) < 2:
        return []
    first, second = overhead.planes[0], overhead.planes[1]
    a = first.height(*face.left) - second.height(*face.left)
    b = first.height(*face.right) - second.height(*face.right)
    return [face.length * a / (a - b)] if a * b < 0 else []


def _drop_cuts(face: Face, overhead: Overhead) -> list[float]:
    cuts = []
    ux, uy = face.direction
    for drop in overhead.drops:
        for x, y in list(drop.region.exterior.coords):
            along = (x - face.left[0]) * ux + (y - face.left[1]) * uy
            if 0 < along < face.length:
                cuts.append(along)
    return cuts


def _top_cuts(spans: tuple[Span, ...], tops: dict[str, Top]) -> list[float]:
    cuts = []
    for span in spans:
        cuts += [span.x.inches, (span.x + span.width).inches]
        sign = 1 if span.forward else -1
        if span.side in ("left", "right"):
            cuts += [span.x.inches + sign * (a - span.along).inches for a, _ in tops[span.wall]]
    return [c for c in cuts if any(s.x.inches <= c <= (s.x + s.width).inches for s in spans)]


def _ceiling_line(face: Face, overhead: Overhead, low: float, high: float) -> tuple[float, float]:
    middle = face.at((low + high) / 2, _INSIDE)
    drop = overhead.drop_at(*middle)
    if drop is not None:
        return drop.bottom, drop.bottom
    plane = overhead.plane_at(*middle)
    return plane.height(*face.at(low)), plane.height(*face.at(high))


def _wall_line(
    spans: tuple[Span, ...], tops: dict[str, Top], low: float, high: float
) -> tuple[float, float] | None:
    middle = (low + high) / 2
    span = next((s for s in spans if s.x.inches <= middle <= (s.x + s.width).inches), None)
    if span is None:
        return None
    top = tops[span.wall]
    if span.side in ("start", "end"):
        level = height_at(top, span.along.inches)
        return level, level
    sign = 1 if span.forward else -1
    start = span.along.inches + sign * (low - span.x.inches)
    return height_at(top, start), height_at(top, start + sign * (high - low))


def _lower_of(
    low: float, high: float, ceiling: tuple[float, float], wall: tuple[float, float] | None
) -> tuple[list[Knot], bool]:
    """Return the lower of two straight lines over [low, high], and whether it is the ceiling's all along."""
    if wall is None or (wall[0] >= ceiling[0] - 0.5 and wall[1] >= ceiling[1] - 0.5):
        return [(low, ceiling[0]), (high, ceiling[1])], True
    a, b = wall[0] - ceiling[0], wall[1] - ceiling[1]
    ends = [(low, min(wall[0], ceiling[0])), (high, min(wall[1], ceiling[1]))]
    if a * b >= 0:
        return ends, False
    share = a / (a - b)
    at = low + share * (high - low)
    return [ends[0], (at, wall[0] + share * (wall[1] - wall[0])), ends[1]], False


def _openings(span: Span, wall: Wall) -> list[SurfaceOpening]:
    found = []
    if span.side not in ("left", "right"):
        return []
    for opening in wall.openings:
        ahead = opening.along - span.along if span.forward else span.along - opening.along - opening.width
        x = (span.x + ahead).inches
        low, high = max(x, span.x.inches), min(x + opening.width.inches, (span.x + span.width).inches)
        if high - low > _PLAY:
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


def _backing(span: Span, wall: Wall, outline: list[Knot]) -> list[Backing]:
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
    plates = _HALF_STUD * 2 * wall.kind.plates_above
    return top if reach >= height_at(wall.top, along) - plates - _HALF_STUD else reach


def _bar(kind: str, x: float, low: float, high: float) -> Backing:
    return Backing(
        kind=kind, x=from_inches(x), width=Length(96), y_low=from_inches(low), y_high=from_inches(high)
    )
