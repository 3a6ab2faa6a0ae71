"""Solve a project: breed lists for a good timetable, prove it with CP-SAT both ways, check it."""

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from math import isfinite
from threading import Event, Lock, Thread

import numpy as np

from setday.solving import Answer, Deadline, Limits, Status, run_cpsat
from setday.timetable.projects.arrays import ProjectArrays, arrays_of
from setday.timetable.projects.bounds import lower_bound
from setday.timetable.projects.breeding import breed, plain_finish, sow
from setday.timetable.projects.cpsat import OPTIONS, ProjectModel, model_of
from setday.timetable.projects.mirror import turned, turned_starts
from setday.timetable.projects.project import Project
from setday.timetable.projects.verify import verify

__all__ = ["Scheduled", "solve"]

_FEWEST, _EACH, _MOST_SOWN = 40, 4, 60_000
"""Lists in one population: so many at the least, by task, and tasks in all of them at the most."""

_GENERATION_SECONDS = 1.5e-4
"""A task's share of the time limit that one more list in the population is worth [s]."""

_LARGE = 50
"""Tasks from which a good timetable is harder to find than to prove."""

_VERY_LARGE, _TRY = 90, 0.15
"""Tasks from which a proof is tried for a share of the time limit only before all workers breed on."""

_HEARTBEAT = 0.1
"""How often progress is told at the most [s]."""

_SPELL = 24_000
"""Tasks of children between two looks at the clock."""

_BESIDE, _ALONE = (200, 0.1), (1000, 0.33)
"""Children a task bred before the proof begins, and the share of the time limit they may take; on large
projects a single worker cannot breed on beside the proof, and breeds more before it."""

_IDLE = 1000
"""Children a task without anything better after which a population rests."""

_PATIENCE = 0.1
"""Share of the time limit that a proof is given before a finish found elsewhere makes it begin again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheduled:
    """What a solve came to.

    Parameters
    ----------
    status : Status
    starts : tuple of int
        Start of each task [period].
    finish, bound : int
        The finish, and the earliest that is not disproven [period].
    first : int
        Finish of the first, plain list (earliest latest finish first).
    seconds : float
    lists : int
        Lists that were tried.
    """

    status: Status
    starts: tuple[int, ...]
    finish: int
    bound: int
    first: int
    seconds: float
    lists: int

    @property
    def gap(self) -> float:
        """Finish over bound, minus 1."""
        return self.finish / self.bound - 1 if self.bound else 0.0


class _Population:
    """Lists that breed; one thread at a time works on it."""

    def __init__(self, arrays: ProjectArrays, *, seed: int, seconds: float) -> None:
        self.arrays = tuple(getattr(arrays, name) for name in ProjectArrays.__slots__)
        count = len(arrays.durations)
        members = _members(count, seconds)
        self.lists = np.zeros((members, count), dtype=np.int32)
        self.starts = np.zeros((members, count), dtype=np.int32)
        self.finishes = np.zeros(members, dtype=np.int32)
        self.seed = seed
        self.tried = self.tried_at_best = members
        self.children = max(1, _SPELL // max(count, 1))
        sow(seed, self.arrays, self.lists, self.starts, self.finishes)
        self.first = int(plain_finish(self.arrays))
        breed(seed, 0, 0, self.arrays, self.lists, self.starts, self.finishes)  # compiled before time counts
        self.best = self._best()
        """The earliest finish and its starts; a copy, so that others may read it while this one breeds."""

    def spell(self, goal: int) -> None:
        self.seed += 1
        breed(self.seed, self.children, goal, self.arrays, self.lists, self.starts, self.finishes)
        self.tried += self.children
        if self.finishes.min() < self.best[0]:
            self.best = self._best()
            self.tried_at_best = self.tried

    @property
    def idle(self) -> bool:
        """Whether nothing better came for long."""
        return self.tried - self.tried_at_best > _IDLE * self.lists.shape[1]

    def _best(self) -> tuple[int, tuple[int, ...]]:
        member = int(np.argmin(self.finishes))
        return int(self.finishes[member]), tuple(int(start) for start in self.starts[member])

    def breed_until(self, goal: int, done: Callable[["_Population"], bool]) -> None:
        while self.best[0] > goal and not done(self):
            self.spell(goal)


def _members(tasks: int, seconds: float) -> int:
    """Return how many lists a population has: more when there is time for them to breed."""
    timely = int(min(seconds / (_GENERATION_SECONDS * max(tasks, 1)), _EACH * tasks))
    return max(_FEWEST, min(timely, _MOST_SOWN // max(tasks, 1)))


def solve(
    project: Project,
    *,
    limits: Limits,
    on_progress: Callable[[int, int], bool | None] | None = None,
) -> Scheduled:
    """Find the earliest finish of a project.

    Parameters
    ----------
    project : Project
    limits : Limits
    on_progress : callable, optional
        Told (best finish, proven bound); answers False to stop and keep the best.

    Returns
    -------
    Scheduled
        Always a timetable that `verify` passes.

    Raises
    ------
    RuntimeError
        When a search returns a timetable that breaks a rule; a fault of ours, never shown as an answer.
    """
    return _Solve(project, limits, on_progress).run()


class _Solve:
    def __init__(
        self, project: Project, limits: Limits, on_progress: Callable[[int, int], bool | None] | None
    ) -> None:
        self.project, self.limits, self.on_progress = project, limits, on_progress
        self.bound = lower_bound(project)
        self.stopped, self.tell_at = False, 0.0
        self.writing = Lock()
        """Held while `bound` or `found` is written, since two proofs write them."""
        arrays = arrays_of(project)
        self.populations = [
            _Population(arrays, seed=1000 * limits.seed + 500 * n, seconds=limits.seconds)
            for n in range(max(1, limits.workers))
        ]
        self.found = self.populations[0].best
        """The earliest finish CP-SAT found and its starts."""
        self.deadline: Deadline = limits.start()

    def run(self) -> Scheduled:
        self._warm_up()
        if not self._over():
            self._prove_and_breed()
        finish, starts = self.best
        broken = verify(self.project, starts)
        if broken:
            raise RuntimeError("the timetable breaks a rule: " + "; ".join(broken[:3]))
        return Scheduled(
            status=self._status(finish),
            starts=starts,
            finish=finish,
            bound=min(self.bound, finish),
            first=self.populations[0].first,
            seconds=self.deadline.spent,
            lists=sum(population.tried for population in self.populations),
        )

    @property
    def best(self) -> tuple[int, tuple[int, ...]]:
        return min([*(population.best for population in self.populations), self.found])

    def _status(self, finish: int) -> Status:
        if finish <= self.bound:
            return Status.OPTIMAL
        return Status.STOPPED if self.stopped else Status.FEASIBLE

    def _over(self) -> bool:
        """Tell how far it is, and whether to end; only for the caller's own thread."""
        spent = self.deadline.spent
        if self.on_progress is not None and spent >= self.tell_at:
            self.tell_at = spent + _HEARTBEAT
            self.stopped = self.stopped or self.on_progress(self.best[0], self.bound) is False
        return self._is_ended

    def _warm_up(self) -> None:
        """Breed by count, so that one worker comes to the same timetables again, unless time runs short."""
        tasks = len(self.project.durations)
        alone = self.limits.workers <= 1 and self._is_large
        children, share = _ALONE if alone else _BESIDE
        until = share * self.limits.seconds
        most = children * tasks
        self._breed(self.populations, lambda p: p.tried >= most or self.deadline.spent >= until)

    def _breed(self, populations: Sequence[_Population], done: Callable[[_Population], bool]) -> None:
        threads = [Thread(target=p.breed_until, args=(self.bound, done)) for p in populations[1:]]
        for thread in threads:
            thread.start()
        populations[0].breed_until(self.bound, done)
        for thread in threads:
            thread.join()

    def _prove_and_breed(self) -> None:
        """Prove forward in the caller's thread; beside it, when large, breed on and prove from the end."""
        ended = Event()
        spare = self.limits.workers // 2 if self._is_large else 0
        with ThreadPoolExecutor(max_workers=1) as beside:
            other = beside.submit(self._breed_on, ended, spare) if spare else None
            try:
                self._prove_forward(spare)
            finally:
                ended.set()
            if other is not None:
                other.result()

    def _prove_forward(self, spare: int) -> None:
        """Prove with the workers that are not spared; a very large project only after a try and breeding."""
        workers = max(1, self.limits.workers - spare)
        if len(self.project.durations) > _VERY_LARGE:
            until = self.deadline.spent + _TRY * self.limits.seconds
            self._prove_until(
                lambda: self._over() or self.deadline.spent > until, self.project, workers=workers
            )
            lead, *more = self.populations[spare:]
            self._breed(
                [lead, *more], lambda one: one.idle or (self._over() if one is lead else self._is_ended)
            )
        self._prove_until(self._over, self.project, workers=workers)

    @property
    def _is_ended(self) -> bool:
        return self.stopped or self.deadline.expired or self.best[0] <= self.bound

    @property
    def _is_large(self) -> bool:
        return len(self.project.durations) > _LARGE

    def _breed_on(self, ended: Event, workers: int) -> None:
        """Breed on until nothing better comes, then prove from its end with these workers."""

        def over() -> bool:
            return ended.is_set() or self._is_ended

        self._breed(self.populations[:workers], lambda population: over() or population.idle)
        self._prove_until(over, turned(self.project) or self.project, workers=workers, second=True)

    def _prove_until(
        self, over: Callable[[], bool], way: Project, *, workers: int, second: bool = False
    ) -> None:
        """Prove one way, anew whenever an earlier finish was found elsewhere."""
        while not over():
            self._prove(over, way, workers=workers, second=second)

    def _prove(self, over: Callable[[], bool], way: Project, *, workers: int, second: bool) -> None:
        """Look for an earlier finish until there is none, time is up or one was found elsewhere."""
        (finish, starts), least = self.best, self.bound
        if least >= finish:  # the other proof has just ended
            return
        hint = starts if way is self.project else turned_starts(self.project, starts)
        model = model_of(way, least=least, most=finish - 1, hint=hint, apart=not second)
        seed = self.limits.seed + second
        limits = Limits(seconds=self.deadline.left, clock=self.limits.clock, seed=seed, workers=workers)
        patience = self.deadline.spent + _PATIENCE * self.limits.seconds

        def told(answer: Answer) -> bool | None:
            self._learn(answer, model, finish, way)
            overtaken = self.best[0] < min(finish, answer.objective or finish)
            return False if over() or (overtaken and self.deadline.spent > patience) else None

        answer = run_cpsat(model.model, limits=limits, on_progress=told, options=OPTIONS)
        self._learn(answer, model, finish, way)

    def _learn(self, answer: Answer, model: ProjectModel, finish: int, way: Project) -> None:
        """Keep the starts and the bound of an answer."""
        with self.writing:
            if answer.values:
                starts = tuple(round(answer.values[index]) for index in model.starts)
                starts = starts if way is self.project else turned_starts(self.project, starts)
                ends = zip(starts, self.project.durations, strict=True)
                self.found = min(self.found, (max(start + length for start, length in ends), starts))
            if answer.final and not answer.values:
                self.bound = max(self.bound, finish)
            elif answer.bound is not None and isfinite(answer.bound):
                self.bound = max(self.bound, min(round(answer.bound), finish))
