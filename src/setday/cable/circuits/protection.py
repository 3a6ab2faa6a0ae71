"""Which circuits need ground-fault and arc-fault protection, and why."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from setday.cable.appliance import kind_on
from setday.cable.circuit import Circuit, Protection, ProtectionKind, Reason
from setday.cable.rooms import RoomKind, room_kinds
from setday.cable.rulebook import edition_of
from setday.house import Device, DeviceKind, House
from setday.rules import RuleBook, Source, load_table

__all__ = ["protected", "protections_of", "wiring_kinds"]

_OUTLETS = {
    DeviceKind.RECEPTACLE, DeviceKind.LIGHT, DeviceKind.FAN, DeviceKind.ALARM, DeviceKind.APPLIANCE,
    DeviceKind.SWITCH, DeviceKind.JUNCTION,
}  # fmt: skip
_NO_LIMIT = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A row of the table of protections."""

    kind: ProtectionKind
    places: frozenset[str]
    what: tuple[str, ...]
    first: int
    last: int
    most_v: int
    most_a: int
    sentence: str
    source: Source


@cache
def _rows() -> tuple[_Row, ...]:
    table = load_table("setday.cable", "protection")
    return tuple(
        _Row(
            kind=ProtectionKind(row["protection"]),
            places=frozenset(row["place"].split("|")),
            what=tuple(row["what"].split("|")),
            first=int(row["first_edition"] or 0),
            last=int(row["last_edition"] or _NO_LIMIT),
            most_v=int(row["most_v"]),
            most_a=int(row["most_a"] or _NO_LIMIT),
            sentence=row["sentence"],
            source=table.source_of(row),
        )
        for row in table.rows
    )


def wiring_kinds(house: House) -> dict[str, RoomKind]:
    """Return the kind of every room as wiring sees it: a utility room with a washer is a laundry area."""
    washers = {d.room for d in house.devices if d.typed.what in {"washer", "laundry"}}
    return {
        name: RoomKind.LAUNDRY if kind is RoomKind.UTILITY and name in washers else kind
        for name, kind in room_kinds(house).items()
    }


def protections_of(
    devices: Iterable[Device],
    *,
    breaker: int,
    kinds: Mapping[str, RoomKind],
    near_water: frozenset[str] = frozenset(),
    rules: RuleBook,
) -> tuple[Protection, ...]:
    """Return the protections that a circuit's devices ask for, each with its reasons.

    Parameters
    ----------
    devices : iterable of Device
        All devices of the circuit.
    breaker : int
        [A].
    kinds : mapping
        Room to its kind, as `wiring_kinds` returns it.
    near_water : frozenset of str
        Names of receptacles within the reach of a sink or tub.
    rules : RuleBook
        The rules of cable; `cable.edition` says which rows of the table hold.
    """
    edition = edition_of(rules)
    devices = tuple(devices)
    found = []
    for kind in ProtectionKind:
        key = "cable.ground_fault" if kind is ProtectionKind.GROUND_FAULT else "cable.arc_fault"
        if rules.choice(key) == "nowhere":
            continue
        reasons = [
            Reason(devices=names, sentence=row.sentence, source=row.source)
            for row in _rows()
            if row.kind is kind and row.first <= edition <= row.last and breaker <= row.most_a
            if (names := _asking(row, devices, kinds, near_water))
        ]
        if reasons:
            found.append(Protection(kind=kind, reasons=tuple(reasons)))
    return tuple(found)


def _asking(
    row: _Row, devices: Iterable[Device], kinds: Mapping[str, RoomKind], near_water: frozenset[str]
) -> tuple[str, ...]:
    return tuple(
        device.name
        for device in devices
        if device.typed.volts <= row.most_v
        and _in_place(row, device, kinds, near_water)
        and any(_is(what, device) for what in row.what)
    )


def _in_place(row: _Row, device: Device, kinds: Mapping[str, RoomKind], near_water: frozenset[str]) -> bool:
    if "any" in row.places:
        return True
    if "water" in row.places:
        return device.name in near_water
    return kinds.get(device.room, RoomKind.OTHER).value in row.places


def _is(what: str, device: Device) -> bool:
    known = kind_on(device)
    if what == "outlet":
        return device.kind in _OUTLETS
    if what == "receptacle":
        return device.kind is DeviceKind.RECEPTACLE or bool(known and known.plug)
    if what == "counter":
        return device.kind is DeviceKind.RECEPTACLE and "counter" in device.typed.what
    return known is not None and known.key == what


def protected(
    circuits: Iterable[Circuit],
    house: House,
    *,
    rules: RuleBook,
    near_water: frozenset[str] = frozenset(),
) -> tuple[Circuit, ...]:
    """Return circuits with the protections they need.

    Parameters
    ----------
    circuits : iterable of Circuit
    house : House
        With the devices of the circuits.
    rules : RuleBook
        The rules of cable.
    near_water : frozenset of str
        Names of receptacles within the reach of a sink or tub.
    """
    by_name = {device.name: device for device in house.devices}
    kinds = wiring_kinds(house)
    return tuple(
        replace(
            circuit,
            protections=protections_of(
                (by_name[name] for name in circuit.devices if name in by_name),
                breaker=circuit.breaker,
                kinds=kinds,
                near_water=near_water,
                rules=rules,
            ),
        )
        for circuit in circuits
    )
