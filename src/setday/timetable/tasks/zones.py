"""Zones: rooms as places of work; a closet goes with the room it is nearest to."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, hypot

from setday.house import House, Room
from setday.rules import RuleBook

__all__ = ["Zone", "zones_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """One room, or rooms too small for a crew with the room next to them.

    Parameters
    ----------
    name : str
    rooms : tuple of str
        The largest first.
    area_sqft : float
        Floor [ft2].
    holds : int
        People who can work in it at once.
    """

    name: str
    rooms: tuple[str, ...]
    area_sqft: float
    holds: int


def zones_of(house: House, *, rules: RuleBook) -> tuple[Zone, ...]:
    """Return the zones of a house, in the order of its rooms.

    A room with less floor than a crew needs goes with the largest room it opens to, or else with the
    nearest one.

    Parameters
    ----------
    house : House
    rules : RuleBook
        From `timetable_rules`.

    Notes
    -----
    How much floor a person takes is common practice, no source; the instructor overrides what a place holds.
    """
    least = rules.number("timetable.zone_least_sqft")
    large = [room for room in house.rooms if room.area.sqft >= least] or list(house.rooms)
    joined: dict[str, list[Room]] = {room.name: [room] for room in large}
    for room in house.rooms:
        if room.name not in joined:
            joined[_beside(room, large, house).name].append(room)
    each = rules.number("timetable.floor_per_person_sqft")
    return tuple(_zone(own, each) for own in joined.values())


def _zone(rooms: list[Room], each_sqft: float) -> Zone:
    names = tuple(room.name for room in rooms)
    area = sum(room.area.sqft for room in rooms)
    head = ", ".join(names[:-1])
    return Zone(
        name=f"{head} and {names[-1]}" if head else names[0],
        rooms=names,
        area_sqft=area,
        holds=max(1, floor(area / each_sqft)),
    )


def _beside(room: Room, others: Sequence[Room], house: House) -> Room:
    """Return the largest of the rooms that `room` opens to; the nearest where it opens to none of them."""
    own = _openings(room, house)
    reached = [other for other in others if own & _openings(other, house)]
    if reached:
        return max(reached, key=lambda other: (other.area.sqft, other.name))
    x, y = _middle(room)
    return min(others, key=lambda other: (hypot(_middle(other)[0] - x, _middle(other)[1] - y), other.name))


def _openings(room: Room, house: House) -> set[str]:
    return {
        opening.name
        for surface in house.surfaces
        if surface.room == room.name
        for opening in surface.openings
    }


def _middle(room: Room) -> tuple[float, float]:
    """Return the middle of a room's corners [in]."""
    corners = [(point.x.inches, point.y.inches) for point in room.outline]
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)
