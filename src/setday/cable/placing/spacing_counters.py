"""Receptacles over counters and at islands."""

from collections.abc import Mapping
from functools import cache

from setday.cable.placing.counters import Kitchen, kitchen_of
from setday.cable.placing.floor_line import FloorLine, Interval, bare_of, floor_lines
from setday.cable.placing.spacing import Bare, along_line
from setday.cable.rooms import RoomKind, room_kinds
from setday.cable.rulebook import edition_of
from setday.house import Device, DeviceKind, House, Room
from setday.measure import Length
from setday.rules import RuleBook, Source, Table, load_table

__all__ = ["check_counters", "island_outlets"]

_ON_WALL = 2.0
_PLAY = 1 / 64


def check_counters(house: House, rules: RuleBook) -> tuple[Bare, ...]:
    """Return every stretch of counter that is too far from a receptacle over it.

    Parameters
    ----------
    house : House
    rules : RuleBook
    """
    kinds = room_kinds(house)
    rooms = [
        room
        for room in house.rooms
        if kinds[room.name] is RoomKind.KITCHEN or any(c.typed.room == room.name for c in house.counters)
    ]
    return tuple(bare for room in rooms for bare in _room(house, room, rules))


def _room(house: House, room: Room, rules: RuleBook) -> list[Bare]:
    kitchen = kitchen_of(house, room.name, rules)
    reach, least = rules.length("cable.counter_reach"), rules.length("cable.counter_least")
    over = [d for d in house.devices if d.room == room.name and _over_counter(d, house, rules)]
    found = []
    for line in floor_lines(room):
        for space in _spaces(line, kitchen):
            if space[1] - space[0] < least.inches - _PLAY:
                continue
            at = [s for d in over if (s := _place(d, line, space)) is not None]
            found += [
                along_line(house, line, stretch, rules["cable.counter_reach"], _said(stretch, reach, kitchen))
                for stretch in bare_of(space, at, reach=reach.inches)
            ]
    return found


def _over_counter(device: Device, house: House, rules: RuleBook) -> bool:
    if device.kind is not DeviceKind.RECEPTACLE or not device.surface:
        return False
    tops = [c.typed.top for c in house.counters if c.typed.room == device.room]
    top = min(tops, default=rules.length("cable.counter_height"))
    return top < device.height <= top + rules.length("cable.counter_highest")


def _spaces(line: FloorLine, kitchen: Kitchen) -> list[Interval]:
    """Return the counter spaces on a floor line; those that meet at a corner are one."""
    covered: list[Interval] = []
    for stretch in kitchen.counters:
        (ox, oy), (ux, uy) = stretch.surface.plan_origin, stretch.surface.plan_x
        low, high = stretch.low, stretch.high
        covered += line.on(((ox + ux * low, oy + uy * low), (ox + ux * high, oy + uy * high)))
    joined: list[Interval] = []
    for low, high in sorted(covered):
        if joined and low <= joined[-1][1] + _PLAY * 2:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    if len(joined) > 1 and joined[0][0] < _PLAY and joined[-1][1] > line.length - _PLAY:
        joined = [*joined[1:-1], (joined[-1][0], joined[0][1] + line.length)]
    return joined


def _place(device: Device, line: FloorLine, space: Interval) -> float | None:
    off, s = line.nearest((device.plan.x.inches, device.plan.y.inches))
    return line.within(s, space) if off <= _ON_WALL else None


def _said(stretch: Interval, reach: Length, kitchen: Kitchen) -> tuple[str, str, str]:
    width = Length(round((stretch[1] - stretch[0]) * 64))
    assumed = "; the counters are assumed, since the house file names none here" if kitchen.assumed else ""
    return (
        f"{width} of counter is farther than {reach} from a receptacle over it{assumed}.",
        f"a receptacle within {reach} of every point along the counter's wall line.",
        "Add a receptacle over it, or write the counters if they stand otherwise.",
    )


@cache
def _islands() -> Table:
    return load_table("setday.cable", "islands")


def island_outlets(long: Length, short: Length, rules: RuleBook) -> tuple[int, Source]:
    """Return how many receptacles an island or peninsula needs by the edition in force.

    Parameters
    ----------
    long, short : Length
        Sides of its top.
    rules : RuleBook

    Returns
    -------
    count : int
    source : Source
    """
    row = _row(edition_of(rules))
    source = _islands().source_of(row)
    big = long >= rules.length("cable.island_least_long") and short >= rules.length(
        "cable.island_least_short"
    )
    if not big or row["how"] == "none":
        return 0, source
    if row["how"] == "each":
        return 1, source
    first, further = float(row["first_sqft"]), float(row["further_sqft"])
    area = long.feet * short.feet
    return 1 + max(0, -int(-(area - first) // further)) if area > first else 1, source


def _row(edition: int) -> Mapping[str, str]:
    return next(row for row in reversed(_islands().rows) if int(row["from_edition"]) <= edition)
