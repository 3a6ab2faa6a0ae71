"""Where a device stands along its wall: from the end or the opening the tape was held to."""

from setday.findings import Finding
from setday.house.devices import TypedDevice
from setday.house.model import Span, Surface, Wall
from setday.house.openings import end_of
from setday.house.placing import PlacedWall, from_inches
from setday.house.stretches import left_end
from setday.measure import Length

__all__ = ["held_on_surface", "held_outdoors"]

_COMPASS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}


def held_on_surface(
    typed: TypedDevice, surface: Surface, span: Span, walls: dict[str, PlacedWall]
) -> Length | Finding:
    """Return where a device stands on a surface, or why that cannot be told.

    Parameters
    ----------
    typed : TypedDevice
    surface : Surface
    span : Span
        The stretch of its wall on that surface.
    walls : dict
        Walls on the plan, by name.
    """
    if not typed.measured_from:
        off = typed.along - span.along if span.forward else span.along - typed.along
        return span.x + off
    hole = next((each for each in surface.openings if each.name == typed.measured_from), None)
    if hole is not None:
        toward = _toward(typed.going, surface.plan_x)
        if toward is None:
            return _which_way(typed, surface.plan_x)
        return hole.x + hole.w + typed.along if toward else hole.x - typed.along
    at_left = left_end(typed.measured_from, surface, walls)
    if at_left is None:
        return _no_end(typed, f"wall '{typed.wall}' as seen in room '{typed.room}'")
    return typed.along if at_left else surface.width - typed.along


def held_outdoors(
    typed: TypedDevice, wall: PlacedWall, framed: tuple[Wall, ...], walls: dict[str, PlacedWall]
) -> Length | Finding:
    """Return where a device on the weather side stands from the start of the framing, or why not.

    Parameters
    ----------
    typed : TypedDevice
    wall : PlacedWall
        Its wall.
    framed : tuple of Wall
    walls : dict
        Walls on the plan, by name.
    """
    if not typed.measured_from:
        return typed.along
    openings = next(each for each in framed if each.name == wall.name).openings
    hole = next((each for each in openings if each.name == typed.measured_from), None)
    if hole is not None:
        toward = _toward(typed.going, (wall.ux, wall.uy))
        if toward is None:
            return _which_way(typed, (wall.ux, wall.uy))
        return hole.along + hole.width + typed.along if toward else hole.along - typed.along
    at_start = end_of(wall, typed.measured_from)
    if at_start is None and typed.measured_from in walls:
        at_start = next((j.at_start for j in wall.joints if j.meets == typed.measured_from), None)
    if at_start is None:
        return _no_end(typed, f"wall '{typed.wall}' seen from outdoors")
    start = from_inches(wall.face_start - wall.frame_start)
    end = from_inches(wall.face_end - wall.frame_start)
    return start + typed.along if at_start else end - typed.along


def _toward(way: str, direction: tuple[float, float]) -> bool | None:
    if way not in _COMPASS:
        return None
    dot = _COMPASS[way][0] * direction[0] + _COMPASS[way][1] * direction[1]
    return None if abs(dot) < 0.01 else dot > 0


def _ways(direction: tuple[float, float]) -> list[str]:
    return [way for way in _COMPASS if _toward(way, direction) is not None]


def _which_way(typed: TypedDevice, direction: tuple[float, float]) -> Finding:
    ways = _ways(direction)
    return Finding(
        rule="device.way",
        about=f"device '{typed.name}'",
        found=f"from opening '{typed.measured_from}' the tape can run two ways along wall '{typed.wall}'.",
        expected=f"the way it ran: going {' or going '.join(ways)}.",
        do="Write it like "
        + " or ".join(f"{typed.along} from {typed.measured_from} going {way}" for way in ways)
        + ".",
        where=typed.where,
    )


def _no_end(typed: TypedDevice, seen: str) -> Finding:
    return Finding(
        rule="device.from",
        about=f"device '{typed.name}'",
        found=f"'{typed.measured_from}' is neither an end nor an opening of {seen}.",
        expected="a compass word for one of its ends, the wall that stands there, or an opening of it.",
        do="Write where the tape was held.",
        where=typed.where,
    )
