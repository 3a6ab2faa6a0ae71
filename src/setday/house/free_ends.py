"""Walls that end free in a space, and what stands ahead of them: where a partition stops short."""

from dataclasses import dataclass

from shapely import Polygon
from shapely.geometry import LineString

from setday.house.placing import PlacedWall, from_inches
from setday.measure import Length

__all__ = ["FreeEnd", "free_ends"]

_BEYOND = 1.0
"""How far past its end a wall's tip is looked for in a space [in]."""
_FAR = 1e5


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeEnd:
    """A wall's end that meets nothing: how far ahead the next wall's near face stands."""

    wall: PlacedWall
    at_start: bool
    ahead: str
    gap: Length

    def __str__(self) -> str:
        end = "starts" if self.at_start else "ends"
        return (
            f"wall '{self.wall.name}' (line {self.wall.typed.where.line}) {end} {self.gap} short of "
            f"wall '{self.ahead}'"
        )


def free_ends(space: Polygon, walls: tuple[PlacedWall, ...]) -> tuple[FreeEnd, ...]:
    """Return the free wall ends in a space, those with the narrowest gap first.

    Parameters
    ----------
    space : Polygon
        On the plan [in].
    walls : tuple of PlacedWall
    """
    found = [
        end
        for wall in walls
        for at_start in (True, False)
        if not any(joint.at_start == at_start for joint in wall.joints)
        and (end := _free_end(wall, space, walls, at_start=at_start))
    ]
    return tuple(sorted(found, key=lambda end: (end.gap, end.wall.name)))


def _free_end(
    wall: PlacedWall, space: Polygon, walls: tuple[PlacedWall, ...], *, at_start: bool
) -> FreeEnd | None:
    tip = 0.0 if at_start else wall.length
    on = -1.0 if at_start else 1.0
    past = LineString([wall.at(tip + on * _BEYOND, -wall.half), wall.at(tip + on * _BEYOND, wall.half)])
    if not space.intersects(past):
        return None
    way = Polygon(
        [
            wall.at(tip, -wall.half),
            wall.at(tip + on * _FAR, -wall.half),
            wall.at(tip + on * _FAR, wall.half),
            wall.at(tip, wall.half),
        ]
    )
    edge = LineString([wall.at(tip, -wall.half), wall.at(tip, wall.half)])
    ahead = [
        (edge.distance(part), other.name)
        for other in walls
        if other.name != wall.name and not (part := _body(other).intersection(way)).is_empty
    ]
    if not ahead:
        return None
    gap, name = min(ahead)
    return FreeEnd(wall=wall, at_start=at_start, ahead=name, gap=from_inches(gap))


def _body(wall: PlacedWall) -> Polygon:
    low, high = min(0.0, wall.frame_start), max(wall.length, wall.frame_end)
    return Polygon(
        [
            wall.at(low, -wall.half),
            wall.at(high, -wall.half),
            wall.at(high, wall.half),
            wall.at(low, wall.half),
        ]
    )
