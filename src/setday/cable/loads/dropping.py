"""Voltage drop of circuits: what is lost on the way to the farthest box; advice, never a violation."""

from collections.abc import Iterable, Mapping, Sequence

from setday.cable.circuit import PANEL, Circuit, CircuitUse, Drop, RunLength
from setday.cable.loads.cooking import cooking_demand
from setday.electric import cable_kind, impedance_ohm_per_ft, ohm_per_ft, resistance_source
from setday.findings import Finding, Severity
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["advise_on_drop", "current_counted", "drop_of", "longest_ft", "voltage_drop"]

_SPREAD = {CircuitUse.GENERAL, CircuitUse.GARAGE, CircuitUse.OUTDOOR}
"""Circuits whose load is spread over many outlets."""


def voltage_drop(length_ft: float, *, awg: int, current_a: float, rules: RuleBook) -> float:
    """Return the voltage lost on a cable, there and back [V].

    Parameters
    ----------
    length_ft : float
        One way [ft].
    awg : int
        [AWG], copper.
    current_a : float
        [A].
    rules : RuleBook
        Solid or stranded; the power factor.

    Examples
    --------
    >>> from setday.cable.rulebook import cable_rules
    >>> round(voltage_drop(100, awg=12, current_a=20, rules=cable_rules()), 2)
    7.72
    """
    return 2 * length_ft * _ohm(awg, rules) * current_a


def _ohm(awg: int, rules: RuleBook) -> float:
    factor = rules.number("cable.drop_power_factor")
    if factor < 1:
        return impedance_ohm_per_ft(awg, power_factor=factor)
    return ohm_per_ft(awg, stranded=rules.flag("cable.drop_stranded"))


def longest_ft(*, awg: int, current_a: float, volts: float, percent: float, rules: RuleBook) -> float:
    """Return how long a cable may be, one way, before it loses so much [ft].

    Parameters
    ----------
    awg : int
        [AWG], copper.
    current_a, volts, percent : float
        [A], [V], [percent].
    rules : RuleBook
        Solid or stranded; the power factor.

    Examples
    --------
    >>> from setday.cable.rulebook import cable_rules
    >>> round(longest_ft(awg=14, current_a=12, volts=120, percent=3, rules=cable_rules()), 1)
    48.9
    """
    return volts * percent / 100 / (2 * _ohm(awg, rules) * current_a)


def current_counted(circuit: Circuit, rules: RuleBook) -> float:
    """Return the current at which a circuit's drop is worked out [A].

    An appliance's own, a range's at its demand; a shared circuit's at the share of its breaker that the
    rules name.
    """
    if circuit.use is CircuitUse.INDIVIDUAL and circuit.load_va > 0:
        load = circuit.load_va
        if circuit.neutral and circuit.volts > 120:
            load = min(load, cooking_demand([load])[0])
        return min(load / circuit.volts, float(circuit.breaker))
    return circuit.breaker * rules.number("cable.drop_load_percent") / 100


def drop_of(
    circuit: Circuit,
    runs: Iterable[RunLength],
    *,
    rules: RuleBook,
    outlets: Mapping[str, float] | None = None,
) -> Drop | None:
    """Work out the voltage drop at the farthest box of a circuit; None where no run leaves the panel.

    Parameters
    ----------
    circuit : Circuit
    runs : iterable of RunLength
        Those of the circuit.
    rules : RuleBook
        The rules of cable.
    outlets : mapping or None
        Box to the load on it [VA]; a general circuit is loaded so, unless the rules say otherwise.
    """
    ways = _ways(tuple(runs))
    if not ways:
        return None
    currents = _currents(circuit, ways, outlets, rules)
    lost = {
        box: sum(_lost(run, currents[_end(run, ways)], rules) for run in way) for box, way in ways.items()
    }
    farthest = max(lost, key=lambda box: (lost[box], box))
    way = ways[farthest]
    return Drop(
        circuit=circuit.name,
        box=farthest,
        length_ft=sum(run.length_ft for run in way),
        current_a=currents[_end(way[0], ways)],
        volts=lost[farthest],
        percent=lost[farthest] / circuit.volts * 100,
        working=_working(circuit, [(run, currents[_end(run, ways)]) for run in way], lost[farthest], rules),
    )


def _lost(run: RunLength, current: float, rules: RuleBook) -> float:
    return voltage_drop(run.length_ft, awg=cable_kind(run.cable).awg, current_a=current, rules=rules)


def _end(run: RunLength, ways: Mapping[str, tuple[RunLength, ...]]) -> str:
    """Return the end of a run that is farther from the panel."""
    return next(box for box in (run.end, run.start) if box in ways and ways[box] and ways[box][-1] is run)


def _currents(
    circuit: Circuit,
    ways: Mapping[str, tuple[RunLength, ...]],
    outlets: Mapping[str, float] | None,
    rules: RuleBook,
) -> dict[str, float]:
    """Return the current in the run that leads to each box [A]."""
    whole = current_counted(circuit, rules)
    shared = circuit.use in _SPREAD and rules.choice("cable.drop_where") == "on its outlets"
    if not shared or outlets is None:
        return dict.fromkeys(ways, whole)
    return {
        box: sum(va for other, va in outlets.items() if other in ways and way[-1] in ways[other])
        / circuit.volts
        for box, way in ways.items()
    }


def _ways(runs: Sequence[RunLength]) -> dict[str, tuple[RunLength, ...]]:
    """Return the runs from the panel to each box that can be reached; the first found where there are two."""
    ways: dict[str, tuple[RunLength, ...]] = {PANEL: ()}
    waiting = [PANEL]
    while waiting:
        here = waiting.pop(0)
        for run in runs:
            if here in {run.start, run.end}:
                other = run.end if run.start == here else run.start
                if other not in ways:
                    ways[other] = (*ways[here], run)
                    waiting.append(other)
    del ways[PANEL]
    return ways


def _working(
    circuit: Circuit, way: Sequence[tuple[RunLength, float]], lost: float, rules: RuleBook
) -> Working:
    steps = [
        Step(
            label=f"{run.start} to {run.end}",
            expression=f"2 x {run.length_ft:.1f} ft x {_ohm(cable_kind(run.cable).awg, rules) * 1000:.3f} "
            f"ohm/1000 ft x {current:.1f} A",
            result=f"{(volts := _lost(run, current, rules)):.2f} V",
            value=volts,
            unit="V",
            source=resistance_source(),
        )
        for run, current in way
    ]
    percent = lost / circuit.volts * 100
    steps.append(
        Step(
            label="of the circuit's voltage",
            expression=f"{lost:.2f} V / {circuit.volts} V",
            result=f"{percent:.1f} %",
            value=percent,
            unit="percent",
        )
    )
    return Working(
        key=f"cable/drop/{circuit.name}",
        title=f"Voltage drop of '{circuit.name}'",
        steps=tuple(steps),
        result=f"{percent:.1f} %",
        value=percent,
        unit="percent",
        assumptions=(_loaded(circuit, rules), "The copper at 75 degrees C; slack for the set left in."),
    )


def _loaded(circuit: Circuit, rules: RuleBook) -> str:
    if circuit.use is CircuitUse.INDIVIDUAL:
        return "The appliance's own current."
    if circuit.use in _SPREAD and rules.choice("cable.drop_where") == "on its outlets":
        return "Each outlet takes the load it is counted with."
    return f"{rules.number('cable.drop_load_percent'):g} % of {circuit.breaker} A flow to the farthest box."


def advise_on_drop(
    drops: Iterable[Drop], circuits: Sequence[Circuit], *, rules: RuleBook
) -> tuple[Finding, ...]:
    """Note circuits that lose more than is advised; never a violation.

    Parameters
    ----------
    drops : iterable of Drop
    circuits : sequence of Circuit
    rules : RuleBook
        The rules of cable.
    """
    where = {circuit.name: circuit.where for circuit in circuits}
    most = rules.number("cable.drop_branch_percent")
    return tuple(
        Finding(
            rule="cable.voltage-drop",
            about=f"circuit '{drop.circuit}'",
            found=f"{drop.percent:.1f} % of its voltage is lost on the {drop.length_ft:.0f} ft to "
            f"'{drop.box}' at {drop.current_a:.1f} A.",
            expected=f"{most:g} % or less is advised; the code does not demand it.",
            do="Shorten the way, divide the circuit, or pull the next thicker wire.",
            where=where[drop.circuit],
            severity=Severity.NOTE,
            source=rules["cable.drop_branch_percent"].source,
        )
        for drop in drops
        if drop.percent > most
    )
