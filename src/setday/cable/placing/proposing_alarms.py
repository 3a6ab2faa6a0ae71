"""Alarms proposed: in every bedroom and outside each sleeping area."""

from math import hypot

from setday.cable.placing.ceiling_places import floor_of, middle_of
from setday.cable.placing.draft import Draft
from setday.cable.rooms import RoomKind
from setday.house import DeviceKind, Room

__all__ = ["outside_sleeping", "propose_alarms"]

_SHARE = 0.5
"""An alarm stands half way from the middle of a room to its door; our own."""


def propose_alarms(draft: Draft) -> None:
    """Put smoke alarms in bedrooms, and alarms for smoke and carbon monoxide outside them."""
    for room in draft.rooms(RoomKind.BEDROOM):
        _alarm(draft, room, "smoke alarm")
    for name in outside_sleeping(draft):
        _alarm(draft, draft.house.room(name), "smoke and CO alarm")


def outside_sleeping(draft: Draft) -> tuple[str, ...]:
    """Return the rooms that bedrooms open to, closets and baths left out."""
    beyond = [
        way.leads_to
        for room in draft.rooms(RoomKind.BEDROOM)
        for way in draft.ways[room.name]
        if way.leads_to
        and draft.kinds[way.leads_to] not in (RoomKind.CLOSET, RoomKind.BATH, RoomKind.BEDROOM)
    ]
    return tuple(dict.fromkeys(beyond))


def _alarm(draft: Draft, room: Room, what: str) -> None:
    middle = middle_of(floor_of(room))
    ways = draft.ways[room.name]
    bedrooms = [w for w in ways if w.leads_to and draft.kinds[w.leads_to] is RoomKind.BEDROOM]
    wanted = middle
    if ways:
        x, y = (bedrooms or ways)[0].plan
        wanted = (middle[0] + (x - middle[0]) * _SHARE, middle[1] + (y - middle[1]) * _SHARE)
    if hypot(wanted[0] - middle[0], wanted[1] - middle[1]) < 1.0:
        wanted = (middle[0] + draft.inches("alarm_from_wall"), middle[1])
    draft.on_ceiling(
        f"{room.name} alarm",
        DeviceKind.ALARM,
        wanted,
        room=room.name,
        what=what,
        apart=draft.inches("alarm_from_wall"),
    )
