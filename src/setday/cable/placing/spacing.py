"""Receptacles along walls: no point of a wall space's floor line too far from one."""

from dataclasses import dataclass

from setday.cable.placing.counters import kitchen_of
from setday.cable.placing.floor_line import FloorLine, Interval, WallPart, bare_of, floor_lines, opening_cuts
from setday.cable.rooms import RoomKind, room_kinds
from setday.findings import Finding, Severity, Where
from setday.house import Device, DeviceKind, House, Mount, Room
from setday.measure import Length
from setday.rules import Rule, RuleBook

__all__ = ["HELD_TO_SPACING", "Bare", "along_line", "asked", "check_wall_spacing", "counts_for_walls"]

HELD_TO_SPACING = (RoomKind.KITCHEN, RoomKind.DINING, RoomKind.LIVING, RoomKind.BEDROOM, RoomKind.OTHER)
"""Kitchens, family, dining, living, bed and like rooms, by the words of the code."""
_ON_WALL = 2.0
"""A device's plan point this near a face stands on it [in]; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bare:
    """A stretch that no receptacle is near enough to.

    Parameters
    ----------
    room : str
    rule : str
        Key of the rule.
    parts : tuple of WallPart
        The stretch, surface by surface.
    plan : tuple of points
        The stretch on the plan, corner by corner [in].
    length : Length
    finding : Finding
    """

    room: str
    rule: str
    parts: tuple[WallPart, ...]
    plan: tuple[tuple[float, float], ...]
    length: Length
    finding: Finding


def check_wall_spacing(house: House, rules: RuleBook) -> tuple[Bare, ...]:
    """Return every stretch of wall space that is too far from a receptacle.

    Parameters
    ----------
    house : House
    rules : RuleBook
    """
    kinds = room_kinds(house)
    found = []
    for room in house.rooms:
        if kinds[room.name] in HELD_TO_SPACING:
            found += _room(house, room, kinds[room.name], rules)
    return tuple(found)


def _room(house: House, room: Room, kind: RoomKind, rules: RuleBook) -> list[Bare]:
    least = rules.length("cable.least_wall").inches
    reach = rules.length("cable.reach").inches
    devices = [d for d in house.devices if d.room == room.name and counts_for_walls(d, house, rules)]
    found = []
    for line in floor_lines(room):
        cuts = opening_cuts(house, line) + (
            _fixed(house, room, line, rules) if kind is RoomKind.KITCHEN else []
        )
        for space in line.spaces(cuts):
            if space[1] - space[0] < least - 1 / 64:
                continue
            at = [s for d in devices if (s := _place(d, line, space, rules)) is not None]
            if not cuts:
                at += [s + turn for s in at for turn in (-line.length, line.length)]
            found += [
                along_line(house, line, stretch, rules["cable.reach"], _said(line, stretch, reach, house))
                for stretch in bare_of(space, at, reach=reach)
            ]
    return found


def counts_for_walls(device: Device, house: House, rules: RuleBook) -> bool:
    """Tell whether a device is a receptacle that counts for the walls of its room.

    Not counted: over counters and in cabinets, higher than the rule allows, switched as a whole.
    """
    if device.kind is not DeviceKind.RECEPTACLE or device.typed.what in ("counter", "island", "cabinet"):
        return False
    if device.typed.mount is Mount.CEILING or device.height > rules.length("cable.highest_counted"):
        return False
    switched = any(device.name in other.typed.serves for other in house.devices)
    return device.typed.half_switched or not switched


def _place(device: Device, line: FloorLine, space: Interval, rules: RuleBook) -> float | None:
    off, s = line.nearest((device.plan.x.inches, device.plan.y.inches))
    floor = device.typed.mount is Mount.FLOOR
    farthest = rules.length("cable.floor_outlet_off_wall").inches if floor else _ON_WALL
    return line.within(s, space) if off <= farthest + 1 / 128 else None


def _fixed(house: House, room: Room, line: FloorLine, rules: RuleBook) -> list[Interval]:
    """Return what counters, range and refrigerator take of a kitchen's floor line."""
    kitchen = kitchen_of(house, room.name, rules)
    cuts = []
    for stretch in (*kitchen.counters, *kitchen.fixed):
        (ox, oy), (ux, uy) = stretch.surface.plan_origin, stretch.surface.plan_x
        ends = (
            (ox + ux * stretch.low, oy + uy * stretch.low),
            (ox + ux * stretch.high, oy + uy * stretch.high),
        )
        cuts += line.on(ends)
    return cuts


def along_line(
    house: House, line: FloorLine, stretch: Interval, rule: Rule, words: tuple[str, str, str]
) -> Bare:
    """Return a bare stretch with its finding; `words` say what was found, expected, and what to do."""
    parts = line.parts(house, stretch)
    facings = dict.fromkeys(house.surface(part.surface).facing for part in parts)
    labels = f"room '{line.room}'" + (f", {' and '.join(facings)} wall" if facings else "")
    finding = asked(rule, labels, words, where=_where(house, line.room))
    corners = [s for s in line.starts for s in (s, s + line.length) if stretch[0] < s < stretch[1]]
    plan = tuple(line.at(s) for s in sorted({stretch[0], *corners, stretch[1]}))
    return Bare(
        room=line.room,
        rule=rule.key,
        parts=parts,
        plan=plan,
        length=Length(round((stretch[1] - stretch[0]) * 64)),
        finding=finding,
    )


def asked(
    rule: Rule, about: str, words: tuple[str, str, str], *, where: Where = Where(), note: bool = False
) -> Finding:
    """Return a finding on a rule: what was found, what was expected, what to do."""
    return Finding(
        rule=rule.key,
        about=about,
        found=words[0],
        expected=words[1],
        do=words[2],
        where=where,
        severity=Severity.NOTE if note else Severity.ASK,
        source=rule.source,
    )


def _where(house: House, room: str) -> Where:
    return next((each.where for each in house.description.rooms if each.name == room), Where())


def _said(line: FloorLine, stretch: Interval, reach: float, house: House) -> tuple[str, str, str]:
    width = Length(round((stretch[1] - stretch[0]) * 64))
    parts = line.parts(house, stretch)
    first = parts[0] if parts else None
    start = f", beginning {first.x_from} from the left end of that wall," if first else ""
    return (
        f"{width} of its floor line{start} is farther than {Length(round(reach * 64))} from a receptacle.",
        f"a receptacle within {Length(round(reach * 64))} of every point of the floor line.",
        "Add a receptacle there, or move the nearest one toward it.",
    )
