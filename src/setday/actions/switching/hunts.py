"""Hunts: a fault planted in a correct plan, what a crew asks of it, and how well it went.

A crew's hunt is data: where the handles stand, which boxes are open, what was seen.  Every answer comes
from the circuit with the fault in it; nothing else of the fault is ever told before it is opened.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from setday.actions.switching.naming import Named, faults_meant
from setday.errors import NoAnswer
from setday.files import read_observation, write_observation
from setday.rules import LocalRules, RuleBook
from setday.switching import (
    ChangeKind,
    Flip,
    Hookup,
    HuntGround,
    Measure,
    Measured,
    Observation,
    Planted,
    Test,
    answers,
    best_column,
    best_tree,
    efforts,
    hunt_lengths,
    observation_of,
    switching_rules,
)

__all__ = [
    "BestHunt",
    "CrewLog",
    "FaultsAt",
    "Outcome",
    "Standing",
    "asked",
    "asked_for",
    "begun",
    "best_hunt",
    "box_opened",
    "faults_by_box",
    "hunt_ground",
    "likelihoods",
    "logged",
    "outcome",
    "standing",
    "thrifty_way",
]

Flags = npt.NDArray[np.bool_]

_MOST_EXACT = 60
_STEPS = 60_000
"""How far the proof of the best possible hunt is looked for: a few seconds at most."""


def likelihoods(hookup: Hookup, likely: Mapping[str, float] | None = None) -> RuleBook:
    """Return the rules of a hookup with likelihoods of faults set instead.

    Parameters
    ----------
    hookup : Hookup
    likely : mapping of kind of fault to number, or None
        Kinds are those of `ChangeKind`, and "with_ground"; 0 leaves a kind out.

    Raises
    ------
    RuleError
        For a kind that does not exist, or a number out of its range.
    """
    values, reasons = dict(hookup.local.values), dict(hookup.local.reasons)
    for kind, number in (likely or {}).items():
        key = f"switching.likely_{kind}"
        values[key], reasons[key] = f"{number:g}", "set for this search"
    return switching_rules(LocalRules(values=values, reasons=reasons))


def hunt_ground(hookup: Hookup, likely: Mapping[str, float] | None = None) -> HuntGround:
    """Return a plan with every fault that can be planted in it.

    Raises
    ------
    NoAnswer
        When no fault is left to be planted.
    """
    ground = HuntGround(hookup, likelihoods(hookup, likely))
    if not ground.changes:
        raise NoAnswer(
            f"No fault of the kinds chosen can be planted in '{hookup.name}'.", do="Choose more kinds."
        )
    return ground


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultsAt:
    """The faults of one box, in words; an empty box stands for what runs between boxes."""

    box: str
    faults: tuple[tuple[ChangeKind, str], ...]


def faults_by_box(ground: HuntGround) -> tuple[FaultsAt, ...]:
    """Return every fault that can be planted or named, box by box."""
    boxes: dict[str, dict[str, ChangeKind]] = {box.name: {} for box in ground.circuit.hookup.boxes}
    for change in ground.changes:
        boxes.setdefault(change.box, {})[change.words] = change.kind
    return tuple(
        FaultsAt(box=box, faults=tuple((kind, words) for words, kind in found.items()))
        for box, found in boxes.items()
        if found
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewLog:
    """What a crew has done so far.

    Parameters
    ----------
    position : tuple of int
        Where the handles stand: 1 up (on), 0 down (off).
    opened : tuple of str
        Boxes opened, in their order.
    seen : tuple of Seen and Measured
        What was asked and what the house showed, in order.
    """

    position: tuple[int, ...]
    opened: tuple[str, ...] = ()
    seen: tuple[Observation, ...] = ()

    @property
    def tests(self) -> tuple[Test, ...]:
        """What was asked."""
        return tuple(asked_for(each) for each in self.seen)

    def lines(self, hookup: Hookup) -> tuple[str, ...]:
        """Return what was seen as lines of a hookup file."""
        return tuple(write_observation(each, hookup) for each in self.seen)


def begun(hookup: Hookup) -> CrewLog:
    """Return the log of a crew that has just come: handles down, boxes closed, nothing seen."""
    return CrewLog(position=(0,) * len(hookup.switches))


def logged(
    hookup: Hookup, *, position: Sequence[int], opened: Sequence[str], lines: Sequence[str]
) -> CrewLog:
    """Return a log from what was written down of it."""
    seen = tuple(read_observation(line, hookup) for line in lines)
    return CrewLog(position=tuple(position), opened=tuple(opened), seen=seen)


def asked_for(observation: Observation) -> Test:
    """Return the flip or reading that showed something."""
    if isinstance(observation, Measured):
        return observation.test
    return Flip(position=observation.position)


def box_opened(log: CrewLog, box: str, hookup: Hookup) -> CrewLog:
    """Return the log with a box opened.

    Raises
    ------
    NoAnswer
        When there is no such box.
    """
    if box not in {each.name for each in hookup.boxes}:
        raise NoAnswer(f"There is no box '{box}'.", do="Take one of the boxes on the sheet.")
    return log if box in log.opened else replace(log, opened=(*log.opened, box))


def asked(log: CrewLog, test: Test, *, ground: HuntGround, planted: Planted) -> CrewLog:
    """Return the log with what the house shows for a flip or a reading.

    What was asked before is not asked again: the log stays as long as it was.

    Raises
    ------
    NoAnswer
        For a reading in a closed box, of a point on itself, or between points that are not there.
    """
    log = replace(log, position=test.position)
    if isinstance(test, Measure):
        _check_reading(log, test, ground.circuit.hookup)
    if any(_same(test, before) for before in log.tests):
        return log
    return replace(log, seen=(*log.seen, ground.answer(planted, test)))


def _check_reading(log: CrewLog, test: Measure, hookup: Hookup) -> None:
    here = hookup.points_in(test.first.box)
    if test.first not in here or test.second not in here:
        raise NoAnswer("These two points are not in one box.", do="Take two points of one open box.")
    if test.first == test.second:
        raise NoAnswer("Both ends of the meter are on one point.", do="Take two different points.")
    if test.first.box not in log.opened:
        raise NoAnswer(f"Box '{test.first.box}' is closed.", do="Open it first.")


def _same(test: Test, other: Test) -> bool:
    if test == other:
        return True
    if not (isinstance(test, Measure) and isinstance(other, Measure)):
        return False
    ends = {test.first, test.second} == {other.first, other.second}
    return ends and (test.position, test.meter) == (other.position, other.meter)


@dataclass(frozen=True, slots=True, kw_only=True)
class BestHunt:
    """The shortest hunts over all faults of a plan, each told apart as far as it can be.

    Parameters
    ----------
    groups : int
        Faults that can be told apart.
    mean, most : float, int
        Tests the shortest way known takes, on average and at most.
    least : float or None
        No way takes fewer on average; None when it was not worked out.
    exact : bool
        True when `least` is proven to be reached by some way: every way was weighed.
    by_group : tuple of int
        Tests the shortest way known takes for each group of faults.
    """

    groups: int
    mean: float
    most: int
    least: float | None
    exact: bool
    by_group: tuple[int, ...]


def best_hunt(ground: HuntGround) -> BestHunt:
    """Return the shortest hunts over all faults of a plan, every test counted once."""
    codes = ground.told.codes[[rows[0] for rows in ground.groups]]
    count, _ = hunt_lengths(codes, np.ones(len(codes)), np.ones(codes.shape[1]))
    tree = best_tree(codes, most_steps=_STEPS) if len(codes) <= _MOST_EXACT else None
    return BestHunt(
        groups=len(codes),
        mean=float(count.mean()),
        most=int(count.max()),
        least=tree.least if tree else None,
        exact=tree.exact if tree else False,
        by_group=tuple(int(each) for each in count),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a hunt stands by what was seen alone, whatever is planted.

    Parameters
    ----------
    open : tuple of tuples of str
        Faults that explain all that was seen, in words; those of one group cannot be told apart.
    groups : int
        Groups there were before the first test.
    against : tuple of int
        Places in the log, from 1, that speak against what was named.
    """

    open: tuple[tuple[str, ...], ...]
    groups: int
    against: tuple[int, ...] = ()


def standing(ground: HuntGround, seen: Sequence[Observation], *, named: Named | None = None) -> Standing:
    """Return where a hunt stands by what was seen.

    Parameters
    ----------
    ground : HuntGround
    seen : sequence of Seen and Measured
        As the house showed it: every lamp named.
    named : Named or None
        What the crew named.
    """
    fits = _fitting(ground, seen)
    alike = set(np.flatnonzero(fits.all(axis=1)).tolist())
    still = [[row for row in rows if row in alike] for rows in ground.groups]
    meant = list(faults_meant(ground, named)) if named else []
    against = [place for place in range(len(seen)) if meant and not fits[meant, place].any()]
    return Standing(
        open=tuple(_words(ground, rows) for rows in still if rows),
        groups=len(ground.groups),
        against=tuple(place + 1 for place in against),
    )


def _fitting(ground: HuntGround, seen: Sequence[Observation]) -> Flags:
    """Return which fault would have shown what, a row for each fault and a column for each observation."""
    fits = np.ones((len(ground.variants), len(seen)), dtype=bool)
    if not seen:
        return fits
    told = answers(ground.circuit, ground.variants, tuple(asked_for(each) for each in seen))
    for place, observation in enumerate(seen):
        codes = told.codes[:, place]
        wanted = [
            code
            for code in np.unique(codes).tolist()
            if observation_of(ground.circuit, told.tests[place], code) == observation
        ]
        fits[:, place] = np.isin(codes, wanted)
    return fits


def _words(ground: HuntGround, rows: Sequence[int]) -> tuple[str, ...]:
    return tuple(ground.changes[place].words for row in rows for place in ground.causes[row])


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How a hunt went, once the answer is opened.

    Parameters
    ----------
    right : bool
        What was named cannot be told from what was planted.
    tests : int
        Flips and readings the crew took.
    best_tests : int
        What the shortest way known takes for this fault.
    """

    right: bool
    tests: int
    best_tests: int


def outcome(
    ground: HuntGround, planted: Planted, log: CrewLog, *, named: Named | None, best: BestHunt
) -> Outcome:
    """Return how a hunt went, once the answer is opened.

    Parameters
    ----------
    ground : HuntGround
    planted : Planted
    log : CrewLog
    named : Named or None
        What the crew named; None when it named nothing.
    best : BestHunt
        Of the same ground.
    """
    group = ground.group_of(planted.variant)
    meant = faults_meant(ground, named) if named else ()
    return Outcome(
        right=any(ground.group_of(variant) == group for variant in meant),
        tests=len(log.tests),
        best_tests=best.by_group[group],
    )


def thrifty_way(ground: HuntGround, planted: Planted) -> tuple[Observation, ...]:
    """Return the flips and readings that lead to a fault with little effort, and what the house shows.

    Each time the test that tells most for its effort, as the finder proposes it: flips come before boxes
    are opened, and a box once open is read further.  It may take more tests than the shortest way.
    """
    tests, rules = ground.told.tests, ground.circuit.rules
    codes = ground.told.codes[[rows[0] for rows in ground.groups]]
    group, rows = ground.group_of(planted.variant), np.arange(len(codes))
    way: list[Observation] = []
    while True:
        opened = frozenset(each.test.first.box for each in way if isinstance(each, Measured))
        column = best_column(codes[rows], np.ones(len(rows)), efforts(tests, rules, opened=opened))
        if column is None:
            return tuple(way)
        code = int(codes[group, column])
        way.append(observation_of(ground.circuit, tests[column], code))
        rows = rows[codes[rows, column] == code]
