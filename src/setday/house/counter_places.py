"""Counters put on the surfaces they stand against."""

from setday.findings import Finding
from setday.house.counters import Counter, TypedCounter
from setday.house.description import HouseDescription
from setday.house.model import Surface
from setday.house.placing import PlacedWall
from setday.house.stretches import stretch_finding, stretch_on
from setday.measure import ZERO

__all__ = ["place_counters"]


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
    stretch = stretch_on(typed, surfaces, walls)
    if isinstance(stretch, Finding):
        return stretch
    return Counter(typed=typed, surface=stretch.surface.id, x=max(stretch.x, ZERO))


def _no_room(typed: TypedCounter, rooms: list[str]) -> Finding:
    return stretch_finding(
        typed, f"there is no room '{typed.room}'.", f"one of: {', '.join(rooms)}.", "Correct its name."
    )
