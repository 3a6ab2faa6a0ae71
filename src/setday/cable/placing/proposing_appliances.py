"""Appliances proposed by the use of the room, each at its own height and place."""

from collections.abc import Mapping
from functools import cache

from setday.cable.appliance import appliance_kind
from setday.cable.placing.box_places import BoxPlace
from setday.cable.placing.counters import kitchen_of
from setday.cable.placing.draft import Draft
from setday.cable.placing.wall_spaces import wall_spaces
from setday.cable.rooms import RoomKind
from setday.house import DeviceKind, Room
from setday.rules import load_table

__all__ = ["propose_appliances"]


@cache
def _appliances() -> tuple[Mapping[str, str], ...]:
    return load_table("setday.cable", "appliances").rows


def propose_appliances(draft: Draft) -> None:
    """Put the usual appliances of kitchens, laundries and utility rooms.

    A house without a laundry has its washer and dryer in the utility room; a house without a utility room
    has water heater and furnace where the foundation is, and they come after the set.
    """
    for room in draft.rooms(RoomKind.KITCHEN)[:1]:
        _kitchen(draft, room)
    laundry = draft.rooms(RoomKind.LAUNDRY) or draft.rooms(RoomKind.UTILITY)
    for room in laundry[:1]:
        _along(draft, room, "laundry")
    for room in draft.rooms(RoomKind.UTILITY)[:1]:
        _along(draft, room, "utility")


def _kitchen(draft: Draft, room: Room) -> None:
    kitchen = kitchen_of(draft.house, room.name, draft.rules)
    for row in _rows("kitchen"):
        spot = kitchen.places.get(row["place"])
        if spot is None:
            continue
        place = draft.place_near(
            spot.surface, spot.middle, up=float(row["height_in"]), gangs=int(row["gangs_count"])
        )
        if place is not None:
            _put(draft, room, row, place)


def _along(draft: Draft, room: Room, where: str) -> None:
    """Put appliances side by side from the left end of the room's longest walls."""
    width = draft.inches("washer_width")
    spaces = sorted(wall_spaces(draft.house, room.name), key=lambda s: -s.length)
    stands = [
        (piece.surface, piece.low + width * n, piece.low + width * (n + 1))
        for space in spaces
        for piece in sorted(space.pieces, key=lambda p: p.low - p.high)
        for n in range(int((piece.high - piece.low) // width))
    ]
    used = {
        (device.wall, device.side, device.along.inches)
        for device in draft.devices
        if device.room == room.name and device.kind is DeviceKind.APPLIANCE
    }
    rows = list(_rows(where))
    for surface, low, high in stands:
        if not rows:
            return
        row = rows[0]
        up, gangs = float(row["height_in"]), int(row["gangs_count"])
        place = draft.place_near(surface, (low + high) / 2, up=up, low=low, high=high, gangs=gangs)
        if place is None or any(
            wall == place.wall and side == place.side and abs(along - place.along) < width
            for wall, side, along in used
        ):
            continue
        _put(draft, room, row, place)
        rows.pop(0)


def _rows(where: str) -> list[Mapping[str, str]]:
    return [row for row in _appliances() if row["room"] == where]


def _put(draft: Draft, room: Room, row: Mapping[str, str], place: BoxPlace) -> None:
    known = appliance_kind(row["key"])
    draft.on_wall(
        row["key"],
        DeviceKind.APPLIANCE,
        place,
        room=room.name,
        what=row["key"],
        gangs=int(row["gangs_count"]),
        volts=known.volts if known else 120,
    )
