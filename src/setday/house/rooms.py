"""Rooms found from the walls: the spaces that framing encloses."""

from dataclasses import dataclass
from itertools import pairwise

from shapely import Point as ShapelyPoint
from shapely import Polygon, box, unary_union
from shapely.geometry import LineString, MultiPolygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from setday.findings import Finding, Severity
from setday.house.description import HouseDescription, TypedRoom
from setday.house.free_ends import FreeEnd, free_ends
from setday.house.placing import PlacedWall, from_inches, plan_point

__all__ = ["FoundRoom", "find_rooms", "footprint_of"]

_GRID = 1 / 64
_SLIVER = 144.0
"""Enclosed spaces smaller than this are chases or play between walls, not rooms [in2] (our own)."""
_WIDEST_LEAK = 240
_MOST_ENDS = 4
"""Free wall ends named in one finding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundRoom:
    """A named space, in inches on the plan."""

    typed: TypedRoom
    space: Polygon


def footprint_of(walls: tuple[PlacedWall, ...]) -> BaseGeometry:
    """Return the area of the plan that wall framing stands on [in]."""
    bodies: list[Polygon] = [_body(wall) for wall in walls]
    by_name = {wall.name: wall for wall in walls}
    bodies += [_corner(wall, by_name[j.meets]) for wall in walls for j in wall.joints if j.corner]
    return unary_union(bodies, grid_size=_GRID)


def find_rooms(
    description: HouseDescription, footprint: BaseGeometry, walls: tuple[PlacedWall, ...]
) -> tuple[tuple[FoundRoom, ...], tuple[Finding, ...]]:
    """Give every enclosed space its name.

    Returns
    -------
    rooms : tuple of FoundRoom
        In the order written.
    findings : tuple of Finding
        Rooms that leak, share a space or stand in a wall; spaces without a name.
    """
    spaces = _spaces(footprint)
    findings: list[Finding] = []
    owner: dict[int, TypedRoom] = {}
    rooms = []
    for typed in description.rooms:
        point = ShapelyPoint(typed.at.x.inches, typed.at.y.inches)
        index = next((n for n, space in enumerate(spaces) if space.contains(point)), None)
        if index is None:
            findings.append(_nowhere(typed, point, footprint))
        elif index in owner:
            findings.append(_shared(typed, owner[index], free_ends(spaces[index], walls)))
        else:
            owner[index] = typed
            rooms.append(FoundRoom(typed=typed, space=spaces[index]))
    findings += [_nameless(space, description) for n, space in enumerate(spaces) if n not in owner]
    return tuple(rooms), tuple(findings)


def _body(wall: PlacedWall) -> Polygon:
    low, high = 0.0, wall.length
    for joint in wall.joints:
        if joint.at_start:
            low = joint.center
        else:
            high = joint.center
    half = wall.half
    return Polygon([wall.at(low, -half), wall.at(high, -half), wall.at(high, half), wall.at(low, half)])


def _corner(wall: PlacedWall, other: PlacedWall) -> BaseGeometry:
    reach = 4 * (wall.half + other.half)
    joint = next(j for j in wall.joints if j.meets == other.name)
    return _strip(wall, joint.center, reach).intersection(
        _strip(other, joint.along_other, reach), grid_size=_GRID
    )


def _strip(wall: PlacedWall, along: float, reach: float) -> Polygon:
    ends = ((along - reach, -1), (along + reach, -1), (along + reach, 1), (along - reach, 1))
    return Polygon([wall.at(t, side * wall.half) for t, side in ends])


def _spaces(footprint: BaseGeometry) -> list[Polygon]:
    filled = unary_union([Polygon(part.exterior) for part in _parts(footprint)], grid_size=_GRID)
    inside = filled.difference(footprint, grid_size=_GRID)
    spaces = [part for part in _parts(inside) if part.area >= _SLIVER]
    return sorted(spaces, key=lambda p: (p.bounds[1], p.bounds[0]))


def _parts(shape: BaseGeometry) -> list[Polygon]:
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    if isinstance(shape, MultiPolygon):
        return list(shape.geoms)
    return [part for part in getattr(shape, "geoms", ()) if isinstance(part, Polygon)]


def _nowhere(typed: TypedRoom, point: ShapelyPoint, footprint: BaseGeometry) -> Finding:
    if footprint.intersects(point):
        return _room_finding(
            typed,
            "house.room-point",
            f"its point {typed.at} lies in a wall.",
            expected="a point in the open floor of the room.",
            do="Move the point a few feet into the room.",
        )
    leak = _leak(point, footprint)
    if leak is None:
        return _room_finding(
            typed,
            "house.room-point",
            f"its point {typed.at} lies outside the walls.",
            expected="a point inside the room.",
            do="Check the point against the plan, or write the missing walls.",
        )
    return _room_finding(
        typed,
        "house.room-leaks",
        f"its walls do not close: there is a gap of about {from_inches(leak[2])} "
        f"near {plan_point(leak[0], leak[1])}.",
        expected="walls that meet all the way round.",
        do="Check the ends of the walls near that point.",
    )


def _leak(point: ShapelyPoint, footprint: BaseGeometry) -> tuple[float, float, float] | None:
    """Return the widest gap that must be closed before `point` is enclosed: x, y, width [in]."""
    low, high = 0, _WIDEST_LEAK
    if not _encloses(footprint, point, high):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        if _encloses(footprint, point, middle):
            high = middle
        else:
            low = middle
    closed = footprint.buffer(high / 2, join_style="mitre").buffer(-high / 2, join_style="mitre")
    patches = [part for part in _parts(closed.difference(footprint)) if part.area > 1.0]
    if not patches:
        return (point.x, point.y, float(high))
    room = _room_around(footprint.buffer(high / 2, join_style="mitre"), point)
    nearest = min(patches, key=lambda patch: _reach(patch, room, point, high))
    spot = nearest.centroid
    return (spot.x, spot.y, float(high))


def _reach(patch: Polygon, room: Polygon | None, point: ShapelyPoint, width: float) -> tuple[float, float]:
    near = room.buffer(width) if room is not None else box(*point.buffer(12).bounds)
    touches = 0.0 if near.intersects(patch) else 1.0
    _, spot = nearest_points(point, patch)
    shortest = min(LineString([a, b]).length for a, b in _sides(patch))
    return (touches, abs(shortest - width) + spot.distance(point) / 1000)


def _sides(patch: Polygon) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    corners = list(patch.exterior.coords)
    return list(pairwise(corners))


def _encloses(footprint: BaseGeometry, point: ShapelyPoint, gap: int) -> bool:
    grown = footprint.buffer(gap / 2, join_style="mitre")
    return grown.intersects(point) or _room_around(grown, point) is not None


def _room_around(grown: BaseGeometry, point: ShapelyPoint) -> Polygon | None:
    holes = [Polygon(ring) for part in _parts(grown) for ring in part.interiors]
    return next((hole for hole in holes if hole.contains(point)), None)


def _shared(typed: TypedRoom, other: TypedRoom, ends: tuple[FreeEnd, ...]) -> Finding:
    found = f"it and room '{other.name}' (line {other.where.line}) are one space with no wall between"
    do = "Name the space once, like 'kitchen and living', or write the wall between them."
    if ends:
        more = f"; and {len(ends) - _MOST_ENDS} more" if len(ends) > _MOST_ENDS else ""
        found += f": {'; '.join(str(end) for end in ends[:_MOST_ENDS])}{more}"
        first = ends[0]
        do = (
            f"Bring the {'start' if first.at_start else 'end'} of '{first.wall.name}' to '{first.ahead}' if "
            f"it should close there; otherwise name the space once, or write the wall between them."
        )
    return _room_finding(typed, "house.rooms-share", f"{found}.", expected="each space named once.", do=do)


def _nameless(space: Polygon, description: HouseDescription) -> Finding:
    spot = space.representative_point()
    return Finding(
        rule="house.space-without-name",
        about="the plan",
        found=f"a space of {space.area / 144:.1f} ft2 around {plan_point(spot.x, spot.y)} has no name.",
        expected="a name for every room, or a chase that gets no boards.",
        do=f"If it is a room, write it with at: [{from_inches(spot.x)}, {from_inches(spot.y)}].",
        severity=Severity.ASK,
        where=description.rooms[-1].where if description.rooms else description.where,
    )


def _room_finding(typed: TypedRoom, rule: str, found: str, *, expected: str, do: str) -> Finding:
    return Finding(
        rule=rule, about=f"room '{typed.name}'", found=found, expected=expected, do=do, where=typed.where
    )
