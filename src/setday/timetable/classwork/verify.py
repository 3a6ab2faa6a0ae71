"""An independent check of a class timetable; shares nothing with the play, the search or the bound."""

from collections import Counter
from collections.abc import Iterator, Sequence

from setday.timetable.classwork.problem import ClassProblem, Task

__all__ = ["idle", "verify"]

Rows = Sequence[Sequence[str]]
"""For each period the key of each student's task, "" for none; students in the order of the problem."""


def verify(problem: ClassProblem, rows: Rows, *, since: int = 0) -> list[str]:
    """Return the hard rules that a timetable breaks, in words; empty when it keeps them all.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
        May end before the calendar does; a task left unfinished is told.
    since : int
        First period of which the rules are asked; what happened before it counts as work done.
    """
    tasks = {task.key: task for task in problem.tasks}
    strangers = sorted({key for row in rows for key in row if key} - set(tasks))
    if strangers:
        return [f"{key} is no task" for key in strangers]
    crews = [Counter(key for key in row if key) for row in rows]
    told = [(n, said) for rule in (_people, _apart) for n, said in rule(problem, tasks, rows)]
    told += [(n, said) for rule in (_crews, _shared, _waits) for n, said in rule(problem, tasks, crews)]
    return [said for number, said in told if number >= since]


def idle(problem: ClassProblem, rows: Rows) -> int:
    """Return how many times somebody present has no task."""
    return sum(
        student.key in period.present and not key
        for period, row in zip(problem.periods, rows, strict=False)
        for student, key in zip(problem.students, row, strict=True)
    )


Told = Iterator[tuple[int, str]]
"""Period and what is broken in it."""


def _people(problem: ClassProblem, tasks: dict[str, Task], rows: Rows) -> Told:
    for number, (period, row) in enumerate(zip(problem.periods, rows, strict=False)):
        for student, key in zip(problem.students, row, strict=True):
            if not key:
                continue
            task = tasks[key]
            if student.key not in period.present:
                yield number, f"period {number}: {student.key} is on {task.label} but away"
            if not set(task.signoffs) <= student.signoffs:
                yield number, f"period {number}: {student.key} lacks a sign-off for {task.label}"
            if task.barred_to_minors and student.minor:
                yield (
                    number,
                    f"period {number}: {student.key} is a minor, and {task.label} is barred to minors",
                )


def _apart(problem: ClassProblem, tasks: dict[str, Task], rows: Rows) -> Told:
    """Students to be kept apart; a practice bench is no crew."""
    place = {student.key: n for n, student in enumerate(problem.students)}
    for number, row in enumerate(rows):
        for student, key in zip(problem.students, row, strict=True):
            if not key or tasks[key].filler:
                continue
            for other in sorted(student.apart & set(place)):
                if row[place[other]] == key:
                    both = f"{student.key} and {other}"
                    yield number, f"period {number}: {both} are on one crew, {tasks[key].label}"


def _crews(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Told:
    for number, crew in enumerate(crews):
        for key, many in sorted(crew.items()):
            task = tasks[key]
            if not task.crew_least <= many <= task.crew_most:
                sizes = f"{task.crew_least} to {task.crew_most}"
                yield number, f"period {number}: {many} on {task.label}, which takes {sizes}"
            if number < task.begin:
                yield number, f"period {number}: {task.label} may not begin before period {task.begin}"
            if task.allowed and number not in task.allowed:
                yield number, f"period {number}: {task.label} is not allowed then"
            if task.dry and not problem.periods[number].dry:
                yield number, f"period {number}: {task.label} needs dry weather"


def _shared(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Told:
    holds = {place.key: place.holds for place in problem.places}
    for number, crew in enumerate(crews):
        people = Counter[str]()
        for key, many in crew.items():
            people[tasks[key].place] += many
        for place, many in sorted(people.items()):
            if many > holds[place]:
                yield number, f"period {number}: {many} in {place}, which holds {holds[place]}"
        watched = sum(tasks[key].attention for key in crew)
        if watched > problem.periods[number].attention:
            yield number, f"period {number}: {watched} tenths of an instructor are needed"
        for one in crew:
            for other in crew:
                if tasks[one].place == tasks[other].place and tasks[other].trade in tasks[one].clashes:
                    yield number, f"period {number}: {tasks[one].label} beside {tasks[other].label}"


def _waits(problem: ClassProblem, tasks: dict[str, Task], crews: list[Counter[str]]) -> Told:
    begun, ended = _spans(problem, crews)
    _marks(problem, ended)
    for task in problem.tasks:
        if task.filler:
            continue
        if task.key not in ended:
            yield len(problem.periods), f"{task.label} is not finished"
        for wait in task.after:
            if task.key not in begun:
                continue
            start, end = begun[task.key], ended.get(wait.task)
            waited = tasks[wait.task].label
            if end is None or start <= end:
                yield start, f"{task.label} begins in period {start}, before {waited} is finished"
            elif problem.periods[start].day < problem.periods[end].day + wait.days:
                yield start, f"{task.label} begins {wait.days} days too soon after {waited}"


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


def _marks(problem: ClassProblem, ended: dict[str, int]) -> None:
    """Add when each mark, which nobody works on, is over: the first period its waits and dates allow."""
    waiting = [task for task in problem.tasks if not task.work and not task.filler and task.key not in ended]
    while known := [task for task in waiting if all(wait.task in ended for wait in task.after)]:
        for task in known:
            waiting.remove(task)
            passed = (n for n in range(len(problem.periods)) if _passes(problem, task, n, ended))
            if (number := next(passed, None)) is not None:
                ended[task.key] = number


def _passes(problem: ClassProblem, mark: Task, number: int, ended: dict[str, int]) -> bool:
    """Return whether a mark can be over in a period."""
    period = problem.periods[number]
    if number < mark.begin or (mark.allowed and number not in mark.allowed):
        return False
    return (period.dry or not mark.dry) and all(
        number > ended[wait.task] and period.day >= problem.periods[ended[wait.task]].day + wait.days
        for wait in mark.after
    )
