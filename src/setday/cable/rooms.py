"""What a room is to the electrician: its kind, found from the words of its use."""

import re
from collections.abc import Mapping
from enum import StrEnum
from functools import cache

from setday.house import House, Room
from setday.rules import RuleBook, load_table

__all__ = ["RoomKind", "is_large_foyer", "kind_of_room", "room_kinds"]


_PARTS = re.compile(r"\band\b|[&,/+]")


class RoomKind(StrEnum):
    """The kinds of rooms that rules tell apart."""

    KITCHEN = "kitchen"
    DINING = "dining"
    LIVING = "living"
    BEDROOM = "bedroom"
    BATH = "bath"
    LAUNDRY = "laundry"
    UTILITY = "utility"
    HALL = "hall"
    CLOSET = "closet"
    STAIR = "stair"
    GARAGE = "garage"
    BASEMENT = "unfinished basement"
    FINISHED_BASEMENT = "basement"
    CRAWL = "crawl space"
    OUTDOORS = "outdoors"
    WORKROOM = "workroom"
    OTHER = "other"


@cache
def _words() -> Mapping[str, RoomKind]:
    return {row["key"]: RoomKind(row["kind"]) for row in load_table("setday.cable", "rooms").rows}


def kind_of_room(use: str) -> RoomKind:
    """Return the kind of a room by the words of its use, or of its name where no use is written.

    The word of the table that stands last decides ("bedroom closet" is a closet); of two uses joined by
    "and", a kitchen goes first.

    Examples
    --------
    >>> kind_of_room("south bedroom").value
    'bedroom'
    >>> kind_of_room("living and kitchen").value
    'kitchen'
    """
    kinds = [_kind(part) for part in _PARTS.split(use.lower())]
    known = [kind for kind in kinds if kind is not RoomKind.OTHER]
    if RoomKind.KITCHEN in known:
        return RoomKind.KITCHEN
    return known[0] if known else RoomKind.OTHER


def _kind(text: str) -> RoomKind:
    ends = {
        match.end(): kind
        for word, kind in sorted(_words().items(), key=lambda pair: len(pair[0]))
        for match in re.finditer(rf"\b{word}\b", text)
    }
    return ends[max(ends)] if ends else RoomKind.OTHER


def room_kinds(house: House) -> dict[str, RoomKind]:
    """Return the kind of every room, by name; outdoors under ""."""
    kinds = {room.name: kind_of_room(room.use or room.name) for room in house.rooms}
    return {"": RoomKind.OUTDOORS, **kinds}


def is_large_foyer(room: Room, rules: RuleBook) -> bool:
    """Tell whether a room is an entrance larger than a hall's rule covers, 210.52(I).

    Parameters
    ----------
    room : Room
    rules : RuleBook
        The rules of cable.
    """
    words = f"{room.use} {room.name}".lower()
    named = any(word in words for word in ("foyer", "entry", "vestibule"))
    return named and room.area.sqft > rules.number("cable.foyer_least_sqft")
