"""Solve a project: breed lists for a good timetable, prove with CP-SAT, check before it is shown."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from threading import Thread

import numpy as np
from numpy.typing import NDArray

from setday.solving import Answer, Deadline, Limits, Status, run_cpsat
from setday.timetable.projects.arrays import ProjectArrays, arrays_of
from setday.timetable.projects.bounds import lower_bound
from setday.timetable.projects.breeding import breed, plain_finish, sow
from setday.timetable.projects.cpsat import OPTIONS, model_of
from setday.timetable.projects.project import Project
from setday.timetable.projects.verify import verify

__all__ = ["Scheduled", "solve"]

_MEMBERS = 60
"""Lists in one population."""

_LARGE = 50
"""Tasks from which a good timetable is harder to find than to prove."""

_SPELL = 400
"""Children between two looks at the clock."""


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

    def __init__(self, arrays: ProjectArrays, *, seed: int) -> None:
        self.arrays = tuple(getattr(arrays, name) for name in ProjectArrays.__slots__)
        count = len(arrays.durations)
        self.lists = np.zeros((_MEMBERS, count), dtype=np.int32)
        self.starts = np.zeros((_MEMBERS, count), dtype=np.int32)
        self.finishes = np.zeros(_MEMBERS, dtype=np.int32)
        self.seed = seed
        self.tried = _MEMBERS
        sow(seed, self.arrays, self.lists, self.starts, self.finishes)
        self.first = int(plain_finish(self.arrays))
        breed(seed, 0, 0, self.arrays, self.lists, self.starts, self.finishes)  # compiled before time counts

    def spell(self, goal: int) -> None:
        self.seed += 1
        breed(self.seed, _SPELL, goal, self.arrays, self.lists, self.starts, self.finishes)
        self.tried += _SPELL

    @property
    def best(self) -> tuple[int, NDArray[np.int32]]:
        member = int(np.argmin(self.finishes))
        return int(self.finishes[member]), self.starts[member]

    def breed_until(self, goal: int, done: Callable[[], bool]) -> None:
        while self.best[0] > goal and not done():
            self.spell(goal)


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
        self.stopped = False
        self.proven: tuple[int, ...] = ()
        """Starts CP-SAT found; the populations stay with the threads that breed them."""
        arrays = arrays_of(project)
        self.populations = [
            _Population(arrays, seed=1000 * limits.seed + 500 * n) for n in range(max(1, limits.workers))
        ]
        self.deadline: Deadline = limits.start()

    def run(self) -> Scheduled:
        self._breed_alone(self._warm_up_seconds())
        if self.best[0] > self.bound and not self._over():
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
        finish, starts = min((p.best for p in self.populations), key=lambda best: best[0])
        if self.proven:
            ends = zip(self.proven, self.project.durations, strict=True)
            other = max(start + length for start, length in ends)
            if other < finish:
                return other, self.proven
        return finish, tuple(int(start) for start in starts)

    def _status(self, finish: int) -> Status:
        if finish <= self.bound:
            return Status.OPTIMAL
        return Status.STOPPED if self.stopped else Status.FEASIBLE

    def _warm_up_seconds(self) -> float:
        """Breeding before the proof begins: a hundredth of a second for a small project, more for large."""
        tasks = len(self.project.durations)
        return float(min(0.1 * self.limits.seconds, 0.0005 * tasks**1.5))

    def _over(self) -> bool:
        if self.on_progress is not None and self.on_progress(self.best[0], self.bound) is False:
            self.stopped = True
        return self.stopped or self.deadline.expired

    def _breed_alone(self, seconds: float) -> None:
        until = self.deadline.spent + seconds
        self._breed(self.populations, lambda: self.deadline.spent >= until)

    def _breed(self, populations: Sequence[_Population], done: Callable[[], bool]) -> None:
        threads = [Thread(target=p.breed_until, args=(self.bound, done)) for p in populations[1:]]
        for thread in threads:
            thread.start()
        populations[0].breed_until(self.bound, done)
        for thread in threads:
            thread.join()

    def _prove_and_breed(self) -> None:
        finish, starts = self.best
        ended = False
        beside = self.populations[: self.limits.workers - 1] if self._breeds_on() else []
        thread = Thread(target=self._breed, args=(beside, lambda: ended or self.deadline.expired))
        if beside:
            thread.start()
        try:
            self._prove(finish, starts, workers=max(1, self.limits.workers - len(beside)))
        finally:
            ended = True
            if beside:
                thread.join()

    def _breeds_on(self) -> bool:
        """Whether one worker goes on breeding beside the proof: on large projects, when there are two."""
        return self.limits.workers > 1 and len(self.project.durations) > _LARGE

    def _prove(self, finish: int, starts: tuple[int, ...], *, workers: int) -> None:
        model = model_of(self.project, least=self.bound, most=finish - 1, hint=starts)
        limits = Limits(
            seconds=self.deadline.left, clock=self.limits.clock, seed=self.limits.seed, workers=workers
        )

        def told(answer: Answer) -> bool | None:
            if answer.bound is not None and answer.bound > self.bound:
                self.bound = min(round(answer.bound), finish)
            return False if self._over() or self.best[0] <= self.bound else None

        answer = run_cpsat(model.model, limits=limits, on_progress=told, options=OPTIONS)
        if answer.values:
            self.proven = tuple(round(answer.values[index]) for index in model.starts)
        if answer.final and not answer.values:
            self.bound = finish
        elif answer.bound is not None:
            self.bound = max(self.bound, min(round(answer.bound), finish))
