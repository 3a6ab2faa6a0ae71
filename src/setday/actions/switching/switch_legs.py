"""Switch legs of a house: the hookup of each switched group, planned with the fewest conductors."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

from setday.cable import SwitchedGroup, SwitchLeg, Wanted, always_on, box_of
from setday.errors import NoAnswer
from setday.findings import Finding, Severity, Where
from setday.house import Device, House
from setday.house import DeviceKind as HouseKind
from setday.rules import LocalRules
from setday.switching import (
    Box,
    DeviceKind,
    Feed,
    Hookup,
    Judgment,
    Path,
    Plan,
    Want,
    conductor_feet,
    judge,
    plan,
)
from setday.switching import Device as HookupDevice

__all__ = ["NO_PLAN", "HouseHookup", "Legs", "hookup_of", "plan_legs"]

NO_PLAN = "cable.switching"
"""The rule of what is found about a switched group that has no plan."""
_SECONDS = 1.0
"""Time limit for one plan [s]; the usual group takes a hundredth of it."""
_MOST_FEEDS = 6
"""Groups of more boxes are planned with the supply at the nearest boxes only [count]; our own."""
_CROWDED = 10_000.0
"""A box too full counts for more than any cable [ft]; our own."""
_NO_WAY_FT = 1e5
"""Where no cable can go the distance is given as longer than any house [ft]."""
_LEAST_WIRES = 3
"""No cable has fewer conductors, its ground counted."""
_OPEN_A_WAY = "Take a wall off the closed walls, or move the boxes to where cable can go."
_SKETCH_FT = 4.0
"""Feet of the plan to one column of the hookup's sketch; our own."""

Distance = Callable[[str, str], float]
"""Length of cable between two boxes [ft]."""


@dataclass(frozen=True, kw_only=True, eq=False)
class HouseHookup:
    """The hookup of a switched group of the house.

    Parameters
    ----------
    group : SwitchedGroup
    hookup : Hookup
        Boxes, cables and joins.
    judgment : Judgment
        It was tried in every position and held against the code.
    plan : Plan or None
        How it was planned and what is proven; None where the instructor wired it by hand.
    """

    group: SwitchedGroup
    hookup: Hookup
    judgment: Judgment
    plan: Plan | None = None

    @property
    def legs(self) -> tuple[SwitchLeg, ...]:
        """The cables between its boxes."""
        return tuple(SwitchLeg(start=cable.a, end=cable.b, kind=cable.kind) for cable in self.hookup.cables)


@dataclass(frozen=True, kw_only=True, eq=False)
class Legs:
    """The hookups of a house, and the groups that have none."""

    hookups: tuple[HouseHookup, ...]
    findings: tuple[Finding, ...]


def plan_legs(
    house: House,
    groups: tuple[SwitchedGroup, ...],
    *,
    distance: Distance,
    feed_from: Callable[[SwitchedGroup], str],
    sizes: Callable[[SwitchedGroup], tuple[int, int]],
    local: LocalRules | None = None,
    by_hand: tuple[Hookup, ...] = (),
    fits: Callable[[str, Sequence[str]], bool] = lambda _box, _cables: True,
) -> Legs:
    """Plan every switched group, with the supply at the box that takes the fewest conductor-feet.

    Parameters
    ----------
    house : House
    groups : tuple of SwitchedGroup
    distance : callable
        Length of cable between two boxes [ft].
    feed_from : callable
        The stop a group's supply comes from: the nearest other box of its circuit, or the panel.
    sizes : callable
        Conductor size [AWG] and breaker [A] of a group's circuit.
    local : LocalRules or None
    by_hand : tuple of Hookup
        Groups that the instructor wired: a hookup with the same switches and lights in the same boxes is
        taken as it is, tried and judged.
    fits : callable
        Whether a box takes its devices with cables of these kinds in it.
    """
    hookups: list[HouseHookup] = []
    findings: list[Finding] = []
    for group in groups:
        fixed = next((each for each in by_hand if _same_devices(each, house, group)), None)
        if fixed is not None:
            judgment = judge(fixed, mend=False)
            hookups.append(HouseHookup(group=group, hookup=fixed, judgment=judgment))
            continue
        try:
            bare = _Bare(
                house=house,
                group=group,
                distance=distance,
                size=sizes(group),
                local=local or LocalRules(),
                fits=fits,
            )
            found = _best(bare, feed_from(group))
        except NoAnswer as error:
            findings.append(_no_plan(house, group, error))
        else:
            hookups.append(found)
    return Legs(hookups=tuple(hookups), findings=tuple(findings))


@dataclass(frozen=True, kw_only=True, eq=False)
class _Bare:
    """A switched group to be planned, with all that its plan depends on but the supply."""

    house: House
    group: SwitchedGroup
    distance: Distance
    size: tuple[int, int]
    local: LocalRules
    fits: Callable[[str, Sequence[str]], bool]

    def fed_at(self, box: str, length_ft: float) -> Hookup:
        return hookup_of(
            self.house,
            self.group,
            distance=self.distance,
            feed=box,
            length_ft=length_ft,
            size=self.size,
            local=self.local,
        )

    def crowded(self, hookup: Hookup) -> int:
        """Count the boxes that no box of the table is large enough for, the supply passing on."""
        inside: dict[str, list[str]] = {box.name: [] for box in hookup.boxes}
        inside[hookup.feed.box] += [hookup.feed.kind, hookup.feed.kind]
        for cable in hookup.cables:
            inside[cable.a].append(cable.kind)
            inside[cable.b].append(cable.kind)
        return sum(not self.fits(box, kinds) for box, kinds in inside.items())


def _best(bare: _Bare, source: str) -> HouseHookup:
    """Plan a group once for each box its supply may enter, and keep the least with its way there."""
    group, distance = bare.group, bare.distance
    _refuse_cut_off(group.boxes, source, distance)
    boxes = sorted(group.boxes, key=lambda box: (distance(source, box), box))[:_MOST_FEEDS]
    least = _LEAST_WIRES * _tree_ft(group.boxes, distance)
    best: tuple[float, HouseHookup] | None = None
    refused: NoAnswer | None = None
    for box in boxes:
        length = distance(source, box)
        if best is not None and _LEAST_WIRES * length + least >= best[0]:
            continue
        try:
            planned = plan(bare.fed_at(box, length), seconds=_SECONDS)
        except NoAnswer as error:
            refused = refused or error
            continue
        cost = (
            conductor_feet(planned.hookup) + _LEAST_WIRES * length + _CROWDED * bare.crowded(planned.hookup)
        )
        if best is None or cost < best[0] - 1e-9:
            found = HouseHookup(group=group, hookup=planned.hookup, judgment=planned.judgment, plan=planned)
            best = (cost, found)
    if best is None:
        raise refused or NoAnswer("Its boxes cannot be reached.")
    return best[1]


def _refuse_cut_off(boxes: tuple[str, ...], source: str, distance: Distance) -> None:
    """Refuse boxes that no cable joins, before a plan is sought over ways that are not there."""
    apart = sorted(box for box in boxes if box != boxes[0] and distance(boxes[0], box) > _NO_WAY_FT)
    if apart:
        raise NoAnswer(f"No cable can go from {boxes[0]!r} to {_either(apart)}.", do=_OPEN_A_WAY)
    if all(distance(source, box) > _NO_WAY_FT for box in boxes):
        raise NoAnswer(f"No cable can go from {source!r} to {_either(sorted(boxes))}.", do=_OPEN_A_WAY)


def _either(names: list[str]) -> str:
    return " or ".join(repr(name) for name in names)


def _tree_ft(boxes: tuple[str, ...], distance: Distance) -> float:
    """Return the least cable that joins boxes [ft]."""
    joined, total = {boxes[0]}, 0.0
    while len(joined) < len(boxes):
        step, box = min((distance(a, b), b) for a in joined for b in boxes if b not in joined)
        joined.add(box)
        total += step
    return total


def _same_devices(hookup: Hookup, house: House, group: SwitchedGroup) -> bool:
    boxes = {device.name: box_of(device) for device in house.devices if device.name in group.devices}
    return bool(hookup.cables) and boxes.items() <= {d.name: d.box for d in hookup.devices}.items()


def hookup_of(
    house: House,
    group: SwitchedGroup,
    *,
    distance: Distance,
    feed: str,
    length_ft: float,
    size: tuple[int, int],
    local: LocalRules,
) -> Hookup:
    """Return a switched group as a hookup to be planned: boxes, devices, paths and wants, no cables yet.

    Parameters
    ----------
    house : House
    group : SwitchedGroup
    distance : callable
        Length of cable between two boxes [ft].
    feed : str
        Box that the supply enters.
    length_ft : float
        Of the supply's cable [ft].
    size : (int, int)
        Conductor [AWG] and breaker [A].
    local : LocalRules
    """
    by_name = {device.name: device for device in house.devices}
    paths = tuple(Path(a=a, b=b, length_ft=_inches(distance(a, b))) for a, b in combinations(group.boxes, 2))
    return Hookup(
        name=f"{house.name}: {group.name}",
        feed=Feed(box=feed, kind=f"{size[0]}/2", length_ft=_inches(length_ft), breaker_a=float(size[1])),
        boxes=tuple(_box(name, by_name, house) for name in group.boxes),
        cables=(),
        devices=_devices(house, group, by_name, distance),
        joins=(),
        wants=_wants(house, group, by_name),
        paths=paths,
        local=local,
    )


def _inches(feet: float) -> float:
    """Return a length on the whole inch above, as it would be cut [ft]."""
    return -int(-feet * 12 // 1) / 12


def _box(name: str, by_name: dict[str, Device], house: House) -> Box:
    device = next(d for d in by_name.values() if box_of(d) == name)
    top = max((d.plan.y.feet for d in house.devices), default=0.0)
    left = min((d.plan.x.feet for d in house.devices), default=0.0)
    at = ((device.plan.x.feet - left) / _SKETCH_FT, (top - device.plan.y.feet) / _SKETCH_FT)
    return Box(name=name, at=(round(at[0], 1), round(at[1], 1)), where=device.typed.where)


def _devices(
    house: House, group: SwitchedGroup, by_name: dict[str, Device], distance: Distance
) -> tuple[HookupDevice, ...]:
    kinds = {name: kind for want in group.wanted for name, kind in _switch_kinds(want, by_name, distance)}
    found = [_switch(by_name[name], kind) for name, kind in kinds.items()]
    found += [_load(by_name[name]) for want in group.wanted for name in want.served]
    found += [_plain_receptacle(device) for device in always_on(house, group)]
    return tuple(found)


def _switch_kinds(
    want: Wanted, by_name: dict[str, Device], distance: Distance
) -> list[tuple[str, DeviceKind]]:
    """Return the kinds of a set of switches: three-ways at the two farthest apart, four-ways between."""
    if len(want.switches) == 1:
        return [(want.switches[0], DeviceKind.SINGLE_POLE)]
    pairs = combinations(want.switches, 2)
    ends = max(pairs, key=lambda pair: _apart(by_name[pair[0]], by_name[pair[1]], distance))
    return [(name, DeviceKind.THREE_WAY if name in ends else DeviceKind.FOUR_WAY) for name in want.switches]


def _apart(a: Device, b: Device, distance: Distance) -> float:
    return 0.0 if box_of(a) == box_of(b) else distance(box_of(a), box_of(b))


def _switch(device: Device, kind: DeviceKind) -> HookupDevice:
    return HookupDevice(name=device.name, kind=kind, box=box_of(device), where=device.typed.where)


def _load(device: Device) -> HookupDevice:
    """Return what is switched: a receptacle by its upper half or whole, anything else as a lamp."""
    receptacle = device.kind is HouseKind.RECEPTACLE
    return HookupDevice(
        name=device.name,
        kind=DeviceKind.RECEPTACLE if receptacle else DeviceKind.LAMP,
        box=box_of(device),
        watts=None if device.typed.load is None or receptacle else float(device.typed.load),
        brass_tab=not (receptacle and device.typed.half_switched),
        where=device.typed.where,
    )


def _plain_receptacle(device: Device) -> HookupDevice:
    return HookupDevice(
        name=device.name, kind=DeviceKind.RECEPTACLE, box=box_of(device), where=device.typed.where
    )


def _wants(house: House, group: SwitchedGroup, by_name: dict[str, Device]) -> tuple[Want, ...]:
    found = []
    for want in group.wanted:
        for name in want.served:
            device = by_name[name]
            if device.kind is not HouseKind.RECEPTACLE:
                found.append(Want(load=name, switches=want.switches))
                continue
            lower = () if device.typed.half_switched else want.switches
            found += [
                Want(load=f"{name} upper", switches=want.switches),
                Want(load=f"{name} lower", switches=lower),
            ]
    for device in always_on(house, group):
        found += [Want(load=f"{device.name} {half}") for half in ("upper", "lower")]
    return tuple(found)


def _no_plan(house: House, group: SwitchedGroup, error: NoAnswer) -> Finding:
    first = next((d.typed.where for d in house.devices if d.name in group.devices), Where())
    return Finding(
        rule=NO_PLAN,
        about=f"what is switched with '{group.name}'",
        found=error.message,
        expected="switches and lights that can be wired together.",
        do=error.do,
        where=first,
        severity=Severity.PROBLEM,
    )
