"""The cable of a house, figured: devices checked, circuits, switch legs, routes, pull list."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from setday.cable.cables import SwitchLeg, chain_of, circuit_cables, feed_boxes
from setday.cable.chain import BoxOrder
from setday.cable.circuit import Circuit, CircuitPlan, box_of
from setday.cable.circuits.planning import plan_circuits
from setday.cable.loads.filling import fill_of_box
from setday.cable.loads.worked import WorkedOut, work_out
from setday.cable.placing.device_check import DeviceCheck, check_devices
from setday.cable.placing.near_water import near_water
from setday.cable.routes.passages import Passages
from setday.cable.routes.pulls import HomeRun, home_runs, pull_list
from setday.cable.routes.route_rules import route_rules
from setday.cable.routes.routing import Routing, route_cables
from setday.cable.run import PANEL, Cable, Pull
from setday.cable.stops import stops_of
from setday.cable.switched import SwitchedGroup, switched_groups
from setday.findings import Finding, Severity, in_order
from setday.house import DeviceKind, House
from setday.rules import Rule, RuleBook
from setday.solving import Limits

__all__ = ["CableFigure", "PlannedLegs", "SwitchingAsk", "figure"]

_NO_WAY_FT = 1e5
"""Boxes in an order longer than this are not all reached [ft]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedLegs:
    """What the switching part answers for one switched group.

    Parameters
    ----------
    group : SwitchedGroup
    feed : str
        The box that the circuit's own cable must reach.
    legs : tuple of SwitchLeg
        Cables from there to the group's other boxes.
    """

    group: SwitchedGroup
    feed: str
    legs: tuple[SwitchLeg, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class SwitchingAsk:
    """What the switching part is asked: groups, how far boxes are apart, and what each group hangs on.

    Parameters
    ----------
    house : House
    groups : tuple of SwitchedGroup
    plan : CircuitPlan
    passages : Passages
    rules : RuleBook
    """

    house: House
    groups: tuple[SwitchedGroup, ...]
    plan: CircuitPlan
    passages: Passages
    rules: RuleBook

    def fits(self, box: str, cables: Sequence[str]) -> bool:
        """Tell whether some box of the table takes a box's devices with these cables in it."""
        devices = [device for device in self.house.devices if device.box == box]
        on = {name: circuit for circuit in self.plan.circuits for name in circuit.devices}
        return fill_of_box(box, devices, cables, on=on, rules=self.rules).fits

    def distance_ft(self, a: str, b: str) -> float:
        """Return the cable between two boxes [ft]."""
        return self.passages.distance_ft(a, b)

    def feed_from(self, group: SwitchedGroup) -> str:
        """Return where a group's supply comes from: its circuit's nearest other box, or the panel."""
        circuit = next((c for c in self.plan.circuits if c.name == group.circuit), None)
        others = [
            box for box in (feed_boxes(circuit, self.house) if circuit else ()) if box not in group.boxes
        ]
        panel = [PANEL] if PANEL in self.passages.by_name else []
        return min(
            [*panel, *others],
            key=lambda stop: min(self.distance_ft(stop, box) for box in group.boxes),
            default=group.boxes[0],
        )

    def size_of(self, group: SwitchedGroup) -> tuple[int, int]:
        """Return the conductor size [AWG] and the breaker [A] of a group's circuit."""
        circuit = next((c for c in self.plan.circuits if c.name == group.circuit), None)
        return (circuit.awg, circuit.breaker) if circuit else (14, 15)


Switching = Callable[[SwitchingAsk], tuple[tuple[PlannedLegs, ...], tuple[Finding, ...]]]
"""The switching part, handed in: trades do not know each other."""


@dataclass(frozen=True, kw_only=True, eq=False)
class CableFigure:
    """Everything about the cable of one house.

    Parameters
    ----------
    house : House
        With its devices.
    check : DeviceCheck
    plan : CircuitPlan
    passages : Passages
        The ways between its boxes.
    groups : tuple of SwitchedGroup
    orders : dict
        By circuit: the order in which its cable reaches the boxes.
    routing : Routing
    pulls : tuple of Pull
    homes : tuple of HomeRun
    worked : WorkedOut
        Load, service, box fill, voltage drop, each with its working.
    findings : tuple of Finding
        Of devices, circuits, switching and routes together.
    settings : tuple of Rule
    """

    house: House
    check: DeviceCheck
    plan: CircuitPlan
    passages: Passages
    groups: tuple[SwitchedGroup, ...]
    orders: dict[str, BoxOrder]
    routing: Routing
    pulls: tuple[Pull, ...]
    homes: tuple[HomeRun, ...]
    worked: WorkedOut
    findings: tuple[Finding, ...]
    settings: tuple[Rule, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """What must be put right before anybody pulls a cable."""
        return tuple(f for f in self.findings if f.severity is Severity.PROBLEM)

    def number_of(self, circuit: str) -> int:
        """Return the number of a circuit, counted from 1."""
        return [each.name for each in self.plan.circuits].index(circuit) + 1


def figure(house: House, *, rules: RuleBook, switching: Switching, limits: Limits) -> CableFigure:
    """Work out the cable of a house from its devices on.

    Parameters
    ----------
    house : House
        With devices, typed or proposed.
    rules : RuleBook
        From `setday.cable.cable_rules`, local rules put in.
    switching : callable
        Plans the cables between switches and what they serve.
    limits : Limits
        For circuits with more boxes than can be weighed one by one.
    """
    passages = Passages(house, stops_of(house), route_rules(house, rules))
    plan = plan_circuits(
        house, distance=passages.distance_ft, rules=rules, near_water=near_water(house, rules)
    )
    groups = switched_groups(house, plan.circuits)
    legs, unplanned = switching(
        SwitchingAsk(house=house, groups=groups, plan=plan, passages=passages, rules=rules)
    )
    orders, cables = _cables(house, plan, legs, passages, limits, _sounding(house, rules))
    routing = route_cables(passages, cables)
    worked = work_out(house, plan, routing.runs, routing.holes, rules=rules)
    check = check_devices(house, rules)
    return CableFigure(
        house=house,
        check=check,
        plan=plan,
        passages=passages,
        groups=groups,
        orders=orders,
        routing=routing,
        pulls=pull_list(routing, passages),
        homes=home_runs(routing),
        worked=worked,
        findings=in_order([*check.findings, *plan.findings, *unplanned, *routing.findings, *worked.findings]),
        settings=tuple(rules),
    )


def _cables(
    house: House,
    plan: CircuitPlan,
    legs: Sequence[PlannedLegs],
    passages: Passages,
    limits: Limits,
    sounding: frozenset[str],
) -> tuple[dict[str, BoxOrder], tuple[Cable, ...]]:
    """Return the order of boxes on each circuit that has a way to all of them, and the cables of all."""
    orders: dict[str, BoxOrder] = {}
    cables: list[Cable] = []
    for number, circuit in enumerate(plan.circuits, start=1):
        own = [each for each in legs if each.group.circuit == circuit.name]
        order = chain_of(circuit, _fed(circuit, house, own), passages=passages, limits=limits)
        if order.length.feet < _NO_WAY_FT:
            orders[circuit.name] = order
        wanted = [leg for each in own for leg in each.legs]
        cables += circuit_cables(circuit, order.boxes, number=number, legs=wanted, sounding=sounding)
    return orders, tuple(cables)


def _sounding(house: House, rules: RuleBook) -> frozenset[str]:
    """Return the boxes of alarms that a conductor of their own joins."""
    if not rules.flag("cable.alarms_joined"):
        return frozenset()
    return frozenset(box_of(device) for device in house.devices if device.kind is DeviceKind.ALARM)


def _fed(circuit: Circuit, house: House, legs: Sequence[PlannedLegs]) -> tuple[str, ...]:
    by_legs = [box for each in legs for box in each.group.boxes if box != each.feed]
    return feed_boxes(circuit, house, fed_by_switch=by_legs)
