"""Circuits held against the rules: breakers, wire, loads, what may share a circuit."""

from collections.abc import Mapping, Sequence

from setday.cable.appliance import LoadClass, kind_on, load_va
from setday.cable.circuit import Circuit, CircuitUse
from setday.cable.circuits.claims import use_of
from setday.cable.circuits.sizing import most_breaker, wire_for
from setday.cable.loads.cooking import cooking_demand
from setday.cable.rooms import RoomKind
from setday.electric import next_standard_breaker, standard_breakers
from setday.errors import RuleError
from setday.findings import Finding, Severity
from setday.house import Device, DeviceKind
from setday.rules import RuleBook, Source, load_table

__all__ = ["check_circuit"]

_REQUIRED = {
    CircuitUse.SMALL_APPLIANCE: "cable.small_appliance_circuits",
    CircuitUse.LAUNDRY: "cable.laundry_circuits",
    CircuitUse.BATH: "cable.bath_circuits",
    CircuitUse.GARAGE: "cable.garage_circuits",
}
_FIXED = {LoadClass.FASTENED, LoadClass.FULL, LoadClass.HEAT, LoadClass.HEAT_PUMP, LoadClass.COOLING}


def check_circuit(
    circuit: Circuit, devices: Sequence[Device], kinds: Mapping[str, RoomKind], rules: RuleBook
) -> tuple[Finding, ...]:
    """Find what is wrong with one circuit.

    Parameters
    ----------
    circuit : Circuit
    devices : sequence of Device
        Those on it.
    kinds : mapping
        Room to its kind, as wiring sees it.
    rules : RuleBook
        The rules of cable.
    """
    return (
        *_breaker(circuit, rules),
        *_wire(circuit),
        *_volts(circuit, devices),
        *_load(circuit, devices, rules),
        *_shares(circuit, devices, rules),
        *_uses(circuit, devices, kinds, rules),
    )


def _about(circuit: Circuit) -> str:
    return f"circuit '{circuit.name}'"


def _problem(
    circuit: Circuit,
    rule: str,
    found: str,
    expected: str,
    do: str,
    source: Source | None = None,
    *,
    severity: Severity = Severity.PROBLEM,
) -> Finding:
    return Finding(
        rule=rule,
        about=_about(circuit),
        found=found,
        expected=expected,
        do=do,
        where=circuit.where,
        source=source,
        severity=severity,
    )


def _breaker(circuit: Circuit, rules: RuleBook) -> list[Finding]:
    if circuit.breaker not in standard_breakers():
        near = min(standard_breakers(), key=lambda rating: abs(rating - circuit.breaker))
        return [
            _problem(
                circuit,
                "cable.breaker-standard",
                f"{circuit.breaker} A is no standard breaker.",
                f"a rating of the table, for example {near} A.",
                "Correct its breaker.",
            )
        ]
    needed = int(rules.number("cable.required_breaker"))
    if circuit.use in _REQUIRED and circuit.breaker != needed:
        return [
            _problem(
                circuit,
                "cable.breaker-required",
                f"a {circuit.use.value} circuit stands on {circuit.breaker} A.",
                f"{needed} A.",
                f"Write breaker: {needed} A.",
                rules[_REQUIRED[circuit.use]].source,
            )
        ]
    return []


def _wire(circuit: Circuit) -> list[Finding]:
    most = most_breaker(circuit.awg)
    if circuit.breaker <= most:
        return []
    source = next(iter(load_table("setday.electric", "breaker").sources.values()))
    return [
        _problem(
            circuit,
            "cable.wire-small",
            f"{circuit.awg} AWG copper stands behind a breaker of {circuit.breaker} A.",
            f"at most {most} A on {circuit.awg} AWG{_thicker(circuit.breaker)}.",
            "Write a smaller breaker or a thicker wire.",
            source,
        )
    ]


def _thicker(breaker: int) -> str:
    try:
        return f", or {wire_for(breaker)} AWG for {breaker} A"
    except RuleError:
        return ""


def _volts(circuit: Circuit, devices: Sequence[Device]) -> list[Finding]:
    return [
        _problem(
            circuit,
            "cable.circuit-volts",
            f"it is a {circuit.volts} V circuit, and '{device.name}' is for {device.typed.volts} V.",
            f"devices for {circuit.volts} V.",
            f"Correct the volts of the circuit or of '{device.name}' (line {device.typed.where.line})."
            if device.typed.where.line
            else "Correct the volts of the circuit or of the device.",
        )
        for device in devices
        if device.kind is not DeviceKind.SWITCH and device.typed.volts != circuit.volts
    ]


def _nameplates(devices: Sequence[Device], rules: RuleBook) -> dict[str, float]:
    """Return the loads that are known: nameplates and lights, a range at its demand [VA]."""
    known = {}
    for device in devices:
        kind = kind_on(device)
        if kind is not None or device.typed.load is not None or device.kind is DeviceKind.LIGHT:
            va = load_va(device, rules)
            ranged = kind is not None and kind.key == "range"
            known[device.name] = cooking_demand([va])[0] if ranged else va
    return known


def _load(circuit: Circuit, devices: Sequence[Device], rules: RuleBook) -> list[Finding]:
    room = float(circuit.breaker * circuit.volts)
    known = _nameplates(devices, rules)
    total = sum(known.values())
    steady = sum(known[d.name] for d in devices if (k := kind_on(d)) is not None and k.continuous)
    percent = rules.number("cable.continuous_percent")
    if total > room:
        return [
            _problem(
                circuit,
                "cable.breaker-overloaded",
                f"{total:,.0f} VA hang on {circuit.breaker} A at {circuit.volts} V, which carries "
                f"{room:,.0f} VA ({_largest(known)}).",
                f"at most {room:,.0f} VA.",
                f"Move something to another circuit, or write a breaker of "
                f"{next_standard_breaker(total / circuit.volts)} A with the wire for it.",
            )
        ]
    if steady > room * percent / 100:
        return [
            _problem(
                circuit,
                "cable.breaker-continuous",
                f"{steady:,.0f} VA run for hours on {circuit.breaker} A at {circuit.volts} V.",
                f"at most {percent:g} % of {room:,.0f} VA: {room * percent / 100:,.0f} VA.",
                "Write the next larger breaker with the wire for it, or divide the load.",
                rules["cable.continuous_percent"].source,
            )
        ]
    return _outlets(circuit, devices, room, rules)


def _largest(known: Mapping[str, float]) -> str:
    first = sorted(known.items(), key=lambda item: (-item[1], item[0]))[:3]
    return ", ".join(f"{name} {va:,.0f} VA" for name, va in first)


def _outlets(circuit: Circuit, devices: Sequence[Device], room: float, rules: RuleBook) -> list[Finding]:
    """Ask about more outlets on a general circuit than is usual; the code sets no number for dwellings."""
    if circuit.use is not CircuitUse.GENERAL or not circuit.typed:
        return []
    counted = sum(load_va(device, rules) for device in devices)
    if counted <= room:
        return []
    rule = rules["cable.outlet_va"]
    return [
        _problem(
            circuit,
            "cable.many-outlets",
            f"its outlets count for {counted:,.0f} VA at {rules.number(rule.key):g} VA a receptacle.",
            f"usually not more than {room:,.0f} VA on {circuit.breaker} A.",
            "Divide it, or leave it: for dwellings the code sets no number of outlets.",
            rule.source,
            severity=Severity.ASK,
        )
    ]


def _shares(circuit: Circuit, devices: Sequence[Device], rules: RuleBook) -> list[Finding]:
    """Find appliances too large for a circuit that they share, NEC 210.23(A)."""
    others = [device for device in devices if device.kind is not DeviceKind.SWITCH]
    if len(others) < 2 or circuit.use is CircuitUse.INDIVIDUAL:
        return []
    room = float(circuit.breaker * circuit.volts)
    corded = rules.number("cable.cord_percent") / 100 * room
    fixed = rules.number("cable.fastened_percent") / 100 * room
    findings = []
    kinds = [(device, kind) for device in others if (kind := kind_on(device)) is not None]
    for device, kind in kinds:
        if kind.load_class is LoadClass.CORD and load_va(device, rules) > corded:
            findings.append(
                _problem(
                    circuit,
                    "cable.share-cord",
                    f"'{device.name}' takes {load_va(device, rules):,.0f} VA of a circuit it shares.",
                    f"at most {corded:,.0f} VA.",
                    "Give it a circuit of its own.",
                    rules["cable.cord_percent"].source,
                )
            )
    fastened = sum(load_va(d, rules) for d, kind in kinds if kind.load_class in _FIXED and not kind.own)
    if fastened > fixed:
        findings.append(
            _problem(
                circuit,
                "cable.share-fastened",
                f"appliances fastened in place take {fastened:,.0f} VA of a circuit they share.",
                f"at most {fixed:,.0f} VA.",
                "Give the largest a circuit of its own.",
                rules["cable.fastened_percent"].source,
            )
        )
    return findings


def _uses(
    circuit: Circuit, devices: Sequence[Device], kinds: Mapping[str, RoomKind], rules: RuleBook
) -> list[Finding]:
    """Find devices that do not belong on this circuit."""
    findings: list[Finding] = []
    served = [device for device in devices if device.kind is not DeviceKind.SWITCH]
    if circuit.use is CircuitUse.BATH and len({device.room for device in served}) == 1:
        return findings  # a circuit for one bath alone may take all that is in it
    for device in served:
        asked = use_of(device, kinds, rules)
        if asked is circuit.use or (circuit.use is CircuitUse.OUTDOOR and not device.room):
            continue
        if asked is CircuitUse.INDIVIDUAL:
            findings += _wants_its_own(circuit, device, served)
        elif circuit.use is CircuitUse.INDIVIDUAL:
            findings += _not_alone(circuit, served)
        elif circuit.use in _REQUIRED:
            findings.append(_stranger(circuit, device, rules))
        elif asked in _REQUIRED:
            findings.append(_elsewhere(circuit, device, asked, rules))
    if circuit.use is CircuitUse.INDIVIDUAL:
        findings += _not_alone(circuit, served)
    return list(dict.fromkeys(findings))


def _wants_its_own(circuit: Circuit, device: Device, served: Sequence[Device]) -> list[Finding]:
    if len(served) < 2:
        return []
    known = kind_on(device)
    return [
        _problem(
            circuit,
            "cable.own-circuit",
            f"'{device.name}' shares it with {len(served) - 1} other{'s' if len(served) > 2 else ''}.",
            f"a circuit to itself for a {known.key if known else device.typed.what or 'such an appliance'}.",
            f"Write a circuit of use 'individual' for '{device.name}'.",
            known.source if known else None,
        )
    ]


def _not_alone(circuit: Circuit, served: Sequence[Device]) -> list[Finding]:
    if len(served) < 2:
        return []
    names = ", ".join(device.name for device in served)
    return [
        _problem(
            circuit,
            "cable.individual-shared",
            f"an individual circuit feeds {len(served)} things: {names}.",
            "one appliance alone.",
            "Divide it, or correct its use.",
        )
    ]


def _stranger(circuit: Circuit, device: Device, rules: RuleBook) -> Finding:
    return _problem(
        circuit,
        "cable.mixed-use",
        f"'{device.name}' ({device.kind.value}, {device.room or 'outdoors'}) is on a {circuit.use.value} "
        "circuit.",
        f"nothing on it but what a {circuit.use.value} circuit is for.",
        f"Move '{device.name}' to another circuit.",
        rules[_REQUIRED[circuit.use]].source,
    )


def _elsewhere(circuit: Circuit, device: Device, asked: CircuitUse, rules: RuleBook) -> Finding:
    return _problem(
        circuit,
        "cable.required-circuit",
        f"'{device.name}' ({device.kind.value}, {device.room or 'outdoors'}) is on a "
        f"{circuit.use.value} circuit.",
        f"a {asked.value} circuit for it.",
        f"Move '{device.name}' to a {asked.value} circuit.",
        rules[_REQUIRED[asked]].source,
    )
