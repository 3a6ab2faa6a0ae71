"""Circuits as the house file names them, made whole: use, wire, cable, load."""

from collections.abc import Mapping, Sequence

from setday.cable.appliance import LoadClass, kind_on, load_va
from setday.cable.circuit import Circuit, CircuitUse
from setday.cable.circuits.sizing import cable_of, wire_for
from setday.errors import RuleError
from setday.findings import Finding
from setday.house import Device, House, TypedCircuit
from setday.rules import RuleBook

__all__ = ["circuit_load_va", "needs_neutral", "typed_circuits"]

_WITH_NEUTRAL = {LoadClass.COOKING, LoadClass.DRYER}
_FALLBACK_AWG, _FALLBACK_CABLE = 12, "12/2"
"""Taken for a circuit that no cable fits, so that the rest can be figured; the finding stands."""


def typed_circuits(house: House, rules: RuleBook) -> tuple[tuple[Circuit, ...], tuple[Finding, ...]]:
    """Return the circuits that the house file names, and what cannot be read of them.

    Parameters
    ----------
    house : House
    rules : RuleBook
        The rules of cable.
    """
    by_name = {device.name: device for device in house.devices}
    findings: list[Finding] = []
    circuits = []
    for typed in house.circuits:
        circuit, found = _whole(typed, by_name, rules)
        circuits.append(circuit)
        findings += found
    return tuple(circuits), tuple(findings)


def _whole(
    typed: TypedCircuit, by_name: Mapping[str, Device], rules: RuleBook
) -> tuple[Circuit, list[Finding]]:
    findings = []
    devices = tuple(by_name[name] for name in typed.devices if name in by_name)
    uses = {use.value: use for use in CircuitUse}
    if typed.use not in uses:
        findings.append(_finding(typed, "cable.circuit-use", f"'{typed.use}' is no use of a circuit.", uses))
    use = uses.get(typed.use, CircuitUse.GENERAL)
    neutral = needs_neutral(devices, typed.volts)
    try:
        awg = typed.wire or wire_for(typed.breaker)
        cable = cable_of(awg, hots=2 if typed.volts > 120 else 1, neutral=neutral)
    except RuleError as error:
        awg, cable = _FALLBACK_AWG, _FALLBACK_CABLE
        findings.append(_no_cable(typed, error))
    return (
        Circuit(
            name=typed.name,
            use=use,
            devices=tuple(device.name for device in devices),
            breaker=typed.breaker,
            volts=typed.volts,
            awg=awg,
            cable=cable,
            load_va=circuit_load_va(use, devices, rules),
            why="written in the house file",
            neutral=neutral,
            ordered=typed.ordered,
            typed=True,
            where=typed.where,
        ),
        findings,
    )


def _no_cable(typed: TypedCircuit, error: RuleError) -> Finding:
    wire = f" and {typed.wire} AWG" if typed.wire else ""
    return Finding(
        rule="cable.circuit-wire",
        about=f"circuit '{typed.name}'",
        found=f"no cable fits {typed.breaker} A{wire}. {error.message}",
        do=error.do,
        where=typed.where,
    )


def _finding(typed: TypedCircuit, rule: str, found: str, uses: Mapping[str, CircuitUse]) -> Finding:
    return Finding(
        rule=rule,
        about=f"circuit '{typed.name}'",
        found=found,
        expected=f"one of: {', '.join(uses)}.",
        do="Correct its use.",
        where=typed.where,
    )


def needs_neutral(devices: Sequence[Device], volts: int) -> bool:
    """Return whether a circuit carries a neutral: always at 120 V, for ranges and dryers at 240 V."""
    if volts <= 120:
        return True
    known = [kind_on(device) for device in devices]
    return any(kind.load_class in _WITH_NEUTRAL for kind in known if kind is not None)


def circuit_load_va(use: CircuitUse, devices: Sequence[Device], rules: RuleBook) -> float:
    """Return the load a circuit is counted with when the legs are balanced [VA]."""
    if use is CircuitUse.SMALL_APPLIANCE:
        return rules.number("cable.small_appliance_va")
    if use is CircuitUse.LAUNDRY:
        return rules.number("cable.laundry_va")
    return sum(load_va(device, rules) for device in devices)
