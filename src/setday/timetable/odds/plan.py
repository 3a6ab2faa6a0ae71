"""The list and the crew sizes behind a timetable, so that it can be played under other conditions."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from setday.timetable.classwork import ClassProblem

__all__ = ["Plan", "plan_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A timetable as a list to play.

    Parameters
    ----------
    order : tuple of int
        Task numbers, what comes first first.
    wish : tuple of int
        Crew each task begins with, by task number.
    crews : tuple of float
        Mean crew of each task over the periods it runs, by task number.
    """

    order: tuple[int, ...]
    wish: tuple[int, ...]
    crews: tuple[float, ...]


def plan_of(problem: ClassProblem, rows: Sequence[Sequence[str]]) -> Plan:
    """Return the list behind a timetable: tasks by the periods in which they begin and end.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
        For each period the key of each student's task, "" for none.  Tasks that never run come last.
    """
    crews: dict[str, list[int]] = {task.key: [] for task in problem.tasks}
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    for period, row in enumerate(rows):
        for key, many in Counter(key for key in row if key).items():
            crews[key].append(many)
            first.setdefault(key, period)
            last[key] = period
    never = len(problem.periods)
    turn = _turns(problem)

    def place(number: int) -> tuple[float, float, int]:
        task = problem.tasks[number]
        begun = first.get(task.key, never)
        if not task.work and task.after:
            begun = max(last.get(wait.task, begun) for wait in task.after)
        return begun, last.get(task.key, never), turn[number]

    sizes = [crews[task.key] or [task.crew_least] for task in problem.tasks]
    return Plan(
        order=tuple(sorted(range(len(problem.tasks)), key=place)),
        wish=tuple(_wish(size) for size in sizes),
        crews=tuple(sum(size) / len(size) for size in sizes),
    )


def _wish(sizes: list[int]) -> int:
    """Return the usual crew; the last period often takes fewer."""
    return int(median(sizes[:-1] or sizes))


def _turns(problem: ClassProblem) -> list[int]:
    """Return for each task how many stand before it on its longest chain of waits."""
    turns = [0] * len(problem.tasks)
    for _ in problem.tasks:
        before = list(turns)
        for number, task in enumerate(problem.tasks):
            for wait in task.after:
                turns[number] = max(turns[number], turns[problem.number[wait.task]] + 1)
        if turns == before:
            break
    return turns
