"""Circuits proposed for devices that are on none: the required ones, the appliances', the general ones."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, count, islice
from math import ceil

from setday.cable.appliance import kind_on
from setday.cable.circuit import Circuit, CircuitUse, Distance
from setday.cable.circuits.claims import claims_of
from setday.cable.circuits.clusters import Cluster, clusters_of, inner_ft, problem_of
from setday.cable.circuits.dividing import divide, least_circuits
from setday.cable.circuits.grouping import Groups
from setday.cable.circuits.protection import wiring_kinds
from setday.cable.circuits.sizing import breaker_for, cable_of, wire_for
from setday.cable.circuits.typed_circuits import circuit_load_va, needs_neutral
from setday.cable.loads.load import dwelling_area_sqft
from setday.house import Device, House
from setday.rules import RuleBook

__all__ = ["Proposal", "propose_circuits"]

_VOLTS = 120
_REQUIRED = {
    CircuitUse.SMALL_APPLIANCE: "cable.small_appliance_circuits",
    CircuitUse.LAUNDRY: "cable.laundry_circuits",
    CircuitUse.BATH: "cable.bath_circuits",
    CircuitUse.GARAGE: "cable.garage_circuits",
}
_WHY = {
    CircuitUse.SMALL_APPLIANCE: "receptacles of kitchen and dining rooms",
    CircuitUse.LAUNDRY: "receptacles of the laundry area",
    CircuitUse.BATH: "receptacles of the baths",
    CircuitUse.GARAGE: "receptacles of the garage",
    CircuitUse.GENERAL: "lights and receptacles",
}
_MORE = 3
"""So many circuits more are tried where the loads cannot be divided over the fewest [count]; our own."""


@dataclass(slots=True)
class Proposal:
    """Circuits as they are proposed, and the cable that dividing them takes.

    Parameters
    ----------
    circuits : list of Circuit
    cable_ft, bound_ft : float
        Of the circuits that share outlets: least trees, and the proven least of any division [ft].
    proven : bool
    methods : list of str
    """

    circuits: list[Circuit] = field(default_factory=list)
    cable_ft: float = 0.0
    bound_ft: float = 0.0
    proven: bool = True
    methods: list[str] = field(default_factory=list)


def propose_circuits(
    house: House,
    devices: Sequence[Device],
    *,
    already: Sequence[Circuit],
    distance: Distance,
    rules: RuleBook,
) -> Proposal:
    """Propose circuits for devices.

    Parameters
    ----------
    house : House
    devices : sequence of Device
        Those that are on no circuit.
    already : sequence of Circuit
        The circuits there are; of a required kind only those that lack are added, one at least.
    distance : callable
        Cable between two boxes [ft].
    rules : RuleBook
        The rules of cable.
    """
    claims = claims_of(devices, wiring_kinds(house), rules)
    proposal = Proposal()
    names = {circuit.name for circuit in already}
    for group in claims.own:
        _add(proposal, names, [_own(group, rules)])
    for use in _WHY:
        if claims.shared.get(use):
            least = _least(use, already, house, rules)
            shared = _shared(use, claims.shared[use], least, proposal, distance, rules)
            _add(proposal, names, shared)
    proposal.circuits.sort(key=lambda circuit: -circuit.poles)
    return proposal


def _add(proposal: Proposal, names: set[str], circuits: Sequence[Circuit]) -> None:
    """Add circuits, each under a name that no other has."""
    for circuit in circuits:
        numbered = (f"{circuit.name} {number}" for number in count(1))
        wanted = numbered if len(circuits) > 1 else chain([circuit.name], islice(numbered, 1, None))
        name = next(name for name in wanted if name not in names)
        names.add(name)
        proposal.circuits.append(replace(circuit, name=name))


def _own(group: Sequence[Device], rules: RuleBook) -> Circuit:
    """Return the circuit of one appliance and its switches."""
    device = group[0]
    known = kind_on(device)
    volts = device.typed.volts
    load = circuit_load_va(CircuitUse.INDIVIDUAL, group, rules)
    breaker = breaker_for(load, volts, known=known)
    neutral = needs_neutral(group, volts)
    awg = wire_for(breaker)
    return Circuit(
        name=device.name,
        use=CircuitUse.INDIVIDUAL,
        devices=tuple(each.name for each in group),
        breaker=breaker,
        volts=volts,
        awg=awg,
        cable=cable_of(awg, hots=2 if volts > _VOLTS else 1, neutral=neutral),
        load_va=load,
        why=f"a circuit to itself: {device.typed.what or device.name}",
        source=known.source if known is not None else None,
        neutral=neutral,
        where=device.typed.where,
    )


def _least(use: CircuitUse, already: Sequence[Circuit], house: House, rules: RuleBook) -> int:
    """Return how many circuits of a use to start from."""
    there = sum(circuit.use is use for circuit in already)
    if use in _REQUIRED:
        return max(1, int(rules.number(_REQUIRED[use])) - there)
    watts = dwelling_area_sqft(house) * rules.number("cable.lighting_va_per_sqft")
    return max(1, ceil(watts / (rules.number("cable.general_breaker") * _VOLTS)) - there)


def _shared(
    use: CircuitUse,
    devices: Sequence[Device],
    least: int,
    proposal: Proposal,
    distance: Distance,
    rules: RuleBook,
) -> list[Circuit]:
    """Divide the devices of one use over circuits."""
    key = "cable.general_breaker" if use is CircuitUse.GENERAL else "cable.required_breaker"
    breaker = int(rules.number(key))
    most = breaker * _VOLTS
    clusters = clusters_of(devices, most_va=most, rules=rules)
    alone = [cluster for cluster in clusters if cluster.load_va > most]
    rest = [cluster for cluster in clusters if cluster.load_va <= most]
    divided = [[cluster] for cluster in alone]
    if rest:
        divided += _divided(rest, use, max(1, least - len(alone)), most, proposal, distance)
    rule = _REQUIRED.get(use, key)
    return [
        _circuit(use, [device for cluster in group for device in cluster.devices], breaker, rule, rules)
        for group in divided
    ]


def _divided(
    clusters: Sequence[Cluster],
    use: CircuitUse,
    least: int,
    most: int,
    proposal: Proposal,
    distance: Distance,
) -> list[list[Cluster]]:
    counters = frozenset(n for n, cluster in enumerate(clusters) if _on_counter(cluster))
    problem = problem_of(clusters, distance, circuits=1, most_va=most)
    least = min(max(least, least_circuits(problem)), len(clusters))
    groups: Groups | None = None
    for circuits in range(least, min(least + _MORE, len(clusters)) + 1):
        spread = counters if use is CircuitUse.SMALL_APPLIANCE and len(counters) >= circuits else frozenset()
        groups = divide(replace(problem, circuits=circuits, spread=spread))
        if groups is not None:
            break
    if groups is None:  # one cluster a circuit always fits
        groups = divide(replace(problem, circuits=len(clusters)))
    if groups is None:
        raise RuntimeError("outlets that fit one by one do not fit")
    inner = sum(inner_ft(cluster, distance) for cluster in clusters)
    proposal.cable_ft += groups.cable_ft + inner
    proposal.bound_ft += groups.bound_ft + inner
    proposal.proven &= groups.proven
    proposal.methods.append(f"{use.value}: {groups.method}")
    return [[clusters[n] for n in group] for group in groups.groups]


def _on_counter(cluster: Cluster) -> bool:
    return any("counter" in device.typed.what for device in cluster.devices)


def _circuit(use: CircuitUse, devices: Sequence[Device], breaker: int, rule: str, rules: RuleBook) -> Circuit:
    awg = wire_for(breaker)
    rooms = ", ".join(dict.fromkeys(device.room or "outdoors" for device in devices))
    return Circuit(
        name=use.value,
        use=use,
        devices=tuple(device.name for device in devices),
        breaker=breaker,
        volts=_VOLTS,
        awg=awg,
        cable=cable_of(awg),
        load_va=circuit_load_va(use, devices, rules),
        why=f"{_WHY[use]}: {rooms}",
        source=rules[rule].source,
    )
