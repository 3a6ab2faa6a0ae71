"""The usual code rules a hookup is held against, each with its section; local rules can switch one off."""

from collections.abc import Callable, Iterator

import numpy as np

from setday.findings import Finding, Severity, Where, in_order
from setday.rules import Rule
from setday.switching.circuit import every_position
from setday.switching.duties import Duties, Duty, duties_of
from setday.switching.fill import box_fill
from setday.switching.hookup import Device, Hookup, Point
from setday.switching.kinds import BARE, GREEN, DeviceKind, cable_kind
from setday.switching.nets import in_position, only, static_nets
from setday.switching.rulebook import largest_breaker_a
from setday.switching.trial import Trial

__all__ = ["code_findings", "code_rules"]

_CIRCUIT = frozenset({Duty.SUPPLY, Duty.SWITCHED, Duty.TRAVELER})


def code_findings(trial: Trial) -> tuple[Finding, ...]:
    """Hold a tried hookup against the code rules in force.

    Parameters
    ----------
    trial : Trial
    """
    duties = duties_of(trial.circuit)
    found: list[Finding] = []
    for key, rule_check in _CHECKS.items():
        if _in_force(trial, key):
            found += rule_check(trial, duties)
    return in_order(found)


def code_rules(trial: Trial) -> tuple[Rule, ...]:
    """Return every code rule as it stands for a tried hookup: its value, its source, whether it was set."""
    return tuple(trial.circuit.rules[f"switching.{key}"] for key in _CHECKS)


def _in_force(trial: Trial, key: str) -> bool:
    value = trial.circuit.rules[f"switching.{key}"].value
    return value is not False and value != "no"


def _finding(
    trial: Trial, key: str, about: str, found: str, *, do: str, where: Where, ask: bool = False
) -> Finding:
    rule = trial.circuit.rules[f"switching.{key}"]
    return Finding(
        rule=rule.key,
        about=about,
        found=found,
        expected=f"{rule.label}.",
        do=do,
        where=where,
        severity=Severity.ASK if ask else Severity.PROBLEM,
        source=rule.source,
    )


def _where(hookup: Hookup, point: Point) -> Where:
    join = next((join for join in hookup.joins if point in join.points), None)
    return (
        join.where
        if join
        else hookup.device(point.holder).where
        if point.holder in _names(hookup)
        else Where()
    )


def _names(hookup: Hookup) -> set[str]:
    return {device.name for device in hookup.devices}


def _switch_hot(trial: Trial, duties: Duties) -> Iterator[Finding]:
    circuit = trial.circuit
    variant = only(circuit)
    static = static_nets(circuit, variant)
    at_neutral = np.zeros(len(circuit.points), dtype=bool)
    for position in every_position(len(trial.hookup.switches)):
        state = in_position(circuit, variant, static, position)
        if not state.opens[0]:
            at_neutral |= state.nets[:, 0] == state.nets[circuit.neutral, 0]
    for switch in trial.hookup.switches:
        wrong = [
            point for point in switch.terminals if point.part != GREEN and at_neutral[circuit.number[point]]
        ]
        wrong.sort(key=lambda point: Duty.NEUTRAL not in duties.of(point))
        if wrong:
            yield _finding(
                trial,
                "switch_hot",
                f"switch '{switch.name}' in box '{switch.box}'",
                f"it breaks the neutral: the neutral comes to its {wrong[0].part}, and the lamp stays live"
                " when it is off.",
                do=f"Bring the supply to {switch.name}, and take the neutral straight to the lamp.",
                where=_where(trial.hookup, wrong[0]),
            )


def _neutral_at_switch(trial: Trial, duties: Duties) -> Iterator[Finding]:
    hookup = trial.hookup
    wish = trial.circuit.rules.choice("switching.neutral_at_switch")
    have = {
        end.box
        for wire in trial.circuit.wires
        if wire.color != BARE
        for end in (wire.first, wire.second)
        if Duty.NEUTRAL in duties.of(end)
    } | {box.name for box in hookup.boxes if box.reopens}
    groups = dict.fromkeys(want.switches for want in hookup.wants if want.switches)
    groups = groups or {(switch.name,): None for switch in hookup.switches}
    for group in groups:
        boxes = list(dict.fromkeys(hookup.device(name).box for name in group))
        lacking = [box for box in boxes if box not in have]
        if wish != "every switch box" and not hookup.lighting & set(group):
            continue  # switches of receptacles alone
        if lacking and (wish == "every switch box" or len(lacking) == len(boxes)):
            yield _finding(
                trial,
                "neutral_at_switch",
                f"box {_quoted(lacking)}",
                f"no neutral comes to the switch{'es' if len(lacking) > 1 else ''} of {' and '.join(group)}.",
                do="Bring a neutral along, or write 'reopens: yes' for a box a cable can be added to later.",
                where=hookup.box(lacking[0]).where,
                ask=True,
            )


def _quoted(names: list[str]) -> str:
    return " and ".join(f"'{name}'" for name in names)


def _white_marked(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for cable in trial.hookup.cables:
        serves = duties.of(cable.ends("white")[0]) & _CIRCUIT
        if serves and "white" not in cable.remarked:
            yield _finding(
                trial,
                "white_marked",
                f"cable '{cable.name}'",
                f"its white serves as {_listed(serves)} and is not re-marked.",
                do=f"Mark it with tape or paint at both ends, in boxes '{cable.a}' and '{cable.b}', and write"
                f" '{cable.name} white' under re-marked.",
                where=cable.where,
            )
        if "white" in cable.remarked and not serves:
            yield _finding(
                trial,
                "white_marked",
                f"cable '{cable.name}'",
                "its white is re-marked, but serves as no ungrounded conductor.",
                do="Take the mark off, or check the joins.",
                where=cable.where,
                ask=True,
            )


def _listed(duties: frozenset[Duty]) -> str:
    return " and ".join(sorted(duties))


def _white_supply(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for cable in trial.hookup.cables:
        if Duty.SWITCHED in duties.of(cable.ends("white")[0]):
            yield _finding(
                trial,
                "white_supply",
                f"cable '{cable.name}'",
                "its white is the switched return to the light.",
                do="Let the white carry the supply to the switch, and come back on the black or the red.",
                where=cable.where,
            )


def _neutral_white(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for wire in trial.circuit.wires:
        if wire.color not in (BARE, "white") and Duty.NEUTRAL in duties.of(wire.second):
            yield _finding(
                trial,
                "neutral_white",
                f"the {wire} in box '{wire.second.box}'",
                "it serves as the neutral.",
                do=f"Use the white for the neutral and the {wire.color} for what the white does now.",
                where=_where(trial.hookup, wire.second),
            )


def _ground_bare(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for join in trial.hookup.joins:
        metal = [point for point in join.points if point.part in (BARE, GREEN)]
        others = [point for point in join.points if point.part not in (BARE, GREEN)]
        if metal and others and duties.of(metal[0]) & (_CIRCUIT | {Duty.NEUTRAL}):
            yield _finding(
                trial,
                "ground_bare",
                f"box '{join.box}': {join}",
                f"{metal[0]} is joined with {others[0]}, which is"
                f" {_listed(duties.of(others[0]) - {Duty.GROUND})}.",
                do=f"Take {metal[0]} out; grounds are joined to each other and to green screws only.",
                where=join.where,
            )


def _ground_apart(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for join in trial.hookup.joins:
        serves = duties.of(join.points[0])
        metal = any(point.part in (BARE, GREEN) for point in join.points)
        white = [point for point in join.points if point.part not in (BARE, GREEN)]
        if metal and white and {Duty.GROUND, Duty.NEUTRAL} <= serves:
            yield _finding(
                trial,
                "ground_apart",
                f"box '{join.box}': {join}",
                "neutral and equipment ground are joined here, so the bare wires carry the lamp's current.",
                do=f"Take {white[0]} out of the grounds; the two meet at the service only.",
                where=join.where,
            )


def _one_cable(trial: Trial, duties: Duties) -> Iterator[Finding]:
    del duties
    stray = trial.circuit.rules.number("switching.stray_a")
    for cable in trial.hookup.all_cables:
        columns = [place for place, wire in enumerate(trial.circuit.wires) if wire.cable == cable.name]
        net = np.abs(trial.solution.wire_a[:, columns].sum(axis=1))
        held = [row for row, tried in enumerate(trial.positions) if not tried.breaker.opens]
        worst = max(held, key=lambda row: float(net[row]), default=None)
        if worst is not None and net[worst] > stray:
            yield _finding(
                trial,
                "one_cable",
                f"cable '{cable.name}'",
                f"with {trial.positions[worst].words}, {net[worst]:.2f} A go out through it and come back"
                " another way.",
                do="Bring out and return each light's current in the same cable.",
                where=cable.where,
            )


def _grounds_joined(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for box in trial.hookup.boxes:
        here = [
            point for point in trial.hookup.points_in(box.name) if point.part == BARE or point.holder == "box"
        ]
        loose = [point for point in here if Duty.GROUND not in duties.of(point)]
        for point in loose:
            what = "the metal box" if point.holder == "box" else str(point)
            yield _finding(
                trial,
                "grounds_joined",
                f"box '{box.name}'",
                f"{what} has no path to ground over bare wires.",
                do="Join all bare wires of the box, and the box's green screw where it is metal.",
                where=_where_box(trial.hookup, box.name, point),
            )
        apart_here = (
            {int(trial.circuit.labels[trial.circuit.number[point]]) for point in here} if not loose else set()
        )
        if len(apart_here) > 1:
            yield _finding(
                trial,
                "grounds_joined",
                f"box '{box.name}'",
                "its bare wires are not joined to each other.",
                do="Join all of them in one splice.",
                where=box.where,
            )


def _where_box(hookup: Hookup, box: str, point: Point) -> Where:
    join = next((join for join in hookup.joins if point in join.points), None)
    return join.where if join else hookup.box(box).where


def _device_grounded(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for device in trial.hookup.devices:
        green = device.point(GREEN)
        if Duty.GROUND not in duties.of(green):
            yield _finding(
                trial,
                "device_grounded",
                f"'{device.name}' in box '{device.box}'",
                "its green screw has no path to ground over bare wires.",
                do=f"Join {green} to the bare wires of the box.",
                where=_where(trial.hookup, green),
            )


def _box_fill(trial: Trial, duties: Duties) -> Iterator[Finding]:
    del duties
    for box in trial.hookup.boxes:
        working = box_fill(trial.hookup, box.name, trial.circuit.rules)
        if box.volume_in3 is not None and working.value > box.volume_in3 + 1e-9:
            yield _finding(
                trial,
                "box_fill",
                f"box '{box.name}'",
                f"it would hold {working.result} and has {box.volume_in3:g} in3.",
                do=f"Take a box of {working.result} or more, or fewer cables in it.",
                where=box.where,
            )


def _breaker_size(trial: Trial, duties: Duties) -> Iterator[Finding]:
    del duties
    amps = trial.hookup.feed.breaker_a
    for cable in trial.hookup.all_cables:
        awg = cable_kind(cable.kind).awg
        if amps > largest_breaker_a(awg):
            yield _finding(
                trial,
                "breaker_size",
                f"cable '{cable.name}'",
                f"{awg} AWG behind a breaker of {amps:g} A; at most {largest_breaker_a(awg):g} A.",
                do="Take a smaller breaker or a thicker cable.",
                where=cable.where,
            )


def _polarity(
    trial: Trial, duties: Duties, device: Device, key: str, light: str, dark: str
) -> Iterator[Finding]:
    silver, brass = device.point(light), device.point(dark)
    if Duty.NEUTRAL in duties.of(brass) and Duty.NEUTRAL not in duties.of(silver):
        words = f"the neutral is on its {dark} and not on its {light}."
    elif duties.of(silver) & _CIRCUIT - {Duty.SWITCHED}:
        words = f"its {light} is on {_listed(duties.of(silver) & _CIRCUIT)}, not on the neutral."
    else:
        return
    yield _finding(
        trial,
        key,
        f"'{device.name}' in box '{device.box}'",
        words,
        do=f"White neutral to {silver}, the other conductor to {brass}.",
        where=_where(trial.hookup, silver),
    )


def _lamp_shell(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for device in trial.hookup.devices:
        if device.kind is DeviceKind.LAMP:
            yield from _polarity(trial, duties, device, "lamp_shell", "silver", "brass")


def _receptacle_polarity(trial: Trial, duties: Duties) -> Iterator[Finding]:
    for device in trial.hookup.devices:
        if device.kind is DeviceKind.RECEPTACLE:
            for half in ("upper", "lower"):
                yield from _polarity(
                    trial, duties, device, "receptacle_polarity", f"{half} silver", f"{half} brass"
                )


_CHECKS: dict[str, Callable[[Trial, Duties], Iterator[Finding]]] = {
    "switch_hot": _switch_hot,
    "neutral_at_switch": _neutral_at_switch,
    "white_marked": _white_marked,
    "white_supply": _white_supply,
    "neutral_white": _neutral_white,
    "ground_bare": _ground_bare,
    "ground_apart": _ground_apart,
    "one_cable": _one_cable,
    "grounds_joined": _grounds_joined,
    "device_grounded": _device_grounded,
    "box_fill": _box_fill,
    "breaker_size": _breaker_size,
    "lamp_shell": _lamp_shell,
    "receptacle_polarity": _receptacle_polarity,
}
