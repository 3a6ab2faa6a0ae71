"""Wet stretches put on the surfaces they are seen on."""

from dataclasses import replace
from math import hypot

from setday.findings import Finding
from setday.house.description import HouseDescription, TypedWet
from setday.house.model import Surface, SurfaceKind, WetPatch
from setday.house.placing import PlacedWall
from setday.measure import Length

__all__ = ["left_end", "place_wets"]

_COMPASS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}
_BESIDE = 12.0
"""An end of a surface this near a wall's centre line touches that wall [in]: no wall is two feet thick."""


def place_wets(
    surfaces: tuple[Surface, ...], description: HouseDescription, walls: tuple[PlacedWall, ...]
) -> tuple[tuple[Surface, ...], tuple[Finding, ...]]:
    """Put every wet stretch on its surface.

    Returns
    -------
    surfaces : tuple of Surface
        With their wet patches.
    findings : tuple of Finding
    """
    by_name = {wall.name: wall for wall in walls}
    patches: dict[str, list[WetPatch]] = {}
    findings = []
    for typed in description.wets:
        surface = _surface_of(typed, surfaces)
        if isinstance(surface, Finding):
            findings.append(surface)
            continue
        patch = _patch(typed, surface, by_name)
        if isinstance(patch, Finding):
            findings.append(patch)
        else:
            patches.setdefault(surface.id, []).append(patch)
    placed = tuple(replace(s, wet=tuple(patches.get(s.id, ()))) for s in surfaces)
    return placed, tuple(findings)


def _surface_of(typed: TypedWet, surfaces: tuple[Surface, ...]) -> Surface | Finding:
    in_room = [s for s in surfaces if s.room == typed.room and s.kind is SurfaceKind.WALL]
    found = [s for s in in_room if any(span.wall == typed.wall for span in s.spans)]
    if found:
        return max(found, key=lambda s: s.width)
    walls = sorted({span.wall for s in in_room for span in s.spans})
    return _finding(
        typed,
        f"wall '{typed.wall}' shows no face in room '{typed.room}'.",
        f"one of the walls around it: {', '.join(walls)}.",
        "Correct the wall or the room.",
    )


def _patch(typed: TypedWet, surface: Surface, walls: dict[str, PlacedWall]) -> WetPatch | Finding:
    at_left = left_end(typed.measured_from, surface, walls)
    if at_left is None:
        return _finding(
            typed,
            f"'{typed.measured_from}' names no end of that wall as seen in room '{typed.room}'.",
            "a compass word for one of its ends, or the wall that stands there.",
            "Write the end the tape was held to.",
        )
    x = typed.distance if at_left else surface.width - typed.distance - typed.width
    if x < Length(-8) or x + typed.width > surface.width + Length(8):
        return _finding(
            typed,
            f"it reaches from {x} to {x + typed.width} on a surface {surface.width} wide.",
            "a stretch on the surface.",
            "Check its distance and width.",
        )
    if typed.top <= typed.bottom:
        return _finding(
            typed,
            f"its top at {typed.top} is not above its bottom at {typed.bottom}.",
            "a top above it.",
            "Check both.",
        )
    left = max(x, Length(0))
    top = min(typed.top, surface.height)
    return WetPatch(
        name=typed.name,
        board=typed.board,
        x=left,
        y=typed.bottom,
        w=min(x + typed.width, surface.width) - left,
        h=top - typed.bottom,
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


def _finding(typed: TypedWet, found: str, expected: str, do: str) -> Finding:
    return Finding(
        rule="house.wet-stretch",
        about=f"wet stretch '{typed.name}'",
        found=found,
        expected=expected,
        do=do,
        where=typed.where,
    )
