"""A hunt for a planted fault: drawn by difficulty, answered as the real house would, scored at the end."""

import random
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from setday.errors import NoAnswer
from setday.rules import RuleBook
from setday.switching.answers import Answers, answers, catalog, observation_of
from setday.switching.asking import efforts, groups_of, hunt_lengths
from setday.switching.changes import distinct, every_change
from setday.switching.circuit import Circuit, lay_out
from setday.switching.finding import weight_of
from setday.switching.hookup import Hookup
from setday.switching.nets import Variants
from setday.switching.observation import Measure, Meter, Observation, Test

__all__ = ["Difficulty", "HuntGround", "Planted", "Score"]


class Difficulty(StrEnum):
    """How long a fault takes to find, as a third of all that can be planted."""

    EASY = "easy"
    MEDIUM = "medium"
    HARD = "hard"


@dataclass(frozen=True, slots=True, kw_only=True)
class Planted:
    """A planted fault: its place among the different circuits a fault can leave."""

    variant: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How a hunt went.

    Parameters
    ----------
    right : bool
        The fault named cannot be told from the one planted.
    tests, effort : int, float
        What the crew took.
    best_tests, best_effort : int, float
        What the shortest way known takes for this fault.
    live_readings : int
        Readings only the instructor takes.
    left : int
        Groups of faults that the crew's tests had not told from the planted one, its own included.
    """

    right: bool
    tests: int
    effort: float
    best_tests: int
    best_effort: float
    live_readings: int
    left: int


class HuntGround:
    """A correct plan and every single fault that can be planted in it.

    Parameters
    ----------
    hookup : Hookup
        The correct plan.
    rules : RuleBook or None
        Likelihoods and efforts; None takes the published ones with the hookup's own local ones.
    """

    def __init__(self, hookup: Hookup, rules: RuleBook | None = None) -> None:
        self.circuit: Circuit = lay_out(hookup, rules)
        changes = every_change(self.circuit)
        self.changes = tuple(c for c in changes if weight_of(c, self.circuit.rules) > 0)
        found = distinct(self.circuit, self.changes)
        self.variants: Variants = found[0]
        self.causes: tuple[tuple[int, ...], ...] = found[1]

    @cached_property
    def told(self) -> Answers:
        """What every fault answers to every flip and dead reading."""
        return answers(self.circuit, self.variants, catalog(self.circuit, meters=(Meter.DEAD,)))

    @cached_property
    def groups(self) -> tuple[tuple[int, ...], ...]:
        """Faults that no flip or dead reading tells apart, together."""
        return groups_of(self.told)

    @cached_property
    def lengths(self) -> tuple[np.ndarray, np.ndarray]:
        """For each group, tests and effort of the shortest way known."""
        codes = self.told.codes[[rows[0] for rows in self.groups]]
        effort = efforts(self.told.tests, self.circuit.rules)
        return hunt_lengths(codes, np.ones(len(codes)), effort)

    def group_of(self, variant: int) -> int:
        """Return the group of a fault."""
        return next(number for number, rows in enumerate(self.groups) if variant in rows)

    def planted(self, words: str) -> Planted:
        """Return the fault of these words.

        Raises
        ------
        NoAnswer
            For words that are no fault of this hookup.
        """
        for variant, places in enumerate(self.causes):
            if any(self.changes[place].words == words for place in places):
                return Planted(variant=variant, words=words)
        raise NoAnswer(f"'{words}' is no fault of this hookup.", do="Take one of the list of faults.")

    def draw(self, *, difficulty: Difficulty, seed: int) -> Planted:
        """Draw a fault of a difficulty; the same seed draws the same fault.

        Parameters
        ----------
        difficulty : Difficulty
        seed : int
        """
        effort = self.lengths[1]
        order = np.argsort(effort, kind="stable")
        thirds = np.array_split(order, 3)
        third = thirds[list(Difficulty).index(difficulty)]
        if not len(third):
            third = order
        chance = random.Random(seed)
        rows = [row for group in third.tolist() for row in self.groups[group]]
        weights = [self._weight(row) for row in rows]
        variant = chance.choices(rows, weights=weights)[0]
        place = chance.choice(self.causes[variant])
        return Planted(variant=variant, words=self.changes[place].words)

    def _weight(self, variant: int) -> float:
        return sum(weight_of(self.changes[place], self.circuit.rules) for place in self.causes[variant])

    def answer(self, planted: Planted, test: Test) -> Observation:
        """Return what the house shows for a flip or a reading."""
        row = self.variants.rows(slice(planted.variant, planted.variant + 1))
        code = int(answers(self.circuit, row, (test,)).codes[0, 0])
        return observation_of(self.circuit, test, code)

    def fault_words(self) -> tuple[str, ...]:
        """Return every fault a crew can name, in words."""
        return tuple(change.words for change in self.changes)

    def score(self, planted: Planted, tests: Sequence[Test], *, named: str) -> Score:
        """Return how a hunt went.

        Parameters
        ----------
        planted : Planted
        tests : sequence of Flip and Measure
            What the crew asked for.
        named : str
            The fault the crew named, in the words of `fault_words`.
        """
        group = self.group_of(planted.variant)
        told = answers(self.circuit, self.variants, tuple(tests)) if tests else None
        codes = told.codes if told else np.zeros((len(self.variants), 0))
        alike = (codes == codes[planted.variant]).all(axis=1)
        left = sum(bool(alike[list(rows)].any()) for rows in self.groups)
        return Score(
            right=self.group_of(self.planted(named).variant) == group,
            tests=len(tests),
            effort=self._effort(tests),
            best_tests=int(self.lengths[0][group]),
            best_effort=float(self.lengths[1][group]),
            live_readings=sum(isinstance(t, Measure) and t.meter is Meter.LIVE for t in tests),
            left=left,
        )

    def _effort(self, tests: Sequence[Test]) -> float:
        """Return the effort of tests in their order; a box is opened once."""
        opened: frozenset[str] = frozenset()
        total = 0.0
        for test in tests:
            total += float(efforts((test,), self.circuit.rules, opened=opened)[0])
            if isinstance(test, Measure):
                opened |= {test.first.box}
        return total
