"""An independent check of a class timetable; shares nothing with the play, the search or the bound."""

from collections import Counter
from collections.abc import Iterator, Sequence

from setday.timetable.classwork.problem import ClassProblem, Task

__all__ = ["idle", "verify"]

Rows = Sequence[Sequence[str]]
"""For each period the key of each student's task, "" for none; students in the order of the problem."""


def verify(problem: ClassProblem, rows: Rows) -> list[str]:
    """Return the hard rules that a timetable breaks, in words; empty when it keeps them all.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
        May end before the calendar does; a task left unfinished is told.
    """
    tasks = {task.key: task for task in problem.tasks}
    strangers = sorted({key for row in rows for key in row if key} - set(tasks))
    if strangers:
        return [f"{key} is no task" for key in strangers]
    crews = [Counter(key for key in row if key) for row in rows]
    told = [*_people(problem, tasks, rows), *_crews(problem, tasks, crews), *_shared(problem, tasks, crews)]
    return told + list(_waits(problem, tasks, crews))


def idle(problem: ClassProblem, rows: Rows) -> int:
    """Return how many times somebody present has no task."""
    return sum(
        student.key in period.present and not key
        for period, row in zip(problem.periods, rows, strict=False)
        for student, key in zip(problem.students, row, strict=True)
    )


def _people(problem: ClassProblem, tasks: dict[str, Task], rows: Rows) -> Iterator[str]:
    for number, (period, row) in enumerate(zip(problem.periods, rows, strict=False)):
        for student, key in zip(problem.students, row, strict=True):
            if not key:
                continue
            task = tasks[key]
            if student.key not in period.present:
                yield f"period {number}: {student.key} is on {task.label} but away"
            if not set(task.signoffs) <= student.signoffs:
                yield f"period {number}: {student.key} lacks a sign-off for {task.label}"
            if task.barred_to_minors and student.minor:
                yield f"period {number}: {student.key} is a minor, and {task.label} is barred to minors"


def _crews(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Iterator[str]:
    for number, crew in enumerate(crews):
        for key, many in sorted(crew.items()):
            task = tasks[key]
            if not task.crew_least <= many <= task.crew_most:
                sizes = f"{task.crew_least} to {task.crew_most}"
                yield f"period {number}: {many} on {task.label}, which takes {sizes}"
            if number < task.begin:
                yield f"period {number}: {task.label} may not begin before period {task.begin}"
            if task.allowed and number not in task.allowed:
                yield f"period {number}: {task.label} is not allowed then"
            if task.dry and not problem.periods[number].dry:
                yield f"period {number}: {task.label} needs dry weather"


def _shared(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Iterator[str]:
    holds = {place.key: place.holds for place in problem.places}
    for number, crew in enumerate(crews):
        people = Counter[str]()
        for key, many in crew.items():
            people[tasks[key].place] += many
        for place, many in sorted(people.items()):
            if many > holds[place]:
                yield f"period {number}: {many} in {place}, which holds {holds[place]}"
        watched = sum(tasks[key].attention for key in crew)
        if watched > problem.periods[number].attention:
            yield f"period {number}: {watched} tenths of an instructor are needed"
        for one in crew:
            for other in crew:
                if tasks[one].place == tasks[other].place and tasks[other].trade in tasks[one].clashes:
                    yield f"period {number}: {tasks[one].label} beside {tasks[other].label}"


def _waits(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Iterator[str]:
    begun, ended = _spans(problem, crews)
    for task in problem.tasks:
        if task.filler:
            continue
        if task.work and task.key not in ended:
            yield f"{task.label} is not finished"
        for wait in task.after:
            if task.key not in begun or not tasks[wait.task].work:
                continue
            start, end = begun[task.key], ended.get(wait.task)
            if end is None or start <= end:
                yield f"{task.label} begins in period {start}, before {tasks[wait.task].label} is finished"
            elif problem.periods[start].day < problem.periods[end].day + wait.days:
                yield f"{task.label} begins {wait.days} days too soon after {tasks[wait.task].label}"


def _spans(problem: ClassProblem, crews: list[Counter[str]]) -> tuple[dict[str, int], dict[str, int]]:
    """Return the first period of each task, and the one in which its work is done."""
    begun: dict[str, int] = {}
    ended: dict[str, int] = {}
    left = {task.key: task.work for task in problem.tasks if not task.filler}
    for number, crew in enumerate(crews):
        for key, many in crew.items():
            begun.setdefault(key, number)
            if key in left:
                left[key] -= many * problem.periods[number].minutes
                if left[key] <= 0:
                    ended.setdefault(key, number)
    return begun, ended
