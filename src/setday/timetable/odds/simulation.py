"""The odds of a timetable: how the finish spreads over many simulations."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from threading import Thread

import numpy as np

from setday.errors import NoAnswer
from setday.timetable.classwork import ClassProblem
from setday.timetable.odds.arrays import Ints, arrays_of
from setday.timetable.odds.chances import Chances
from setday.timetable.odds.plan import Plan, plan_of
from setday.timetable.odds.playing import simulate
from setday.timetable.odds.rest import rest_of

__all__ = ["Odds", "Simulations", "odds"]

_SPELL = 1000
"""Simulations between two looks at whether to go on."""
_SURE = 1.959964
"""Standard deviations that hold 95 of 100 (normal distribution)."""


@dataclass(frozen=True, kw_only=True)
class Odds:
    """How the finish of a timetable spreads.

    Parameters
    ----------
    counts : tuple of (int, int)
        Finish [periods until all work is done] and how many simulations have it; the length of the
        calendar and more where it was too short.
    set_period : int
        First period that is too late.
    periods : int
        Length of the calendar.
    as_planned : int
        The finish of the same play when everything comes as planned.
    """

    counts: tuple[tuple[int, int], ...]
    set_period: int
    periods: int
    as_planned: int

    @cached_property
    def simulations(self) -> int:
        """How many simulations were run."""
        return sum(many for _, many in self.counts)

    @cached_property
    def chance(self) -> float:
        """Share of the simulations that are ready for set day."""
        return sum(many for finish, many in self.counts if finish <= self.set_period) / self.simulations

    @cached_property
    def between(self) -> tuple[float, float]:
        """The interval that holds the chance in 95 of 100 such runs (E. B. Wilson, JASA 22, 1927).

        It tells how far the number of simulations can be trusted, not how good the estimates are.
        """
        many, share, z = self.simulations, self.chance, _SURE
        middle = (share + z * z / (2 * many)) / (1 + z * z / many)
        half = z / (1 + z * z / many) * math.sqrt(share * (1 - share) / many + z * z / (4 * many * many))
        return max(0.0, middle - half), min(1.0, middle + half)

    @cached_property
    def mean(self) -> float:
        """Mean finish [periods]; those beyond the calendar counted as they stand."""
        return sum(finish * many for finish, many in self.counts) / self.simulations

    def ready(self, share: float) -> int | None:
        """Return the finish that this share of the simulations does not exceed; None beyond the calendar.

        The last work is then done in the period before it: `periods[finish - 1]`.
        """
        wanted, so_far = share * self.simulations, 0
        for finish, many in self.counts:
            so_far += many
            if so_far >= wanted - 1e-9:
                return finish if finish <= self.periods else None
        return None


class Simulations:
    """A timetable made ready to be simulated.

    Parameters
    ----------
    problem : ClassProblem
    chances : Chances
    plan : Plan
    seed : int
        The same seed draws the same chance for the same task, student and day.
    workers : int
        Threads; they do not change the answer.

    Raises
    ------
    NoAnswer
        When the chances do not fit the problem; says all that does not.
    """

    def __init__(
        self, problem: ClassProblem, chances: Chances, plan: Plan, *, seed: int = 1, workers: int = 2
    ) -> None:
        problems = chances.problems(
            tasks=frozenset(problem.number),
            students=frozenset(student.key for student in problem.students),
            periods=len(problem.periods),
        )
        if problems:
            raise NoAnswer("\n".join(problems))
        self.problem, self.plan, self.seed, self.workers = problem, plan, seed, workers
        self.since, self.set_period = 0, problem.set_period
        self.arrays = arrays_of(problem, chances, order=plan.order, wish=plan.wish)

    @classmethod
    def of(
        cls,
        problem: ClassProblem,
        rows: Sequence[Sequence[str]],
        chances: Chances,
        *,
        since: int = 0,
        seed: int = 1,
        workers: int = 2,
    ) -> "Simulations":
        """Return what is left of a timetable after `since` periods, made ready; its rows say the order."""
        if not since:
            return cls(problem, chances, plan_of(problem, rows), seed=seed, workers=workers)
        left = rest_of(problem, rows[:since])
        there = dict(left.number)
        chances = replace(
            chances,
            wet=chances.wet[since:],
            tasks=tuple(pair for pair in chances.tasks if pair[0] in there),
            deliveries=tuple(
                replace(delivery, tasks=tuple(key for key in delivery.tasks if key in there))
                for delivery in chances.deliveries
            ),
        )
        made = cls(left, chances, plan_of(left, rows[since:]), seed=seed, workers=workers)
        made.since, made.set_period = since, problem.set_period
        return made

    def finishes(self, first: int, many: int, *, task: int | None = None, gain: int = 0) -> Ints:
        """Return the finishes of `many` simulations, counted from the first period that is simulated.

        Parameters
        ----------
        first, many : int
        task : int, optional
            A task, by its number in the problem, that has `gain` less to do.
        gain : int
            [student-minutes]
        """
        gained = -1 if task is None else self.plan.order.index(task)
        found = np.empty(many, dtype=np.int64)
        bounds = [many * n // self.workers for n in range(self.workers + 1)]
        parts = [(first + low, found[low:high]) for low, high in pairwise(bounds) if high > low]
        threads = [
            Thread(target=simulate, args=(self.seed, start, gained, gain, self.arrays, part))
            for start, part in parts[1:]
        ]
        for thread in threads:
            thread.start()
        for start, part in parts[:1]:
            simulate(self.seed, start, gained, gain, self.arrays, part)
        for thread in threads:
            thread.join()
        return found

    def answer(self, finishes: Ints) -> Odds:
        """Return the odds that these finishes come to."""
        values, many = np.unique(finishes, return_counts=True)
        sure = Simulations(self.problem, Chances.none(), self.plan, workers=1)
        return Odds(
            counts=tuple(zip((values + self.since).tolist(), many.tolist(), strict=True)),
            set_period=self.set_period,
            periods=len(self.problem.periods) + self.since,
            as_planned=int(sure.finishes(0, 1)[0]) + self.since,
        )


def odds(
    problem: ClassProblem,
    rows: Sequence[Sequence[str]],
    chances: Chances,
    *,
    seed: int = 1,
    simulations: int = 20_000,
    workers: int = 2,
    since: int = 0,
    on_progress: Callable[[int, float], bool | None] | None = None,
) -> Odds:
    """Simulate a timetable many times.

    In each simulation the tasks are taken up in the order of the timetable, period by period, with whoever
    is there; crews grow and shrink as a class would have them.  Nothing is planned anew on the way, which
    an instructor would do: the true odds are rather better.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
        The timetable: for each period the key of each student's task, "" for none.
    chances : Chances
    seed : int
    simulations : int
    workers : int
        Threads; the answer is the same with any number of them.
    since : int
        Periods that are over; what `rows` say of them has happened, only what is left is simulated.
    on_progress : callable, optional
        Told (simulations so far, chance so far); answers False to stop and keep what there is.

    Returns
    -------
    Odds

    Raises
    ------
    NoAnswer
        When the chances do not fit the problem.
    """
    if simulations < 1:
        raise NoAnswer(f"{simulations} simulations say nothing", do="Ask for at least one.")
    ready = Simulations.of(problem, rows, chances, since=since, seed=seed, workers=workers)
    found: list[Ints] = []
    on_time = 0
    for first in range(0, simulations, _SPELL):
        found.append(ready.finishes(first, min(_SPELL, simulations - first)))
        on_time += int((found[-1] + since <= problem.set_period).sum())
        so_far = first + len(found[-1])
        if on_progress is not None and on_progress(so_far, on_time / so_far) is False:
            break
    return ready.answer(np.concatenate(found))
