"""The front and the back of a house, the weather side of a wall, and the wall a bath basin stands at."""

from collections.abc import Mapping, Sequence

from setday.cable.placing.draft import Draft
from setday.cable.placing.wall_spaces import Break, wall_spaces
from setday.cable.placing.ways import OUTDOORS, Way
from setday.house import House, Room, Surface, SurfaceKind, Wall

__all__ = ["basin_of", "front_and_back", "weather_side"]


def basin_of(draft: Draft, room: Room) -> tuple[Surface, float, float]:
    """Return where a bath's basin is taken to stand: the middle of the longest wall that stays dry.

    Deeper walls come first, since drains run in them.
    """
    dry = [
        (surface, low, high) for surface in draft.walls_of(room.name) for low, high in _dry(draft, surface)
    ]
    return max(dry, key=lambda s: (_depth(draft.house, s[0]), s[2] - s[1], -dry.index(s)))


def _dry(draft: Draft, surface: Surface) -> list[Break]:
    wet = [(p.x.inches, (p.x + p.w).inches) for p in surface.wet]
    spaces = wall_spaces(draft.house, surface.room, breaks={surface.id: wet})
    return [(p.low, p.high) for space in spaces for p in space.pieces if p.surface is surface]


def _depth(house: House, surface: Surface) -> float:
    inner = [house.wall(span.wall) for span in surface.spans]
    return max((wall.kind.depth.inches for wall in inner if not wall.kind.outside), default=0.0)


def weather_side(house: House, wall: Wall) -> str:
    """Return the side of an outside wall that no room shows."""
    inner = {
        span.side
        for surface in house.surfaces
        if surface.kind is SurfaceKind.WALL
        for span in surface.spans
        if span.wall == wall.name
    }
    return next((side for side in ("right", "left") if side not in inner), "right")


def front_and_back(house: House, ways: Mapping[str, Sequence[Way]]) -> tuple[Wall | None, Wall | None]:
    """Return the outside walls at the front and the back.

    The front is the wall of the outside door with "front" in its name, else of the first outside door;
    the back is the first wall that faces the other way.

    Parameters
    ----------
    house : House
    ways : mapping
        From `ways_of`.
    """
    doors = [way.opening for each in ways.values() for way in each if way.leads_to == OUTDOORS]
    outside = [wall for wall in house.walls if wall.kind.outside]
    if not doors:
        return (outside[0] if outside else None), None
    front = _wall_of(house, min(doors, key=lambda name: ("front" not in name, doors.index(name))))
    across = [w for w in outside if w.name != front.name and _faces_away(house, w, front)]
    return front, next(iter(across), None)


def _wall_of(house: House, opening: str) -> Wall:
    return next(w for w in house.walls for o in w.openings if o.name == opening)


def _faces_away(house: House, wall: Wall, front: Wall) -> bool:
    ax, ay = _outward(house, wall)
    bx, by = _outward(house, front)
    return ax * bx + ay * by < -0.5


def _outward(house: House, wall: Wall) -> tuple[float, float]:
    run = wall.length.inches
    ux = (wall.end.x - wall.start.x).inches / run
    uy = (wall.end.y - wall.start.y).inches / run
    return (-uy, ux) if weather_side(house, wall) == "left" else (uy, -ux)
