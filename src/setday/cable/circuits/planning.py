"""The circuits of a house: typed ones made whole, the rest proposed, all checked, the panel filled."""

from collections.abc import Sequence
from math import ceil

from setday.cable.appliance import kind_on
from setday.cable.circuit import Circuit, CircuitPlan, CircuitUse, Distance, Grouping
from setday.cable.circuits.circuit_check import check_circuit
from setday.cable.circuits.claims import KITCHEN_KINDS
from setday.cable.circuits.panel import check_panel, directory
from setday.cable.circuits.proposed_circuits import Proposal, propose_circuits
from setday.cable.circuits.protection import protected, wiring_kinds
from setday.cable.circuits.typed_circuits import typed_circuits
from setday.cable.loads.load import dwelling_area_sqft, dwelling_loads
from setday.cable.loads.service import check_service, service_for
from setday.cable.rooms import RoomKind
from setday.cable.rulebook import edition_of
from setday.findings import Finding, Severity, in_order
from setday.house import Device, DeviceKind, House
from setday.rules import RuleBook

__all__ = ["plan_circuits"]

_SPACES = 30
_GARAGE_FROM = 2017


def plan_circuits(
    house: House,
    *,
    distance: Distance,
    rules: RuleBook,
    near_water: frozenset[str] = frozenset(),
) -> CircuitPlan:
    """Return the circuits of a house, with the panel and all that was found.

    Circuits that the house file names stay as they are; devices on none get proposed ones.

    Parameters
    ----------
    house : House
        With its devices, typed or proposed.
    distance : callable
        Cable between two boxes, or a box and `PANEL` [ft].
    rules : RuleBook
        The rules of cable.
    near_water : frozenset of str
        Names of receptacles within the reach of a sink or tub.
    """
    typed, findings = typed_circuits(house, rules)
    on = {name for circuit in typed for name in circuit.devices}
    loose = [device for device in house.devices if device.name not in on]
    proposal = propose_circuits(house, loose, already=typed, distance=distance, rules=rules)
    circuits = protected((*typed, *proposal.circuits), house, rules=rules, near_water=near_water)
    by_name = {device.name: device for device in house.devices}
    kinds = wiring_kinds(house)
    checked = [
        finding
        for circuit in circuits
        for finding in check_circuit(circuit, [by_name[name] for name in circuit.devices], kinds, rules)
    ]
    panel = house.wiring.panel
    service = service_for(
        dwelling_loads(house, circuits, rules=rules), rules, rating=panel.rating if panel else None
    )
    found = (
        *findings,
        *checked,
        *_left_over(typed, loose),
        *_required(house, circuits, rules),
        *_general(house, circuits, rules),
        *_unknown_loads(house.devices),
        *check_panel(circuits, panel, rules),
        *check_service(service, panel, rules),
    )
    return CircuitPlan(
        circuits=circuits,
        directory=directory(circuits, spaces=panel.spaces if panel else _SPACES),
        grouping=_grouping(proposal),
        findings=in_order(found),
    )


def _grouping(proposal: Proposal) -> Grouping | None:
    if not proposal.methods:
        return None
    return Grouping(
        cable_ft=proposal.cable_ft,
        bound_ft=proposal.bound_ft,
        proven=proposal.proven,
        method="; ".join(proposal.methods),
    )


def _left_over(typed: Sequence[Circuit], loose: Sequence[Device]) -> list[Finding]:
    """Note devices that no typed circuit names, where the house file names circuits at all."""
    if not typed or not loose:
        return []
    names = ", ".join(device.name for device in loose[:8])
    more = f" and {len(loose) - 8} more" if len(loose) > 8 else ""
    return [
        Finding(
            rule="cable.devices-left",
            about="the circuits",
            found=f"{len(loose)} devices are on none that is written: {names}{more}.",
            expected="each device on a circuit.",
            do="Circuits are proposed for them; write them to keep them.",
            where=loose[0].typed.where,
            severity=Severity.NOTE,
        )
    ]


def _required(house: House, circuits: Sequence[Circuit], rules: RuleBook) -> list[Finding]:
    """Find required circuits that are missing."""
    kinds = wiring_kinds(house)
    rooms = set(kinds.values())
    uses = [circuit.use for circuit in circuits]
    wanted = []
    if RoomKind.KITCHEN in rooms:
        wanted.append((CircuitUse.SMALL_APPLIANCE, "cable.small_appliance_circuits", "a kitchen"))
    if RoomKind.LAUNDRY in rooms:
        wanted.append((CircuitUse.LAUNDRY, "cable.laundry_circuits", "a laundry area"))
    if RoomKind.BATH in rooms:
        wanted.append((CircuitUse.BATH, "cable.bath_circuits", "a bath"))
    if RoomKind.GARAGE in rooms and edition_of(rules) >= _GARAGE_FROM:
        wanted.append((CircuitUse.GARAGE, "cable.garage_circuits", "a garage"))
    findings = [
        Finding(
            rule="cable.required-missing",
            about="the circuits",
            found=f"there {'is' if uses.count(use) == 1 else 'are'} {uses.count(use)} of use '{use.value}' "
            f"in a house with {what}.",
            expected=f"{rules.number(key):g} or more, on {rules.number('cable.required_breaker'):g} A.",
            do=f"Write a circuit of use '{use.value}', or put receptacles there so that one is proposed.",
            where=next((c.where for c in circuits if c.use is use), house.description.where),
            source=rules[key].source,
        )
        for use, key, what in wanted
        if uses.count(use) < rules.number(key)
    ]
    return findings + _counters(house, circuits, rules)


def _general(house: House, circuits: Sequence[Circuit], rules: RuleBook) -> list[Finding]:
    """Ask about general circuits, typed, that carry less than the general lighting, NEC 210.11(A), (B)."""
    own = [circuit for circuit in circuits if circuit.use is CircuitUse.GENERAL]
    rule = rules["cable.lighting_va_per_sqft"]
    area = dwelling_area_sqft(house)
    wanted, carried = area * rules.number(rule.key), sum(each.breaker * each.volts for each in own)
    if carried >= wanted or not all(each.typed for each in own) or not own:
        return []
    usual = own[0].breaker * own[0].volts
    return [
        Finding(
            rule="cable.general-few",
            about="the circuits",
            found=f"{len(own)} of use 'general' carry {carried:,.0f} VA together.",
            expected=f"{area:,.0f} ft2 x {rules.number(rule.key):g} VA/ft2 = {wanted:,.0f} VA of general "
            f"lighting: {ceil(wanted / usual)} circuits of {own[0].breaker} A.",
            do="Write another circuit of use 'general'.",
            where=own[-1].where,
            source=rule.source,
            severity=Severity.ASK,
        )
    ]


def _counters(house: House, circuits: Sequence[Circuit], rules: RuleBook) -> list[Finding]:
    """Find counters of a kitchen that hang on one small-appliance circuit alone, NEC 210.52(B)(3)."""
    kinds = wiring_kinds(house)
    counters = {
        device.name
        for device in house.devices
        if device.kind is DeviceKind.RECEPTACLE
        and "counter" in device.typed.what
        and kinds.get(device.room) in KITCHEN_KINDS
    }
    serving = [circuit for circuit in circuits if counters & set(circuit.devices)]
    if len(counters) < 2 or len(serving) != 1:
        return []
    return [
        Finding(
            rule="cable.counters-one-circuit",
            about=f"circuit '{serving[0].name}'",
            found=f"all {len(counters)} receptacles over the counters are on it.",
            expected="two small-appliance circuits or more over the counters.",
            do="Move some of them to another small-appliance circuit.",
            where=serving[0].where,
            source=rules["cable.small_appliance_circuits"].source,
        )
    ]


def _unknown_loads(devices: Sequence[Device]) -> list[Finding]:
    return [
        Finding(
            rule="cable.load-unknown",
            about=f"device '{device.name}'",
            found=f"no usual load is known for '{device.typed.what or device.name}'.",
            expected="its nameplate load.",
            do="Write its load, like load: 1500.",
            where=device.typed.where,
            severity=Severity.ASK,
        )
        for device in devices
        if device.kind is DeviceKind.APPLIANCE and device.typed.load is None and kind_on(device) is None
    ]
