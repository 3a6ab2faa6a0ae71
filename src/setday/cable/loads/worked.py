"""What is worked out once circuits and runs stand: load, service, box fill, voltage drop."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable.appliance import load_va
from setday.cable.circuit import BoxFill, CircuitPlan, Drop, RunLength, Service
from setday.cable.loads.bundles import check_bundles
from setday.cable.loads.dropping import advise_on_drop, drop_of
from setday.cable.loads.filling import check_fill, fill_boxes
from setday.cable.loads.free_conductor import check_tail, least_tail
from setday.cable.loads.legs import LegLoads, leg_loads
from setday.cable.loads.load import DwellingLoads, dwelling_loads
from setday.cable.loads.load_optional import optional_load
from setday.cable.loads.load_standard import neutral_load, standard_load
from setday.cable.loads.service import service_for
from setday.cable.run import Hole, Run
from setday.findings import Finding, in_order
from setday.house import House
from setday.rules import RuleBook
from setday.working import Working

__all__ = ["WorkedOut", "work_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """Figures of the wiring, each with its working.

    Parameters
    ----------
    loads : DwellingLoads
        What the load calculations start from.
    standard, optional, neutral : Working
        Load by the standard and the optional method, and of the neutral [VA].
    legs : LegLoads
    service : Service
    fills : tuple of BoxFill
        By the order of the devices.
    drops : tuple of Drop
        By the order of the circuits.
    tail : Working
        Least cable in a box [in].
    findings : tuple of Finding
    """

    loads: DwellingLoads
    standard: Working
    optional: Working
    neutral: Working
    legs: LegLoads
    service: Service
    fills: tuple[BoxFill, ...]
    drops: tuple[Drop, ...]
    tail: Working
    findings: tuple[Finding, ...]

    def fill_of(self, box: str) -> BoxFill | None:
        """Return the fill of a box, or None where it has none."""
        return next((fill for fill in self.fills if fill.box == box), None)

    def drop_on(self, circuit: str) -> Drop | None:
        """Return the voltage drop of a circuit, or None where it has no run."""
        return next((drop for drop in self.drops if drop.circuit == circuit), None)

    @property
    def workings(self) -> tuple[Working, ...]:
        """All workings, in the order a person reads them."""
        whole = (
            self.standard, self.optional, self.neutral, self.legs.working, self.service.working, self.tail,
        )  # fmt: skip
        return (
            *whole,
            *(fill.working for fill in self.fills),
            *(drop.working for drop in self.drops),
        )


def work_out(
    house: House, plan: CircuitPlan, runs: Sequence[Run], holes: Sequence[Hole], *, rules: RuleBook
) -> WorkedOut:
    """Work out load, service, box fill and voltage drop of a wired house.

    Parameters
    ----------
    house : House
        With its devices.
    plan : CircuitPlan
    runs : sequence of Run
    holes : sequence of Hole
    rules : RuleBook
        The rules of cable.
    """
    loads = dwelling_loads(house, plan.circuits, rules=rules)
    panel = house.wiring.panel
    cables = [run.cable for run in runs]
    fills = fill_boxes(house, plan.circuits, cables, rules=rules)
    drops = _drops(house, plan, runs, rules)
    by_name = {circuit.name: circuit for circuit in plan.circuits}
    return WorkedOut(
        loads=loads,
        standard=standard_load(loads, rules),
        optional=optional_load(loads, rules),
        neutral=neutral_load(loads, rules),
        legs=leg_loads(loads, rules),
        service=service_for(loads, rules, rating=panel.rating if panel else None),
        fills=fills,
        drops=drops,
        tail=least_tail(rules),
        findings=in_order(
            (
                *check_fill(fills, house, rules=rules),
                *advise_on_drop(drops, plan.circuits, rules=rules),
                *check_tail(rules),
                *check_bundles(holes, cables, by_name),
            )
        ),
    )


def _drops(house: House, plan: CircuitPlan, runs: Sequence[Run], rules: RuleBook) -> tuple[Drop, ...]:
    """Return the drop of each circuit, the slack for the set left in."""
    found = []
    by_name = {device.name: device for device in house.devices}
    for circuit in plan.circuits:
        lengths = [
            RunLength(start=r.cable.start, end=r.cable.end, cable=r.cable.kind, length_ft=r.cut.feet)
            for r in runs
            if r.circuit == circuit.name
        ]
        outlets: dict[str, float] = {}
        for device in (by_name[name] for name in circuit.devices):
            outlets[device.box] = outlets.get(device.box, 0.0) + load_va(device, rules)
        drop = drop_of(circuit, lengths, rules=rules, outlets=outlets)
        if drop is not None:
            found.append(drop)
    return tuple(found)
