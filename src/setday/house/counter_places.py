"""Counters put on the surfaces they stand against."""

from setday.findings import Finding
from setday.house.counters import Counter, TypedCounter
from setday.house.description import HouseDescription
from setday.house.model import Surface, SurfaceKind
from setday.house.placing import PlacedWall
from setday.house.wet import left_end
from setday.measure import Length

__all__ = ["place_counters"]

_PLAY = Length(8)


def place_counters(
    description: HouseDescription, surfaces: tuple[Surface, ...], walls: tuple[PlacedWall, ...]
) -> tuple[tuple[Counter, ...], tuple[Finding, ...]]:
    """Put every counter where it stands.

    Parameters
    ----------
    description : HouseDescription
    surfaces : tuple of Surface
    walls : tuple of PlacedWall

    Returns
    -------
    counters : tuple of Counter
        In the order written.
    findings : tuple of Finding
    """
    by_name = {wall.name: wall for wall in walls}
    rooms = [room.name for room in description.rooms]
    counters: list[Counter] = []
    findings: list[Finding] = []
    for typed in description.counters:
        if typed.room not in rooms:
            findings.append(_no_room(typed, rooms))
        elif not typed.wall:
            counters.append(Counter(typed=typed))
        else:
            placed = _against_wall(typed, surfaces, by_name)
            if isinstance(placed, Counter):
                counters.append(placed)
            else:
                findings.append(placed)
    return tuple(counters), tuple(findings)


def _against_wall(
    typed: TypedCounter, surfaces: tuple[Surface, ...], walls: dict[str, PlacedWall]
) -> Counter | Finding:
    in_room = [s for s in surfaces if s.room == typed.room and s.kind is SurfaceKind.WALL]
    faces = [s for s in in_room if any(span.wall == typed.wall for span in s.spans)]
    if not faces:
        known = sorted({span.wall for s in in_room for span in s.spans})
        return _finding(
            typed,
            f"wall '{typed.wall}' shows no face in room '{typed.room}'.",
            f"one of the walls around it: {', '.join(known)}.",
            "Correct the wall or the room.",
        )
    surface = max(faces, key=lambda s: s.width)
    at_left = left_end(typed.measured_from, surface, walls)
    if at_left is None:
        return _finding(
            typed,
            f"'{typed.measured_from}' names no end of that wall as seen in room '{typed.room}'.",
            "a compass word for one of its ends, or the wall that stands there.",
            "Write the end the tape was held to.",
        )
    x = typed.distance if at_left else surface.width - typed.distance - typed.width
    if x < -_PLAY or x + typed.width > surface.width + _PLAY:
        return _finding(
            typed,
            f"it reaches from {x} to {x + typed.width} on a surface {surface.width} wide.",
            "a stretch on the surface.",
            "Check its distance and width.",
        )
    return Counter(typed=typed, surface=surface.id, x=max(x, Length(0)))


def _no_room(typed: TypedCounter, rooms: list[str]) -> Finding:
    return _finding(
        typed, f"there is no room '{typed.room}'.", f"one of: {', '.join(rooms)}.", "Correct its name."
    )


def _finding(typed: TypedCounter, found: str, expected: str, do: str) -> Finding:
    return Finding(
        rule="house.counter",
        about=f"counter '{typed.name}'",
        found=found,
        expected=expected,
        do=do,
        where=typed.where,
    )
