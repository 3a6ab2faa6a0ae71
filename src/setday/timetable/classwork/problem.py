"""The class problem: tasks of the house, students who are present or not, periods until set day.

Periods are numbered from 0 in the order of the calendar; several classes of one day have periods of their
own.  Work is counted in student-minutes, so that a short period does less.
"""

from dataclasses import dataclass
from functools import cached_property

from setday.errors import NoAnswer
from setday.timetable.projects import Link, loop_of

__all__ = ["ClassProblem", "Period", "Place", "Student", "Task", "Wait"]

FULL_ATTENTION = 10
"""Attention is counted in tenths of one instructor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """What a task waits for: another task, then time.

    Parameters
    ----------
    task : str
        Key of the task that has to be finished.
    days : int
        Days from its last period before this one may begin; 0 is the next period [d].
    """

    task: str
    days: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One piece of work of the timetable.

    Parameters
    ----------
    key, label, trade, place : str
    work : int
        Student-minutes; 0 for a mark such as "inspection asked for".
    crew_least, crew_most : int
        Useful crew sizes.
    after : tuple of Wait
    signoffs : tuple of str
        Safety sign-offs that every member of the crew needs.
    barred_to_minors : bool
        True when the law keeps minors off it.
    attention : int
        Tenths of one instructor it needs while it runs.
    begin : int
        First period in which it may run: material is due then, or a date was set.
    allowed : tuple of int
        Periods in which it may run at all, as when a guest is there; empty for every period.
    dry : bool
        True when it needs dry weather.
    clashes : tuple of str
        Trades that may not work in the same place in the same period.
    filler : bool
        Useful bench work for students whom the other tasks leave over; never finished.
    """

    key: str
    label: str
    trade: str
    place: str
    work: int
    crew_least: int = 1
    crew_most: int = 4
    after: tuple[Wait, ...] = ()
    signoffs: tuple[str, ...] = ()
    barred_to_minors: bool = False
    attention: int = 0
    begin: int = 0
    allowed: tuple[int, ...] = ()
    dry: bool = False
    clashes: tuple[str, ...] = ()
    filler: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Student:
    """A student as the timetable sees one.

    Parameters
    ----------
    key : str
    signoffs : frozenset of str
    minor : bool
    knows : frozenset of str
        Trades the student can show to another.
    targets : tuple of (str, int)
        Minutes wanted by trade.
    apart : frozenset of str
        Keys of students who are never put on one crew.
    together : frozenset of str
        Keys of students with whom the student rather works.
    """

    key: str
    signoffs: frozenset[str] = frozenset()
    minor: bool = False
    knows: frozenset[str] = frozenset()
    targets: tuple[tuple[str, int], ...] = ()
    apart: frozenset[str] = frozenset()
    together: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Period:
    """One class meeting.

    Parameters
    ----------
    day : int
        Days from the first day of the calendar.
    minutes : int
    present : frozenset of str
        Keys of the students who are expected.
    attention : int
        Tenths of instructors there: 10 for one, 20 with a helper.
    dry : bool
        False when wet weather is expected.
    """

    day: int
    minutes: int
    present: frozenset[str]
    attention: int = FULL_ATTENTION
    dry: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where work happens, and how many people it holds."""

    key: str
    holds: int


@dataclass(frozen=True, kw_only=True)
class ClassProblem:
    """Everything the timetable is made from.

    Parameters
    ----------
    tasks : tuple of Task
    students : tuple of Student
    periods : tuple of Period
        To set day and beyond it, so that a late timetable can be shown as one.
    places : tuple of Place
    set_period : int
        First period that is too late; `len(periods)` when the calendar ends with set day.

    Raises
    ------
    NoAnswer
        All that cannot be: a loop of waits, a task nobody may do, a place that holds too few ...
    """

    tasks: tuple[Task, ...]
    students: tuple[Student, ...]
    periods: tuple[Period, ...]
    places: tuple[Place, ...]
    set_period: int

    def __post_init__(self) -> None:
        problems = [*_doubles(self), *_unknowns(self)]
        if not problems:
            problems = [*_loops(self), *_nobody(self), *_cramped(self)]
        if problems:
            raise NoAnswer("\n".join(problems))

    @cached_property
    def number(self) -> dict[str, int]:
        """Number of each task by its key."""
        return {task.key: number for number, task in enumerate(self.tasks)}

    @cached_property
    def work(self) -> tuple[int, ...]:
        """Numbers of the tasks that have to be finished."""
        return tuple(n for n, task in enumerate(self.tasks) if not task.filler)

    def may(self, student: Student, task: Task) -> bool:
        """Return whether sign-offs and the law let a student on a task."""
        return set(task.signoffs) <= student.signoffs and not (task.barred_to_minors and student.minor)


def _doubles(problem: ClassProblem) -> list[str]:
    told = []
    for what, keys in (
        ("task", [task.key for task in problem.tasks]),
        ("student", [student.key for student in problem.students]),
        ("place", [place.key for place in problem.places]),
    ):
        told += [f"two {what}s are called {key}" for key in sorted({k for k in keys if keys.count(k) > 1})]
    if not problem.students:
        told.append("the class is empty: nobody can do any work")
    if not problem.periods:
        told.append("the calendar has no period")
    return told


def _unknowns(problem: ClassProblem) -> list[str]:
    tasks = {task.key for task in problem.tasks}
    places = {place.key for place in problem.places}
    students = {student.key for student in problem.students}
    told = [
        f"{task.label} waits for {wait.task}, which is no task"
        for task in problem.tasks
        for wait in task.after
        if wait.task not in tasks
    ]
    told += [
        f"{task.label} is at {task.place}, which is no place"
        for task in problem.tasks
        if task.place not in places
    ]
    absent = {key for period in problem.periods for key in period.present} - students
    return told + [f"{key} is expected in a period but not in the class" for key in sorted(absent)]


def _loops(problem: ClassProblem) -> list[str]:
    number = problem.number
    links = tuple(
        Link(before=number[wait.task], after=number[task.key])
        for task in problem.tasks
        for wait in task.after
    )
    loop = loop_of(len(problem.tasks), links)
    if not loop:
        return []
    return ["these wait for each other: " + " -> ".join(problem.tasks[n].label for n in loop)]


def _nobody(problem: ClassProblem) -> list[str]:
    told = []
    for task in problem.tasks:
        able = [student for student in problem.students if problem.may(student, task)]
        if len(able) < task.crew_least and task.work:
            needs = ", ".join(task.signoffs) or "no sign-off"
            adults = ", closed to minors" if task.barred_to_minors else ""
            told.append(
                f"{task.label} needs a crew of {task.crew_least}, but only {len(able)} may do it"
                f" (it needs {needs}{adults})"
            )
    return told


def _cramped(problem: ClassProblem) -> list[str]:
    holds = {place.key: place.holds for place in problem.places}
    told = [
        f"{task.label} needs a crew of {task.crew_least}, but {task.place} holds {holds[task.place]}"
        for task in problem.tasks
        if task.work and holds[task.place] < task.crew_least
    ]
    most = max(period.attention for period in problem.periods)
    told += [
        f"{task.label} needs {task.attention} tenths of an instructor; there are never more than {most}"
        for task in problem.tasks
        if task.attention > most
    ]
    told += [
        f"{task.label} may begin in period {task.begin} at the earliest (material or date), which is set day"
        " or later"
        for task in problem.tasks
        if task.begin >= problem.set_period and not task.filler
    ]
    return told
