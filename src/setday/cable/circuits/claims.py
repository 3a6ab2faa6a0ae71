"""Which circuit a device asks for: the required ones first, the general ones for the rest."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from setday.cable.appliance import LoadClass, kind_on
from setday.cable.circuit import CircuitUse
from setday.cable.rooms import RoomKind
from setday.cable.rulebook import edition_of
from setday.house import Device, DeviceKind
from setday.rules import RuleBook

__all__ = ["KITCHEN_KINDS", "Claims", "claims_of", "use_of"]

KITCHEN_KINDS = frozenset({RoomKind.KITCHEN, RoomKind.DINING})
"""Rooms whose receptacles are on small-appliance circuits, 210.52(B)."""
_COLD = ("refrigerator", "freezer", "gas range")
_WASH = ("washer", "gas dryer")
_GARAGE_FROM = 2017


@dataclass(frozen=True, slots=True, kw_only=True)
class Claims:
    """Devices by the circuit they ask for; switches are with what they switch.

    Parameters
    ----------
    own : tuple of tuples of Device
        Appliances with a circuit to themselves, each with its switches.
    shared : mapping
        Use of a circuit to the devices that share such circuits.
    """

    own: tuple[tuple[Device, ...], ...]
    shared: Mapping[CircuitUse, tuple[Device, ...]]


def use_of(device: Device, kinds: Mapping[str, RoomKind], rules: RuleBook) -> CircuitUse:
    """Return the use of the circuit a device asks for; a switch asks for a general one.

    Parameters
    ----------
    device : Device
    kinds : mapping
        Room to its kind, as wiring sees it.
    rules : RuleBook
        The rules of cable.
    """
    known = kind_on(device)
    if device.typed.volts > 120 or (known is not None and known.own):
        return CircuitUse.INDIVIDUAL
    room = kinds.get(device.room, RoomKind.OTHER)
    garage = edition_of(rules) >= _GARAGE_FROM and rules.number("cable.garage_circuits") > 0
    if known is not None and known.load_class is LoadClass.CORD and known.plug:
        if known.key in _WASH:
            return CircuitUse.LAUNDRY
        if known.key in _COLD and room in KITCHEN_KINDS:
            return CircuitUse.SMALL_APPLIANCE
    if device.kind is DeviceKind.APPLIANCE and known is None:
        return CircuitUse.INDIVIDUAL
    plugged = device.kind is DeviceKind.RECEPTACLE or bool(known and known.plug)
    return _by_room(device, room, garage=garage) if plugged else CircuitUse.GENERAL


def _by_room(device: Device, room: RoomKind, *, garage: bool) -> CircuitUse:
    if "laundry" in device.typed.what or room is RoomKind.LAUNDRY:
        return CircuitUse.LAUNDRY
    if device.typed.half_switched:
        return CircuitUse.GENERAL  # it stands in for a light
    if room in KITCHEN_KINDS:
        return CircuitUse.SMALL_APPLIANCE
    if room is RoomKind.BATH:
        return CircuitUse.BATH
    if room is RoomKind.GARAGE and garage:
        return CircuitUse.GARAGE
    return CircuitUse.GENERAL


def claims_of(devices: Sequence[Device], kinds: Mapping[str, RoomKind], rules: RuleBook) -> Claims:
    """Sort devices by the circuit they ask for.

    Parameters
    ----------
    devices : sequence of Device
    kinds : mapping
        Room to its kind, as wiring sees it.
    rules : RuleBook
        The rules of cable.
    """
    uses = {
        device.name: use_of(device, kinds, rules)
        for device in devices
        if device.kind is not DeviceKind.SWITCH
    }
    switches = [device for device in devices if device.kind is DeviceKind.SWITCH]
    own: dict[str, list[Device]] = {
        device.name: [device] for device in devices if uses.get(device.name) is CircuitUse.INDIVIDUAL
    }
    shared: dict[CircuitUse, list[Device]] = {}
    for device in devices:
        if device.name in uses and device.name not in own:
            shared.setdefault(uses[device.name], []).append(device)
    for switch in switches:
        served = next((name for name in switch.typed.serves if name in uses), "")
        if served in own:
            own[served].append(switch)
        else:
            shared.setdefault(uses.get(served, CircuitUse.GENERAL), []).append(switch)
    return Claims(
        own=tuple(tuple(group) for group in own.values()),
        shared={use: tuple(group) for use, group in shared.items()},
    )
