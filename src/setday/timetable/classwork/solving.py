"""Solve a class problem: breed lists, prove a bound beside it, check before it is shown."""

from collections.abc import Callable
from dataclasses import dataclass
from threading import Thread

import numpy as np
from numpy.typing import NDArray

from setday.solving import Limits, Status
from setday.timetable.classwork.aims import Tally, aims_of, tally
from setday.timetable.classwork.annealing import anneal
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import Fixed, Near, given_of, unkept
from setday.timetable.classwork.highs import FlowBound
from setday.timetable.classwork.naming import AIMS, Names, count, names_of
from setday.timetable.classwork.problem import ClassProblem
from setday.timetable.classwork.searching import FINISH, PINS, breed, replay, sow
from setday.timetable.classwork.turning import turned
from setday.timetable.classwork.verify import idle, verify

__all__ = ["ClassTimetable", "solve"]

_MEMBERS = 40
_SPELL = 100
"""Children between two looks at the clock."""
_NAMES, _NAMES_MOST = 0.5, 5.0
"""Share of the time, and most of it, that goes to the names [s]."""
_HOT, _WARM, _COLD, _FROZEN = 200.0, 100.0, 2.0, 0.01
"""Heat of the naming at its start, at its start near another timetable, at its end, and for what is left."""
_PATIENCE = 1.0
"""How long the answer waits for a proof under way [s]; one that comes later is not used."""
_AFTER_STOP = 0.3
"""What the names get when the search was stopped, or time ran out before them [s]."""
_TRIES = 20_000
"""Moves between two looks at the clock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassTimetable:
    """What a solve came to.

    Parameters
    ----------
    status : Status
    rows : tuple of tuple of str
        For each period the key of each student's task, "" for none.
    finish : int
        Periods until all work is done; past the calendar's end when it is too short.
    bound : int
        The earliest finish that is not disproved.
    plain : int
        Finish of the list by urgency, not searched further.
    idle : int
        Times somebody present has no task.
    tally : Tally
        Hours, changes of crew and pairs.
    broken : tuple of str
        What is left undone when the calendar is too short, and pins not kept; empty otherwise.
    seconds : float
    """

    status: Status
    rows: tuple[tuple[str, ...], ...]
    finish: int
    bound: int
    plain: int
    idle: int
    tally: Tally
    broken: tuple[str, ...]
    seconds: float


def solve(
    problem: ClassProblem,
    *,
    limits: Limits,
    fixed: Fixed | None = None,
    start: Near | None = None,
    on_progress: Callable[[int, int], bool | None] | None = None,
) -> ClassTimetable:
    """Find the earliest finish of the class's work.

    Parameters
    ----------
    problem : ClassProblem
        After a period was logged: `carried_on` with the work as it turned out.
    limits : Limits
        With two workers one breeds and one proves; with one the bound is that of the waits alone.
    fixed : Fixed, optional
        Periods that are over, and pins; a pin that cannot be kept is told in `broken`.
    start : Near, optional
        A timetable to stay near: places changed count after the finish, the near ones more.
    on_progress : callable, optional
        Told (best finish, proven bound); answers False to stop and keep the best.

    Returns
    -------
    ClassTimetable
        Always one that `verify` passes, but for work a short calendar leaves undone.

    Raises
    ------
    NoAnswer
        When what is fixed names what is not there, or who may not or cannot be there.
    RuntimeError
        When a search returns a timetable that breaks a rule; a fault of ours, never shown as an answer.
    """
    return _Solve(problem, limits, fixed or Fixed(), start, on_progress).run()


class _Herd:
    """A population of lists, bred by one worker."""

    def __init__(self, of: "_Solve", seed: int) -> None:
        self.given = (of.arrays, of.given, of.work)
        self.seed = 1000 * seed
        self.lists = np.zeros((_MEMBERS, 3, len(of.problem.tasks)), dtype=np.int32)
        self.weights = np.zeros(_MEMBERS, dtype=np.int64)
        sow(seed, *self.given, self.lists, self.weights)
        self.turned_at, self.turned = 0, turned(of.arrays, of.given, 1)
        self.spell(0, goal=0)

    def spell(self, rounds: int, *, goal: int) -> None:
        """Breed `rounds` children; the calendar is turned round at the best finish so far."""
        arrays, given, _ = self.given
        finish = min(self.best // FINISH % PINS, len(given.present))
        if finish != self.turned_at:
            self.turned_at, self.turned = finish, turned(arrays, given, finish)
        self.seed += 1
        breed(self.seed, rounds, goal, *self.given, *self.turned, self.lists, self.weights)

    @property
    def best(self) -> int:
        return int(self.weights.min())

    @property
    def first(self) -> NDArray[np.int32]:
        best: NDArray[np.int32] = self.lists[int(np.argmin(self.weights))]
        return best


class _Solve:
    def __init__(
        self,
        problem: ClassProblem,
        limits: Limits,
        fixed: Fixed,
        start: Near | None,
        on_progress: Callable[[int, int], bool | None] | None,
    ) -> None:
        self.problem, self.limits, self.on_progress = problem, limits, on_progress
        self.fixed, self.given = fixed, given_of(problem, fixed, start)
        self.arrays, self.work, self.aims = arrays_of(problem), work_of(problem), aims_of(problem)
        self.near = start is not None
        self.herds = [_Herd(self, limits.seed)]
        self.plain, _, _ = self._played(self.herds[0].lists[0])
        self._named(self.herds[0].lists[0], seconds=0.0)  # compiled before time counts
        self.deadline = limits.start()
        self.flow = FlowBound(self.arrays, self.work, self.given)
        self.bound = self.flow.quick(min(self.best, len(problem.periods)))
        self.stopped = self.ended = False

    def run(self) -> ClassTimetable:
        prover = Thread(target=self._prove_and_search, daemon=True)
        if self.limits.workers > 1:
            prover.start()
        try:
            self._search(self.herds[0])
        finally:
            self.ended = True
            if self.limits.workers > 1:
                prover.join(_PATIENCE)
        return self._answer()

    @property
    def best(self) -> int:
        return min(herd.best for herd in self.herds) // FINISH % PINS

    def _goes_on(self) -> bool:
        found = self.best <= self.bound and not self.near
        return self._left > 0 and not self.stopped and not found and not self.ended

    @property
    def _left(self) -> float:
        """Time left before the names have theirs [s]."""
        return self.deadline.left - min(_NAMES * self.limits.seconds, _NAMES_MOST)

    def _search(self, herd: "_Herd") -> None:
        while self._goes_on():
            herd.spell(_SPELL, goal=0 if self.near else self.bound)
            told = self.on_progress is not None and herd is self.herds[0]
            if told and self.on_progress(self.best, self.bound) is False:  # type: ignore[misc]
                self.stopped = True

    def _prove_and_search(self) -> None:
        """Prove; with time left, breed beside the first worker lists of another seed."""
        self._prove()
        if self._goes_on():
            herd = _Herd(self, self.limits.seed + 500)
            self.herds.append(herd)
            self._search(herd)

    def _prove(self) -> None:
        """Try finishes from the bound on, further apart each time, then halve: one disproved raises it.

        A finish that the flow cannot disprove needs no later look: nor can it disprove a later one.  What
        parts of students could keep is asked of whole ones at the end.
        """
        doubtful, step = self.best, 0
        while self.bound < doubtful and self._goes_on():
            aim = min(self.bound + step, (self.bound + doubtful) // 2)
            if self.flow.possible(aim, seconds=self._left):
                doubtful = aim
            else:
                self.bound = aim + 1
                step = max(1, 2 * step)
        while self._goes_on() and not self.flow.possible(self.bound, seconds=self._left, whole=True):
            self.bound += 1

    def _played(self, member: NDArray[np.int32]) -> tuple[int, NDArray[np.int32], NDArray[np.int32]]:
        """Return a member's finish, the spans of its tasks, and its rows to the end of the work."""
        spans = np.empty((len(self.problem.tasks), 2), dtype=np.int32)
        on = np.empty(self.given.present.shape, dtype=np.int32)
        replay(member, self.arrays, self.given, self.work, spans, on)
        lasts = spans[list(self.problem.work), 1]
        late = len(on) + int((lasts >= len(on)).sum())
        finish = late if late > len(on) else int(lasts.max(initial=-1)) + 1
        return finish, spans, on[: min(max(finish, self.given.since), len(on))]

    def _named(self, member: NDArray[np.int32], *, seconds: float) -> tuple[int, list[list[int]]]:
        """Return a member's finish and its rows, the students placed anew for at most `seconds`."""
        finish, spans, on = self._played(member)
        tries = [names_of(on, spans, self.work, self.arrays, self.aims) for _ in range(self.limits.workers)]
        threads = [Thread(target=self._cool, args=(n, names, seconds)) for n, names in enumerate(tries)]
        for thread in threads[1:]:
            thread.start()
        self._cool(0, tries[0], seconds)
        for thread in threads[1:]:
            thread.join()
        weights = [int(AIMS @ count(names, self.arrays, self.given, self.aims)) for names in tries]
        return finish, tries[int(np.argmin(weights))].on.tolist()

    def _cool(self, worker: int, names: Names, seconds: float) -> None:
        """Let students trade places for `seconds`, ever more choosily."""
        hot = _WARM if self.near else _HOT
        seed = 1000 * self.limits.seed + 500_000 * worker
        begun, rounds, part = self.limits.clock(), _TRIES if seconds else 0, 0.0
        while part < 1.0:
            heat = hot * (_COLD / hot) ** part
            anneal(seed, rounds, heat, heat, names, self.arrays, self.given, self.aims)
            seed += 1
            part = (self.limits.clock() - begun) / seconds if seconds else 1.0
        anneal(seed, rounds, _FROZEN, _FROZEN, names, self.arrays, self.given, self.aims)

    def _answer(self) -> ClassTimetable:
        seconds = _AFTER_STOP if self.stopped else max(self.deadline.left, _AFTER_STOP)
        most = min(_NAMES * self.limits.seconds, _NAMES_MOST)
        herd = min(self.herds, key=lambda herd: herd.best)
        finish, numbers = self._named(herd.first, seconds=min(seconds, most))
        keys = [task.key for task in self.problem.tasks]
        rows = tuple(tuple(keys[n] if n >= 0 else "" for n in row) for row in numbers)
        broken = verify(self.problem, rows, since=len(self.fixed.happened))
        if any(not said.endswith("is not finished") for said in broken):
            raise RuntimeError("the timetable breaks a rule: " + "; ".join(broken[:3]))
        students = [student.key for student in self.problem.students]
        broken += unkept(rows, pins=self.fixed.pins, students=students)
        if finish <= self.bound:
            status = Status.OPTIMAL
        else:
            status = Status.STOPPED if self.stopped else Status.FEASIBLE
        return ClassTimetable(
            status=status,
            rows=rows,
            finish=finish,
            bound=min(self.bound, finish),
            plain=self.plain,
            idle=idle(self.problem, rows),
            tally=tally(self.problem, rows, since=len(self.fixed.happened)),
            broken=tuple(broken),
            seconds=self.deadline.spent,
        )
