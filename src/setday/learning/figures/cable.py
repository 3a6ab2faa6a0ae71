"""Figures of cable: what is cut off the coil for a run, the cable of a circuit, the fill of a box."""

import re
from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from setday.cable import BoxFill, CableFigure, Medium, RoutePoint, Run
from setday.learning.building import added, measure, summed, times
from setday.learning.tree import Figure, Line, Number, Part, Product, Role
from setday.measure import ZERO, Length
from setday.rules import RuleBook

__all__ = ["cable_figures"]

_COUNT = re.compile(r"(?:.*: )?(?P<count>[\d.]+) x (?P<each>[\d.]+) in3")
_MOST_RUNS = 12
"""A sum of more runs than this is bookkeeping, not figuring."""


def cable_figures(figured: CableFigure, rules: RuleBook) -> Iterator[Figure]:
    """Yield the figures of the cable of a house.

    Parameters
    ----------
    figured : CableFigure
    rules : RuleBook
        The rules of cable.
    """
    runs = figured.routing.runs
    for run in runs:
        yield _run(run, rules)
    for circuit in figured.plan.circuits:
        own = [run for run in runs if run.circuit == circuit.name]
        if 2 <= len(own) <= _MOST_RUNS:
            yield _circuit(circuit.name, own)
    for fill in figured.worked.fills:
        yield _fill(fill)


def _legs(run: Run) -> Iterator[tuple[str, Length]]:
    """Yield the stretches of a run in words, those alike and next to each other taken together."""
    legs: list[tuple[str, Length]] = []
    for a, b in pairwise(run.points):
        words, length = _leg(a, b)
        if length <= ZERO:
            continue
        if legs and legs[-1][0] == words:
            legs[-1] = (words, legs[-1][1] + length)
        else:
            legs.append((words, length))
    yield from legs


def _leg(a: RoutePoint, b: RoutePoint) -> tuple[str, Length]:
    level, rise = abs(b.plan.x - a.plan.x) + abs(b.plan.y - a.plan.y), abs(b.up - a.up)
    if level > ZERO and rise > ZERO:
        return "along the slope", Length.of(inches=hypot(level.inches, rise.inches))
    if rise > ZERO:
        return "up" if b.up > a.up else "down", rise
    return _level_words(a.medium, a.wall), level


def _level_words(medium: Medium, wall: str) -> str:
    if medium is Medium.CEILING:
        return "over the ceiling"
    return "under the floor" if medium is Medium.FLOOR else f"along the {wall}"


def _run(run: Run, rules: RuleBook) -> Figure:
    legs = [
        measure(f"leg {n}", f"{n}: {words}", length) for n, (words, length) in enumerate(_legs(run), start=1)
    ]
    way = summed("way", "the way", [added(leg, feet=True) for leg in legs], unit="ft")
    percent = rules.number("cable.drape_percent")
    share = Part(node=Number(value=percent / 100, about="drape", words=f"{percent:g} %"))
    drape = times("drape", "drape", way, [share], source=rules["cable.drape_percent"].source)
    tails = 1 if run.cable.home else 2
    extra = [
        _number("tail in the box" if tails == 1 else "tails in the boxes", rules, "cable.box_tail", tails)
    ]
    if run.slack:
        extra.append(_number("slack for the set", rules, "cable.set_slack", 1))
    parts = [added(way, Role.PLAIN), added(drape, Role.ALLOWANCE), *extra]
    end = run.cable.end if run.cable.start == "panel" else run.cable.start
    return Figure(
        key=f"cable/run/{run.number}",
        kind="home run" if run.cable.home else "cable run",
        title=f"Cable of run {run.number}",
        ask=f"How many feet of cable does run {run.number} take, {_ends(run, end)}, with "
        f"{percent:g} % drape, {_tails(tails, rules)}{_slack(run)}?",
        lines=(*legs, way, drape, summed("total", "cable to cut", parts, unit="ft")),
        assumptions=("The way is the planned one; the last part of an inch is not rounded up.",),
    )


def _ends(run: Run, end: str) -> str:
    return (
        f"from the panel to '{end}'" if run.cable.home else f"from '{run.cable.start}' to '{run.cable.end}'"
    )


def _tails(tails: int, rules: RuleBook) -> str:
    tail = rules.length("cable.box_tail")
    return f"{tail} in the box" if tails == 1 else f"{tail} in each box"


def _slack(run: Run) -> str:
    return f" and {run.slack} coiled for the set" if run.slack else ""


def _number(words: str, rules: RuleBook, key: str, times_over: int) -> Part:
    each = rules.length(key)
    written = f"{times_over} x {each}" if times_over > 1 else str(each)
    number = Number(value=(each * times_over).feet, about=words, words=written, source=rules[key].source)
    return Part(node=number, role=Role.ALLOWANCE, about=words)


def _circuit(name: str, runs: list[Run]) -> Figure:
    legs = [measure(f"run {run.number}", f"run {run.number}", run.cut) for run in runs]
    total = summed("total", "cable of the circuit", [added(leg, feet=True) for leg in legs], unit="ft")
    return Figure(
        key=f"cable/circuit/{name}",
        kind="cable of a circuit",
        title=f"Cable of circuit {name}",
        ask=f"How many feet of cable does the circuit '{name}' take, by its pull list?",
        lines=(*legs, total),
        assumptions=("The cut lengths of the pull list are taken as measured.",),
    )


def _fill(fill: BoxFill) -> Figure:
    lines = []
    for n, step in enumerate(fill.working.steps):
        found = _COUNT.fullmatch(step.expression)
        count, each = (float(found["count"]), float(found["each"])) if found else (1.0, step.value or 0.0)
        parts = (Part(node=Number(value=count)), Part(node=Number(value=each, words=f"{each:g} in3")))
        lines.append(
            Line(
                key=f"step {n}", label=step.label, node=Product(parts=parts), unit="in3", decimals=2,
                source=step.source,
            )
        )  # fmt: skip
    total = summed("total", "box fill", [added(line) for line in lines], unit="in3")
    return Figure(
        key=f"cable/box/{fill.box}",
        kind="box fill",
        title=f"Box fill of '{fill.box}'",
        ask=f"How many cubic inches does what is in the box '{fill.box}' count for?",
        lines=(*lines, total),
        assumptions=fill.working.assumptions,
    )
