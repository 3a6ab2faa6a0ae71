"""Stretches along a wall as seen in one room: which surface they are on, and where on it."""

from dataclasses import dataclass
from math import hypot

from setday.findings import Finding
from setday.house.counters import TypedCounter
from setday.house.description import TypedWet
from setday.house.model import Surface, SurfaceKind
from setday.house.placing import PlacedWall
from setday.measure import Length

__all__ = ["Stretch", "left_end", "stretch_finding", "stretch_on"]

_COMPASS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}
_BESIDE = 12.0
"""An end of a surface this near a wall's centre line touches that wall [in]: no wall is two feet thick."""
_PLAY = Length(8)
"""A stretch may reach so far past its surface: what a tape is out by; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a surface: from `x` on, which may be a little before its left end."""

    surface: Surface
    x: Length


def stretch_on(
    typed: TypedWet | TypedCounter, surfaces: tuple[Surface, ...], walls: dict[str, PlacedWall]
) -> Stretch | Finding:
    """Return where a stretch that is measured along a wall lies, or why that cannot be told.

    Parameters
    ----------
    typed : TypedWet or TypedCounter
    surfaces : tuple of Surface
    walls : dict
        Walls on the plan, by name.
    """
    in_room = [s for s in surfaces if s.room == typed.room and s.kind is SurfaceKind.WALL]
    faces = [s for s in in_room if any(span.wall == typed.wall for span in s.spans)]
    if not faces:
        known = sorted({span.wall for s in in_room for span in s.spans})
        return stretch_finding(
            typed,
            f"wall '{typed.wall}' shows no face in room '{typed.room}'.",
            f"one of the walls around it: {', '.join(known)}.",
            "Correct the wall or the room.",
        )
    surface = max(faces, key=lambda s: s.width)
    at_left = left_end(typed.measured_from, surface, walls)
    if at_left is None:
        return stretch_finding(
            typed,
            f"'{typed.measured_from}' names no end of that wall as seen in room '{typed.room}'.",
            "a compass word for one of its ends, or the wall that stands there.",
            "Write the end the tape was held to.",
        )
    x = typed.distance if at_left else surface.width - typed.distance - typed.width
    if x < -_PLAY or x + typed.width > surface.width + _PLAY:
        return stretch_finding(
            typed,
            f"it reaches from {x} to {x + typed.width} on a surface {surface.width} wide.",
            "a stretch on the surface.",
            "Check its distance and width.",
        )
    return Stretch(surface=surface, x=x)


def stretch_finding(typed: TypedWet | TypedCounter, found: str, expected: str, do: str) -> Finding:
    """Return what is wrong with a wet stretch or a counter."""
    wet = isinstance(typed, TypedWet)
    return Finding(
        rule="house.wet-stretch" if wet else "house.counter",
        about=f"{'wet stretch' if wet else 'counter'} '{typed.name}'",
        found=found,
        expected=expected,
        do=do,
        where=typed.where,
    )


def left_end(word: str, surface: Surface, walls: dict[str, PlacedWall]) -> bool | None:
    """Tell which end of a surface a word names: True the left, False the right, None neither."""
    ux, uy = surface.plan_x
    if word in _COMPASS:
        toward = _COMPASS[word][0] * ux + _COMPASS[word][1] * uy
        return None if abs(toward) < 0.01 else toward < 0
    wall = walls.get(word)
    if wall is None:
        return None
    ox, oy = surface.plan_origin
    width = surface.width.inches
    reach = [(_reach(wall, ox, oy), True), (_reach(wall, ox + ux * width, oy + uy * width), False)]
    near = [(distance, left) for distance, left in reach if distance <= _BESIDE]
    return min(near)[1] if near else None


def _reach(wall: PlacedWall, x: float, y: float) -> float:
    along = min(max(wall.along(x, y), 0.0), wall.length)
    px, py = wall.at(along)
    return hypot(px - x, py - y)
