"""What would help most: each help is tried, and its effect on the finish and on the odds computed."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import median

from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Period, Student, solve
from setday.timetable.odds import Chances, Odds, Simulations, plan_of

__all__ = ["Help", "helps"]

Name = Callable[[int], str]

_LONGER = 15
"""Minutes a longer period has more."""
_SOONER = 5
"""Periods by which material is had earlier."""
_SATURDAY = 240
"""Minutes of a Saturday."""
_DELIVERIES = 3
"""Late dates that are tried each for itself, the latest first."""
_SIMULATIONS = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """What one help would change.

    Parameters
    ----------
    label : str
        In the trade's words.
    finish, finish_without : int
        Finish of the best timetable found in the same time with and without it, in periods of the calendar
        as it is.
    periods : float
        Mean periods earlier over the simulations, the same chance with and without it, the order of work
        as it is.
    chance, chance_without : float
        Chance of making set day with and without it.
    """

    label: str
    finish: int
    finish_without: int
    periods: float
    chance: float
    chance_without: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Try:
    """A changed problem; `added` is the number of a period that was put in, or -1."""

    label: str
    problem: ClassProblem
    added: int = -1

    def back(self, finish: int) -> int:
        """Return a finish in periods of the calendar as it was."""
        return finish - 1 if 0 <= self.added < finish else finish


def helps(
    problem: ClassProblem,
    rows: Sequence[Sequence[str]],
    chances: Chances,
    *,
    limits: Limits,
    name: Name | None = None,
    on_progress: Callable[[int, int], bool | None] | None = None,
) -> tuple[Help, ...]:
    """Return what would help, the most helpful first.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
        The timetable as it is.
    chances : Chances
    limits : Limits
        Time for all of them together.
    name : callable, optional
        How a period is called.
    on_progress : callable, optional
        Told (helps tried, helps in all); answers False to stop and keep what there is.

    Returns
    -------
    tuple of Help
    """
    called = name or (lambda period: f"period {period + 1}")
    tries = list(_tries(problem, called))
    each = replace(limits, seconds=limits.seconds / (len(tries) + 1), workers=1)
    plain = solve(problem, limits=each).finish
    base = _odds(problem, problem, rows, chances, limits=limits)
    found = []
    for done, one in enumerate(tries):
        made = _odds(problem, one.problem, rows, _fitted(chances, one), limits=limits)
        better = one.back(solve(one.problem, limits=each).finish)
        mean = sum(one.back(finish) * many for finish, many in made.counts) / made.simulations
        found.append(
            Help(
                label=one.label,
                finish=min(better, plain),
                finish_without=plain,
                periods=base.mean - mean,
                chance=made.chance,
                chance_without=base.chance,
            )
        )
        if on_progress is not None and on_progress(done + 1, len(tries)) is False:
            break
    return tuple(sorted(found, key=lambda h: (-h.chance, -h.periods, h.label)))


def _odds(
    problem: ClassProblem,
    changed: ClassProblem,
    rows: Sequence[Sequence[str]],
    chances: Chances,
    *,
    limits: Limits,
) -> Odds:
    plan = plan_of(problem, rows)
    ready = Simulations(changed, chances, plan, seed=limits.seed, workers=limits.workers)
    return ready.answer(ready.finishes(0, _SIMULATIONS))


def _fitted(chances: Chances, one: _Try) -> Chances:
    """Return the chances for a calendar with a period put in: its weather is that of the period before."""
    if not chances.wet or one.added < 0:
        return chances
    wet = chances.wet
    return replace(chances, wet=(*wet[: one.added], wet[one.added - 1], *wet[one.added :]))


def _tries(problem: ClassProblem, name: Name) -> Iterator[_Try]:
    periods = problem.periods
    longer = tuple(replace(period, minutes=period.minutes + _LONGER) for period in periods)
    yield _Try(label=f"every period {_LONGER} minutes longer", problem=replace(problem, periods=longer))
    if any(task.attention for task in problem.tasks):
        eyes = tuple(replace(period, attention=period.attention + 10) for period in periods)
        yield _Try(label="a second pair of eyes in every period", problem=replace(problem, periods=eyes))
    yield _Try(label="one hired adult with every sign-off", problem=_hired(problem))
    yield from _sooner(problem, name)
    yield from _signed(problem)
    yield from _saturday(problem, name)


def _hired(problem: ClassProblem) -> ClassProblem:
    every = frozenset(name for task in problem.tasks for name in task.signoffs)
    key = "hired help"
    while any(student.key == key for student in problem.students):
        key += " more"
    return replace(
        problem,
        students=(*problem.students, Student(key=key, signoffs=every)),
        periods=tuple(replace(period, present=period.present | {key}) for period in problem.periods),
    )


def _sooner(problem: ClassProblem, name: Name) -> Iterator[_Try]:
    late = sorted((task for task in problem.tasks if task.begin), key=lambda task: (-task.begin, task.key))
    for task in late[:_DELIVERIES]:
        begin = max(0, task.begin - _SOONER)
        tasks = tuple(replace(t, begin=begin) if t is task else t for t in problem.tasks)
        yield _Try(
            label=f"what {task.label} waits for on {name(begin)} already",
            problem=replace(problem, tasks=tasks),
        )


def _signed(problem: ClassProblem) -> Iterator[_Try]:
    """One more student with each sign-off: the one who would be there most."""
    there = {s.key: sum(s.key in period.present for period in problem.periods) for s in problem.students}
    for name in sorted({name for task in problem.tasks for name in task.signoffs}):
        lacking = [student for student in problem.students if name not in student.signoffs]
        if lacking:
            chosen = max(lacking, key=lambda s: (there[s.key], s.key))
            students = tuple(
                replace(s, signoffs=s.signoffs | {name}) if s is chosen else s for s in problem.students
            )
            yield _Try(
                label=f"the {name} sign-off for {chosen.key}", problem=replace(problem, students=students)
            )


def _saturday(problem: ClassProblem, name: Name) -> Iterator[_Try]:
    """One more meeting on the first free day of the calendar."""
    periods = problem.periods
    gap = next((n for n in range(1, problem.set_period) if periods[n].day > periods[n - 1].day + 1), None)
    if gap is None or gap >= len(periods):
        return
    before = periods[gap - 1]
    minutes = max(_SATURDAY, int(median(period.minutes for period in periods)))
    extra = Period(day=before.day + 1, minutes=minutes, present=before.present, attention=before.attention)
    tasks = tuple(
        replace(
            task,
            begin=task.begin + (task.begin >= gap),
            allowed=tuple(number + (number >= gap) for number in task.allowed),
        )
        for task in problem.tasks
    )
    changed = replace(
        problem,
        tasks=tasks,
        periods=(*periods[:gap], extra, *periods[gap:]),
        set_period=problem.set_period + 1,
    )
    yield _Try(label=f"a Saturday of {minutes // 60} hours after {name(gap - 1)}", problem=changed, added=gap)
