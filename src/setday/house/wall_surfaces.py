"""Wall surfaces: the face of a room, its outline, openings and backing."""

from setday.house.backing import backing_of, openings_on
from setday.house.ceilings import Overhead
from setday.house.faces import Face
from setday.house.model import Surface, SurfaceKind, Wall
from setday.house.placing import PlacedWall, from_inches
from setday.house.profile import outline_of
from setday.house.rooms import FoundRoom
from setday.house.spans import spans_of
from setday.measure import Length

__all__ = ["surface_of"]


def surface_of(
    face: Face,
    room: FoundRoom,
    overhead: Overhead,
    walls: tuple[tuple[PlacedWall, Wall], ...],
    surface_id: str,
    label: str,
) -> Surface | None:
    """Return the surface on one face of a room, or None where nothing of it is left to cover."""
    spans = spans_of(face, walls)
    outline, meets_ceiling = outline_of(face, overhead, spans, walls)
    if len(outline) < 3:
        return None
    framed = {wall.name: wall for _, wall in walls}
    backing = [b for span in spans for b in backing_of(span, framed[span.wall], outline)]
    spacing = max((framed[span.wall].spacing for span in spans), default=Length(16 * 64))
    return Surface(
        id=surface_id,
        label=label,
        room=room.typed.name,
        kind=SurfaceKind.WALL,
        facing=face.facing,
        outline=tuple((from_inches(x), from_inches(y)) for x, y in outline),
        openings=tuple(o for span in spans for o in openings_on(span, framed[span.wall])),
        wet=(),
        backing=tuple(sorted(backing, key=lambda b: (b.x, b.y_low))),
        member_spacing=spacing,
        spans=spans,
        top_meets_ceiling=meets_ceiling,
        plan_origin=face.left,
        plan_x=face.direction,
        plan_y=(0.0, 0.0),
    )
