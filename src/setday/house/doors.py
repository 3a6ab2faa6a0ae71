"""How a door is taken to be hung, where the house file does not say."""

from dataclasses import dataclass

from shapely import Point as Spot
from shapely import Polygon

from setday.house.model import House, Opening, Room, Surface, SurfaceKind, Wall

__all__ = ["Hung", "hung"]

_KEPT_CLEAR = ("closet", "hall", "stair")
"""Uses of rooms that doors swing out of, the strictest first."""
_STEP = 2.0
"""How far off the face of a wall is surely in the room beside it [in]; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """How a door hangs.

    Parameters
    ----------
    side : str
        Side of the wall it swings to, "left" or "right" looking from the wall's start to its end.
    hinge_at_start : bool
        True when its hinges are at the end of the opening that is nearer to the wall's start.
    """

    side: str
    hinge_at_start: bool


def hung(house: House, wall: Wall, opening: Opening) -> Hung:
    """Return how a door is taken to be hung: common practice, no source.

    It swings out of a closet, out of a hall or a stair into the room beside it, else into the smaller room;
    its hinges are toward the nearer corner of the room it swings into, so that it opens against the wall.

    Parameters
    ----------
    house : House
    wall : Wall
        The wall it is in.
    opening : Opening
    """
    side = _swings_to({side: _room_beside(house, wall, opening, side) for side in ("left", "right")})
    face = _face(house, wall, opening, side)
    if face is None:
        return Hung(side=side, hinge_at_start=opening.along <= wall.length - opening.along - opening.width)
    seen = next(each for each in face.openings if each.name == opening.name)
    at_left = seen.x <= face.width - seen.x - seen.w
    forward = next(span.forward for span in face.spans if span.wall == wall.name)
    return Hung(side=side, hinge_at_start=at_left == forward)


def _face(house: House, wall: Wall, opening: Opening, side: str) -> Surface | None:
    return next(
        (
            surface
            for surface in house.surfaces
            if surface.kind is SurfaceKind.WALL
            and any(span.wall == wall.name and span.side == side for span in surface.spans)
            and any(each.name == opening.name for each in surface.openings)
        ),
        None,
    )


def _room_beside(house: House, wall: Wall, opening: Opening, side: str) -> Room | None:
    """Return the room that a step off the middle of an opening leads into."""
    x, y, run = wall.start.x.inches, wall.start.y.inches, wall.length.inches
    ux, uy = (wall.end.x.inches - x) / run, (wall.end.y.inches - y) / run
    along = (opening.along + opening.width // 2).inches
    off = (wall.kind.depth.inches / 2 + _STEP) * (1 if side == "left" else -1)
    spot = Spot(x + ux * along - uy * off, y + uy * along + ux * off)
    return next((room for room in house.rooms if _floor(room).contains(spot)), None)


def _floor(room: Room) -> Polygon:
    rings = [[(p.x.inches, p.y.inches) for p in ring] for ring in (room.outline, *room.holes)]
    return Polygon(rings[0], rings[1:])


def _swings_to(rooms: dict[str, Room | None]) -> str:
    left, right = rooms["left"], rooms["right"]
    if left is None or right is None:
        return "left" if right is None else "right"
    for use in _KEPT_CLEAR:
        if (left.use == use) != (right.use == use):
            return "right" if left.use == use else "left"
    return "left" if left.area <= right.area else "right"
