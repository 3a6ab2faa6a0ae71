"""Why no timetable makes set day: the smallest set of demands that clash, found by leaving demands out.

A clash is told as one only where it is proven, by the same bound that is shown beside a timetable.  Where
only the search fails, that is said instead.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

from setday.solving import Deadline, Limits
from setday.timetable.classwork import ClassProblem, Task
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import Fixed, given_of
from setday.timetable.classwork.highs import FlowBound
from setday.timetable.reasons.demands import Demand, demands_of, listed, only, told_of, without

__all__ = ["Clash", "Proof", "clash_of", "disproved"]

Name = Callable[[int], str]
Item = TypeVar("Item")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Why set day cannot be made, or that this is not known.

    Parameters
    ----------
    proven : bool
        False when nothing proves that set day cannot be made; the rest is then empty.
    demands : tuple of Demand
        Any of them left out, the proof is gone.
    tasks : tuple of str
        Keys of the tasks that are enough for the proof.
    smallest : bool
        False when time ran out before every demand and task was tried.
    said : str
    """

    proven: bool
    demands: tuple[Demand, ...] = ()
    tasks: tuple[str, ...] = ()
    smallest: bool = True
    said: str = ""


class Proof(StrEnum):
    """What a proof looks at; the later ones take longer."""

    CHAINS = "chains"
    """Waits and dates alone."""
    HOURS = "hours"
    """All work against the hours of everybody who is there."""
    FLOW = "flow"
    """Everything, work flowing freely within the periods."""


def disproved(problem: ClassProblem, finish: int, proof: Proof) -> bool:
    """Return True when no timetable can be done before period `finish`; False proves nothing."""
    if proof is Proof.HOURS:
        return sum(task.work for task in problem.tasks if not task.filler) > _hours(problem, finish)
    bound = FlowBound(arrays_of(problem), work_of(problem), given_of(problem, Fixed(), None))
    return not bound.possible(finish) if proof is Proof.FLOW else bound.longest_chain() > finish


def _hours(problem: ClassProblem, finish: int) -> int:
    """Return the time of all who are there before period `finish` [student-minutes]."""
    return sum(len(period.present) * period.minutes for period in problem.periods[:finish])


def clash_of(problem: ClassProblem, *, limits: Limits, name: Name | None = None) -> Clash:
    """Return the smallest set of demands that clash with set day.

    Parameters
    ----------
    problem : ClassProblem
    limits : Limits
    name : callable, optional
        How a period is called, as "12 May"; its number otherwise.

    Returns
    -------
    Clash
    """
    deadline = limits.start()
    finish = problem.set_period
    called = name or (lambda period: f"period {period + 1}")
    proof = next((proof for proof in Proof if disproved(problem, finish, proof)), None)
    if proof is None:
        said = f"It is not proven that the work cannot be done by {called(finish - 1)}."
        return Clash(proven=False, said=said)
    everything = demands_of(problem)

    def clash(tasks: Sequence[str], demands: Sequence[Demand]) -> bool:
        freed = without(problem, [demand for demand in everything if demand not in demands])
        return bool(tasks) and disproved(only(freed, tasks), finish, proof)

    tasks: Sequence[str] = [task.key for task in problem.tasks if not task.filler]
    trades = {task.key: task.trade for task in problem.tasks}
    demands = _fewest(everything, lambda demand: demand.kind, lambda kept: clash(tasks, kept), deadline)
    tasks = _fewest(tasks, trades.__getitem__, lambda kept: clash(kept, demands), deadline)
    demands = _fewest(demands, lambda demand: demand.kind, lambda kept: clash(tasks, kept), deadline)
    return Clash(
        proven=True,
        demands=tuple(demands),
        tasks=tuple(tasks),
        smallest=not deadline.expired,
        said=_said(problem, tasks, demands, called),
    )


def _fewest(
    items: Sequence[Item],
    group: Callable[[Item], str],
    clash: Callable[[Sequence[Item]], bool],
    deadline: Deadline,
) -> list[Item]:
    """Return items that still clash when none more can be left out: whole groups are tried first."""
    kept = list(items)
    for one in dict.fromkeys(group(item) for item in items):
        fewer = [item for item in kept if group(item) != one]
        if not deadline.expired and clash(fewer):
            kept = fewer
    share = len(kept) // 2
    while share and not deadline.expired:
        start = 0
        while start < len(kept) and not deadline.expired:
            fewer = kept[:start] + kept[start + share :]
            if clash(fewer):
                kept = fewer
            else:
                start += share
        share //= 2
    return kept


def _said(problem: ClassProblem, tasks: Sequence[str], demands: Sequence[Demand], name: Name) -> str:
    by_key = {task.key: task for task in problem.tasks}
    work = [by_key[key] for key in tasks]
    verb = "cannot all be done" if len(work) > 1 else "cannot be done"
    reasons = [*told_of(problem, demands, name=name), _need(problem, work)]
    by = name(problem.set_period - 1)
    return f"{_what(problem, work)} {verb} by {by}, because {'; '.join(reasons)}."


def _what(problem: ClassProblem, work: Sequence[Task]) -> str:
    if len(work) <= 4:
        return listed([task.label for task in work])
    if len(work) == sum(not task.filler for task in problem.tasks):
        return "The tasks"
    return f"{len(work)} tasks of {listed(sorted({task.trade for task in work}))}"


def _need(problem: ClassProblem, work: Sequence[Task]) -> str:
    """Return how much work it is, and what there is of time."""
    minutes = sorted(period.minutes for period in problem.periods)
    usual = minutes[len(minutes) // 2]
    least = sum(-(-task.work // (usual * task.crew_most)) for task in work)
    keys = {task.key for task in work}
    if all(any(wait.task in keys for wait in task.after) for task in work[1:]) and len(work) <= 8:
        periods = f"{least} period{'s' if least != 1 else ''}"
        if len(work) == 1:
            return f"it takes {periods} with the largest crew"
        return f"they take {periods} one after another with the largest crews"
    there = _hours(problem, problem.set_period)
    hours = sum(task.work for task in work) / 60
    return f"they come to {hours:.0f} student-hours, and the class has {there / 60:.0f} until then"
