"""From a description to a house, with every finding on the way."""

from collections import Counter
from dataclasses import dataclass, replace
from typing import Any

from shapely import Polygon
from shapely.geometry import MultiPolygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from setday.findings import Finding, Severity, in_order
from setday.house.above import ceiling_surfaces
from setday.house.box_size import BoxSize, usual_box
from setday.house.ceilings import Overhead, overheads
from setday.house.checks import check_doors, check_names, check_outside
from setday.house.counter_places import place_counters
from setday.house.description import HouseDescription, Point
from setday.house.faces import room_faces, tidy
from setday.house.framing import frame_wall
from setday.house.heights import check_heights
from setday.house.model import House, Opening, Room, Surface, Wall
from setday.house.openings import place_openings
from setday.house.placing import PlacedWall, from_inches, place_walls, plan_point
from setday.house.rooms import FoundRoom, find_rooms, footprint_of
from setday.house.rulebook import FramingHabits, usual_habits
from setday.house.standing import Surroundings, place_devices
from setday.house.uprights import layout_centers
from setday.house.wall_surfaces import surface_of
from setday.house.wall_top import wall_top
from setday.house.wet import place_wets
from setday.house.wired import check_devices, wired, wiring_of
from setday.measure import Area, Length

__all__ = ["Built", "build_house"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A house, or None where findings of severity "problem" stand in the way; and all findings."""

    house: House | None
    findings: tuple[Finding, ...]


def build_house(
    description: HouseDescription, *, habits: FramingHabits | None = None, boxes: BoxSize | None = None
) -> Built:
    """Derive walls, framing, rooms and surfaces, and check what was written.

    Parameters
    ----------
    description : HouseDescription
    habits : FramingHabits or None
        How walls are framed where nothing is written; None takes the usual ones.
    boxes : BoxSize or None
        How large the boxes of devices are; None takes the usual size.

    Returns
    -------
    Built
        Everything found is listed, however much of it there is; the house is None where any of it is a
        problem.
    """
    findings: list[Finding] = list(check_names(description))
    if not description.walls:
        return Built(house=None, findings=in_order([*findings, _no_walls(description)]))
    placed, found = place_walls(description)
    findings += found
    openings, found = place_openings(description, placed)
    findings += found
    footprint = footprint_of(placed)
    rooms, found = find_rooms(description, footprint, placed)
    findings += found
    over, found = overheads(description, rooms)
    findings += [*found, *check_outside(description, footprint)]
    walls, changes = _walls(description, placed, openings, habits=habits or usual_habits())
    findings += changes
    dry = _surfaces(rooms, over, placed, walls, footprint)
    surfaces, found = place_wets(dry, description, placed)
    findings += [*found, *check_doors(description, surfaces), *check_heights(over, surfaces, placed)]
    around = Surroundings(
        description=description,
        placed=placed,
        walls=walls,
        surfaces=surfaces,
        rooms=rooms,
        over=over,
        boxes=boxes or usual_box(),
    )
    electrical, asked = _electrical(around, footprint)
    ordered = in_order([*findings, *asked])
    if any(f.severity is Severity.PROBLEM for f in ordered):
        return Built(house=None, findings=ordered)
    house = _house(description, walls, rooms, surfaces, footprint)
    return Built(house=replace(house, **electrical), findings=ordered)


def _electrical(around: Surroundings, footprint: BaseGeometry) -> tuple[dict[str, Any], list[Finding]]:
    """Return the devices, circuits and wiring of a house, by the names of its fields."""
    standing, off_place = place_devices(around)
    devices, circuits, astray = wired(around.description, standing)
    wiring, unknown = wiring_of(around.description, footprint)
    counters, off_wall = place_counters(around.description, around.surfaces, around.placed)
    findings = [
        *off_place,
        *check_devices(around.description, standing, boxes=around.boxes),
        *astray,
        *unknown,
        *off_wall,
    ]
    derived = {"devices": devices, "circuits": circuits, "wiring": wiring, "counters": counters}
    return {**derived, "boxes": around.boxes}, findings


def _walls(
    description: HouseDescription,
    placed: tuple[PlacedWall, ...],
    openings: dict[str, tuple[Opening, ...]],
    *,
    habits: FramingHabits,
) -> tuple[tuple[Wall, ...], list[Finding]]:
    by_name = {wall.name: wall for wall in placed}
    typed = {opening.name: opening for opening in description.openings}
    walls: list[Wall] = []
    findings: list[Finding] = []
    for wall in placed:
        members, found = frame_wall(wall, openings[wall.name], typed, by_name, habits=habits)
        findings += found
        walls.append(
            Wall(
                name=wall.name,
                kind=wall.kind,
                start=plan_point(*wall.at(wall.frame_start)),
                end=plan_point(*wall.at(wall.frame_end)),
                length=from_inches(wall.frame_end - wall.frame_start),
                top=wall_top(wall),
                spacing=wall.typed.spacing or wall.kind.spacing,
                openings=openings[wall.name],
                members=members,
                layout=tuple(from_inches(at) for at in layout_centers(wall)),
            )
        )
    return tuple(walls), findings


def _surfaces(
    rooms: tuple[FoundRoom, ...],
    over: dict[str, Overhead],
    placed: tuple[PlacedWall, ...],
    walls: tuple[Wall, ...],
    footprint: BaseGeometry,
) -> tuple[Surface, ...]:
    pairs = tuple(zip(placed, walls, strict=True))
    low = (footprint.bounds[0], footprint.bounds[1])
    surfaces: list[Surface] = []
    for room in rooms:
        overhead = over.get(room.typed.name)
        if overhead is None:
            continue
        count: Counter[str] = Counter()
        for face in room_faces(room.space):
            count[face.facing] += 1
            mark = f"-{count[face.facing]}" if count[face.facing] > 1 else ""
            surface_id = f"{room.typed.name}/{face.facing}{mark}"
            label = f"{room.typed.name}, {face.facing} wall{mark.replace('-', ' ')}"
            surface = surface_of(face, room, overhead, pairs, surface_id, label)
            if surface is not None:
                surfaces.append(surface)
        surfaces += ceiling_surfaces(room, overhead, low)
    return tuple(surfaces)


def _house(
    description: HouseDescription,
    walls: tuple[Wall, ...],
    rooms: tuple[FoundRoom, ...],
    surfaces: tuple[Surface, ...],
    footprint: BaseGeometry,
) -> House:
    return House(
        name=description.name,
        description=description,
        walls=walls,
        rooms=tuple(_room(room, surfaces) for room in rooms),
        surfaces=surfaces,
        footprint=_rings(footprint),
        joists_run={c.room: c.framing_runs for c in description.ceilings},
        floor_holes=description.floor_holes,
        reserves=description.reserves,
        foundation=description.foundation,
    )


def _room(room: FoundRoom, surfaces: tuple[Surface, ...]) -> Room:
    space = orient(room.space, sign=1.0)
    outline = _ring(space.exterior.coords)
    area = Area.polygon(_lengths(outline))
    holes = tuple(_ring(ring.coords) for ring in space.interiors)
    for hole in holes:
        area = area - Area.polygon(_lengths(hole))
    return Room(
        name=room.typed.name,
        use=room.typed.use,
        outline=outline,
        holes=holes,
        area=area,
        surfaces=tuple(s.id for s in surfaces if s.room == room.typed.name),
    )


def _lengths(ring: tuple[Point, ...]) -> tuple[tuple[Length, Length], ...]:
    return tuple((point.x, point.y) for point in ring)


def _ring(coords: object) -> tuple[Point, ...]:
    knots = tidy([(float(x), float(y)) for x, y in list(coords)[:-1]])  # type: ignore[call-overload]
    return tuple(plan_point(x, y) for x, y in knots)


def _rings(shape: BaseGeometry) -> tuple[tuple[Point, ...], ...]:
    parts = list(shape.geoms) if isinstance(shape, MultiPolygon) else [shape]
    whole = [part for part in parts if isinstance(part, Polygon)]
    outer = tuple(_ring(part.exterior.coords) for part in whole)
    inner = tuple(_ring(ring.coords) for part in whole for ring in part.interiors)
    return outer + inner


def _no_walls(description: HouseDescription) -> Finding:
    return Finding(
        rule="house.no-walls",
        about="the house",
        found="it has no walls.",
        expected="walls by points, or by walking round.",
        do="Write the outside walls first; docs/house-file.md shows how.",
        where=description.where,
    )
