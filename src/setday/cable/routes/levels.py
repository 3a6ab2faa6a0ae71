"""How high the framing over the rooms lies at any point of the plan, and what that point lies in."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, contains_xy, prepare

from setday.cable.routes.wall_ways import WallWays
from setday.house import Axis, CeilingShape, House, Room, Side, TypedCeiling

__all__ = ["NOWHERE", "Levels", "levels_of", "under_ceiling"]

NOWHERE = -1
"""Outside of the house."""

Places = NDArray[np.float64]
Owners = NDArray[np.int64]
Slope = tuple[float, float, float]
"""Height over the plan's origin [1/64 in], and its growth with each step to the east and the north."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """Rooms and walls of the plan; an owner is a room's place in `rooms`, or beyond them a wall's.

    Parameters
    ----------
    rooms : tuple of Polygon
    slopes : tuple of tuples of Slope
        The planes of the ceiling framing, by room.
    walls : tuple of WallWays
    """

    rooms: tuple[Polygon, ...]
    slopes: tuple[tuple[Slope, ...], ...]
    walls: tuple[WallWays, ...]

    def owners(self, x: Places, y: Places) -> Owners:
        """Return for every point the room or wall it lies in, or `NOWHERE`."""
        owner = np.full(x.shape, NOWHERE, dtype=np.int64)
        for n, ways in enumerate(self.walls):
            along, aside = _on_wall(ways, x, y)
            inside = (np.abs(aside) <= ways.wall.kind.depth.sixtyfourths / 2) & (along >= 0)
            owner[inside & (along <= ways.run) & (owner == NOWHERE)] = len(self.rooms) + n
        for n, room in enumerate(self.rooms):
            owner[contains_xy(room, x, y)] = n
        return owner

    def height(self, owner: Owners, x: Places, y: Places) -> Places:
        """Return the level of each point as its owner's framing gives it [1/64 in]."""
        level = np.zeros(x.shape, dtype=np.float64)
        for which in np.unique(owner[owner != NOWHERE]):
            mine = owner == which
            level[mine] = self._height_of(int(which), x[mine], y[mine])
        return level

    def _height_of(self, owner: int, x: Places, y: Places) -> Places:
        if owner < len(self.rooms):
            every = [base + east * x + north * y for base, east, north in self.slopes[owner]]
            return np.asarray(np.minimum.reduce(every))
        ways = self.walls[owner - len(self.rooms)]
        along, _ = _on_wall(ways, x, y)
        top = ways.wall.top
        return np.interp(along, [a.sixtyfourths for a, _ in top], [h.sixtyfourths for _, h in top])


def _on_wall(ways: WallWays, x: Places, y: Places) -> tuple[Places, Places]:
    x0, y0 = ways.wall.start.x.sixtyfourths, ways.wall.start.y.sixtyfourths
    dx, dy = ways.wall.end.x.sixtyfourths - x0, ways.wall.end.y.sixtyfourths - y0
    long = hypot(dx, dy)
    ux, uy = dx / long, dy / long
    return (x - x0) * ux + (y - y0) * uy, (y - y0) * ux - (x - x0) * uy


def levels_of(house: House, walls: Sequence[WallWays]) -> Levels:
    """Return the levels over a house."""
    typed = {ceiling.room: ceiling for ceiling in house.description.ceilings}
    rooms = tuple(_polygon(room) for room in house.rooms)
    for room in rooms:
        prepare(room)
    return Levels(
        rooms=rooms,
        slopes=tuple(under_ceiling(typed.get(room.name), room) for room in house.rooms),
        walls=tuple(walls),
    )


def _polygon(room: Room) -> Polygon:
    def ring(points: Sequence[object]) -> list[tuple[int, int]]:
        return [(p.x.sixtyfourths, p.y.sixtyfourths) for p in points]  # type: ignore[attr-defined]

    return Polygon(ring(room.outline), [ring(hole) for hole in room.holes])


def under_ceiling(typed: TypedCeiling | None, room: Room) -> tuple[Slope, ...]:
    """Return the planes of a room's ceiling framing; over a point the lowest of them counts.

    Parameters
    ----------
    typed : TypedCeiling or None
        None where a room has no ceiling.
    room : Room
    """
    height = float(typed.height.sixtyfourths) if typed else 0.0
    if typed is None or typed.shape is CeilingShape.FLAT:
        return ((height, 0.0, 0.0),)
    rise = typed.rise.inches / 12
    xs, ys = [p.x.sixtyfourths for p in room.outline], [p.y.sixtyfourths for p in room.outline]
    if typed.shape is CeilingShape.SLOPE:
        return (
            {
                Side.WEST: (height - rise * min(xs), rise, 0.0),
                Side.EAST: (height + rise * max(xs), -rise, 0.0),
                Side.SOUTH: (height - rise * min(ys), 0.0, rise),
            }.get(typed.low_side or Side.NORTH, (height + rise * max(ys), 0.0, -rise)),
        )
    at = float(typed.ridge_at.sixtyfourths) if typed.ridge_at else 0.0
    east_west = typed.ridge_runs is Axis.EAST_WEST
    across = ys if east_west else xs
    ridge = height + rise * max(at - min(across), max(across) - at)
    sides = ((ridge - rise * at, rise), (ridge + rise * at, -rise))
    return tuple((base, 0.0, slope) if east_west else (base, slope, 0.0) for base, slope in sides)
