"""Devices put where they stand: on a wall's face, on a ceiling, on the floor, outdoors."""

from dataclasses import dataclass, replace
from functools import cached_property

from shapely import Point as Spot
from shapely import Polygon

from setday.findings import Finding
from setday.house.box_size import BoxSize
from setday.house.ceilings import Overhead
from setday.house.description import HouseDescription
from setday.house.devices import Device, Mount, TypedDevice
from setday.house.held import held_on_surface, held_outdoors
from setday.house.model import Span, Surface, SurfaceKind, Wall
from setday.house.placing import PlacedWall, from_inches, plan_point
from setday.house.rooms import FoundRoom
from setday.measure import ZERO, Length

__all__ = ["Surroundings", "place_devices"]

_PLAY = 1 / 32


@dataclass(frozen=True, kw_only=True)
class Surroundings:
    """What devices stand on: everything derived before them."""

    description: HouseDescription
    placed: tuple[PlacedWall, ...]
    walls: tuple[Wall, ...]
    surfaces: tuple[Surface, ...]
    rooms: tuple[FoundRoom, ...]
    over: dict[str, Overhead]
    boxes: BoxSize

    @cached_property
    def placed_by_name(self) -> dict[str, PlacedWall]:
        """Walls on the plan, by name."""
        return {wall.name: wall for wall in self.placed}

    @cached_property
    def wall_by_name(self) -> dict[str, Wall]:
        """Framed walls, by name."""
        return {wall.name: wall for wall in self.walls}

    @cached_property
    def space(self) -> dict[str, Polygon]:
        """Rooms on the plan, by name."""
        return {room.typed.name: room.space for room in self.rooms}


def place_devices(around: Surroundings) -> tuple[tuple[Device, ...], tuple[Finding, ...]]:
    """Put every device where it stands.

    Returns
    -------
    devices : tuple of Device
        By room, then by surface as the room lists them, then from left to right; outdoors last.
    findings : tuple of Finding
    """
    standing: list[Device] = []
    findings: list[Finding] = []
    for typed in around.description.devices:
        found = _stand(typed, around)
        if isinstance(found, Device):
            standing.append(found)
        else:
            findings += found
    return _ordered(standing, around), tuple(findings)


def _ordered(devices: list[Device], around: Surroundings) -> tuple[Device, ...]:
    rooms = {room.name: n for n, room in enumerate(around.description.rooms)}
    surfaces = {surface.id: n for n, surface in enumerate(around.surfaces)}
    walls = {wall.name: n for n, wall in enumerate(around.description.walls)}

    def place(device: Device) -> tuple[int, int, int, Length, Length, str]:
        return (
            rooms.get(device.room, len(rooms)),
            surfaces.get(device.surface, len(surfaces)),
            walls.get(device.typed.wall, len(walls)),
            device.x,
            device.y,
            device.name,
        )

    return tuple(sorted(devices, key=place))


def _stand(typed: TypedDevice, around: Surroundings) -> Device | list[Finding]:
    if typed.room and typed.room not in around.space:
        return _no_room(typed, around)
    if typed.mount is not Mount.WALL:
        return _level(typed, around)
    wall = around.wall_by_name.get(typed.wall)
    if wall is None:
        return _no_wall(typed, around)
    if typed.measured_from == "end":
        typed = replace(typed, along=wall.length - typed.along, measured_from="")
    return _on_surface(typed, wall, around) if typed.room else _outdoors(typed, wall, around)


def _on_surface(typed: TypedDevice, wall: Wall, around: Surroundings) -> Device | list[Finding]:
    faces = [
        (surface, span)
        for surface in around.surfaces
        if surface.room == typed.room and surface.kind is SurfaceKind.WALL
        for span in surface.spans
        if span.wall == wall.name and typed.side in ("", span.side)
    ]
    if not faces:
        # A room without a ceiling has no faces, and a finding of its own.
        return [_no_face(typed, around)] if typed.room in around.over else []
    tried = [
        (surface, span, held_on_surface(typed, surface, span, around.placed_by_name))
        for surface, span in faces
    ]
    held = [(surface, span, at) for surface, span, at in tried if isinstance(at, Length)]
    if not held:
        return [next(at for _, _, at in tried if isinstance(at, Finding))]
    for surface, span, x in held:
        if span.x <= x <= span.x + span.width and _covers(surface, x, typed.up):
            wrong = _blocked(typed, surface, x, around.boxes) or _cornered(typed, surface, x, around.boxes)
            return wrong or _wall_device(typed, surface, span, x)
    return [_off_wall(typed, *held[0])]


def _covers(surface: Surface, x: Length, y: Length) -> bool:
    outline = Polygon([(a.inches, b.inches) for a, b in surface.outline])
    return bool(outline.buffer(_PLAY).covers(Spot(x.inches, y.inches)))


def _wall_device(typed: TypedDevice, surface: Surface, span: Span, x: Length) -> Device:
    off = x - span.x
    (ox, oy), (ux, uy) = surface.plan_origin, surface.plan_x
    along = span.along + off if span.forward else span.along - off
    return Device(
        typed=replace(typed, along=along, measured_from="", going="", side=span.side),
        surface=surface.id,
        x=x,
        y=typed.up,
        plan=plan_point(ox + ux * x.inches, oy + uy * x.inches),
        height=typed.up,
    )


def _blocked(typed: TypedDevice, surface: Surface, x: Length, box: BoxSize) -> list[Finding]:
    """Find the opening of a surface that a device reaches into."""
    for hole in surface.openings:
        if _reaches(x, typed.up, (hole.x, hole.x + hole.w, hole.y, hole.y + hole.h), box):
            return [_in_opening(typed, hole.name, hole.kind)]
    return []


def _cornered(typed: TypedDevice, surface: Surface, x: Length, box: BoxSize) -> list[Finding]:
    """Find the end of a face that half a device's box reaches past."""
    half = from_inches(box.wide() / 2)
    if _covers(surface, x - half, typed.up) and _covers(surface, x + half, typed.up):
        return []
    return [
        _finding(
            typed,
            "device.in-corner",
            "half its box is past the end of the wall as seen in the room.",
            f"a place at least {half} from the corner.",
            "Move it, or check where the tape was held: distances are to the middle of the box.",
        )
    ]


def _reaches(x: Length, y: Length, hole: tuple[Length, Length, Length, Length], box: BoxSize) -> bool:
    low_x, high_x, low_y, high_y = (each.inches for each in hole)
    half, high = box.wide() / 2, box.tall / 2
    beside = low_x - half < x.inches < high_x + half
    return beside and low_y - high < y.inches < high_y + high


def _outdoors(typed: TypedDevice, wall: Wall, around: Surroundings) -> Device | list[Finding]:
    placed = around.placed_by_name[wall.name]
    inner = {
        span.side
        for surface in around.surfaces
        if surface.kind is SurfaceKind.WALL
        for span in surface.spans
        if span.wall == wall.name
    }
    open_sides = [side for side in ("left", "right") if side not in inner]
    side = typed.side if typed.side in open_sides else "".join(open_sides[:1])
    if not side or not wall.kind.outside:
        return [_not_outdoors(typed)]
    along = held_outdoors(typed, placed, around.walls, around.placed_by_name)
    if isinstance(along, Finding):
        return [along]
    low, high = (
        from_inches(placed.face_start - placed.frame_start),
        from_inches(placed.face_end - placed.frame_start),
    )
    top = max(height for _, height in wall.top)
    if not (low <= along <= high and ZERO <= typed.up <= top):
        return [_off_outside(typed, along, low, high, top)]
    for hole in wall.openings:
        if _reaches(
            along, typed.up, (hole.along, hole.along + hole.width, hole.sill, hole.head), around.boxes
        ):
            return [_in_opening(typed, hole.name, hole.kind.value)]
    out = placed.half if side == "left" else -placed.half
    return Device(
        typed=replace(typed, along=along, measured_from="", going="", side=side),
        surface="",
        x=along,
        y=typed.up,
        plan=plan_point(*placed.at(placed.frame_start + along.inches, out)),
        height=typed.up,
    )


def _level(typed: TypedDevice, around: Surroundings) -> Device | list[Finding]:
    """Put a device on a ceiling or on the floor."""
    if not typed.room:
        return [_finding(typed, "device.room", "it names no room.", "the room it is in.", "Write its room.")]
    space = around.space[typed.room]
    if typed.point is None:
        middle = space.envelope.centroid
        middle = middle if space.covers(middle) else space.representative_point()
        typed = replace(typed, point=plan_point(middle.x, middle.y))
    point = typed.point
    assert point is not None
    x, y = point.x.inches, point.y.inches
    if not space.covers(Spot(x, y)):
        return [
            _finding(
                typed,
                "device.outside-room",
                f"its place {point} is not in room '{typed.room}'.",
                "a place over the room's floor.",
                "Check both distances, or the name of the room.",
            )
        ]
    if typed.mount is Mount.FLOOR:
        return Device(typed=typed, surface="", x=ZERO, y=ZERO, plan=point, height=typed.up)
    return _on_ceiling(typed, x, y, around)


def _on_ceiling(typed: TypedDevice, x: float, y: float, around: Surroundings) -> Device | list[Finding]:
    over = around.over.get(typed.room)
    if over is None:
        return []  # The room's ceiling has a finding of its own.
    drop = over.drop_at(x, y)
    height = drop.bottom if drop else over.plane_at(x, y).height(x, y)
    assert typed.point is not None
    for surface in around.surfaces:
        if surface.room != typed.room or surface.kind is not SurfaceKind.CEILING:
            continue
        sx, sy = _on_surface_of(surface, x, y)
        if not _covers(surface, sx, sy) or (
            drop and not surface.id.startswith(f"{typed.room}/{drop.typed.name}")
        ):
            continue
        for hole in surface.openings:
            if _reaches(sx, sy, (hole.x, hole.x + hole.w, hole.y, hole.y + hole.h), around.boxes):
                return [_in_opening(typed, hole.name, hole.kind)]
        return Device(
            typed=typed, surface=surface.id, x=sx, y=sy, plan=typed.point, height=from_inches(height)
        )
    return [
        _finding(
            typed,
            "device.off-ceiling",
            f"no ceiling is over {typed.point}.",
            "a place under a ceiling of the room.",
            "Move it.",
        )
    ]


def _on_surface_of(surface: Surface, x: float, y: float) -> tuple[Length, Length]:
    dx, dy = x - surface.plan_origin[0], y - surface.plan_origin[1]
    found = []
    for ax, ay in (surface.plan_x, surface.plan_y):
        found.append(from_inches((dx * ax + dy * ay) / (ax * ax + ay * ay)))
    return found[0], found[1]


def _finding(typed: TypedDevice, rule: str, found: str, expected: str, do: str) -> Finding:
    return Finding(
        rule=rule, about=f"device '{typed.name}'", found=found, expected=expected, do=do, where=typed.where
    )


def _no_room(typed: TypedDevice, around: Surroundings) -> list[Finding]:
    known = [room.name for room in around.description.rooms]
    if typed.room in known:
        return []  # The room is written, but has a finding of its own.
    return [
        _finding(
            typed,
            "device.room",
            f"there is no room '{typed.room}'.",
            f"one of: {', '.join(known)}; or outdoors.",
            "Correct the name of the room.",
        )
    ]


def _no_wall(typed: TypedDevice, around: Surroundings) -> list[Finding]:
    known = [wall.name for wall in around.description.walls]
    if typed.wall in known:
        return []  # The wall is written, but has a finding of its own.
    return [
        _finding(
            typed,
            "device.wall",
            f"there is no wall '{typed.wall}'." if typed.wall else "it names no wall.",
            f"one of: {', '.join(known)}.",
            "Correct the name of the wall.",
        )
    ]


def _no_face(typed: TypedDevice, around: Surroundings) -> Finding:
    in_room = [s for s in around.surfaces if s.room == typed.room and s.kind is SurfaceKind.WALL]
    walls = sorted({span.wall for surface in in_room for span in surface.spans})
    side = f"the {typed.side} side of " if typed.side else ""
    return _finding(
        typed,
        "device.wall-room",
        f"{side}wall '{typed.wall}' shows no face in room '{typed.room}'.",
        f"one of the walls around it: {', '.join(walls)}.",
        "Correct the wall or the room.",
    )


def _off_wall(typed: TypedDevice, surface: Surface, span: Span, x: Length) -> Finding:
    if span.x <= x <= span.x + span.width:
        return _finding(
            typed,
            "device.off-wall",
            f"it is {typed.up} up, and the face it is on does not reach there.",
            f"a height from the subfloor to {surface.height}.",
            "Check how far up it is.",
        )
    past = span.x - x if x < span.x else x - span.x - span.width
    return _finding(
        typed,
        "device.off-wall",
        f"it is {past} past the end of wall '{typed.wall}' as seen in room '{typed.room}'.",
        f"a place on the {span.width} that shows there.",
        "Check the distance and where the tape was held.",
    )


def _off_outside(typed: TypedDevice, along: Length, low: Length, high: Length, top: Length) -> Finding:
    if low <= along <= high:
        found, expected = f"it is {typed.up} up on a wall {top} high.", "a height on the wall."
    else:
        past = low - along if along < low else along - high
        found, expected = f"it is {past} past the end of wall '{typed.wall}'.", "a place on the wall."
    return _finding(
        typed, "device.off-wall", found, expected, "Check the distance and where the tape was held."
    )


def _not_outdoors(typed: TypedDevice) -> Finding:
    return _finding(
        typed,
        "device.not-outdoors",
        f"wall '{typed.wall}' has no weather side.",
        "an outside wall for a device outdoors.",
        "Write the room it faces, or another wall.",
    )


def _in_opening(typed: TypedDevice, name: str, kind: str) -> Finding:
    what = "hatch" if kind == "hatch" else "opening"
    return _finding(
        typed,
        "device.in-opening",
        f"its box reaches into {what} '{name}'.",
        "a place beside it.",
        "Move the device, or check where the tape was held.",
    )
