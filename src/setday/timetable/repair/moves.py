"""What moved in a repair and why, in the trade's words."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from setday.timetable.classwork import ClassProblem, Pin, Task
from setday.timetable.odds import ends_of

__all__ = ["Move", "moves_of", "said_of"]

Rows = Sequence[Sequence[str]]
Name = Callable[[int], str]

_NAMED = 3
"""Moves that are named in the lines; the others are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A task that begins in another period than planned.

    Parameters
    ----------
    task, label : str
    was, now : int or None
        First period planned, and now; None for a task that was or is in no period.
    reason : str
    """

    task: str
    label: str
    was: int | None
    now: int | None
    reason: str


def moves_of(
    problem: ClassProblem, *, rows: Rows, old: Rows, since: int, pins: Sequence[Pin], name: Name
) -> tuple[Move, ...]:
    """Return the tasks that begin in another period than planned, by that period.

    Parameters
    ----------
    problem : ClassProblem
        As it is now.
    rows, old : rows of the timetables, now and as planned
    since : int
        First period planned anew; what began before it cannot move.
    pins : sequence of Pin
    name : callable
        How a period is called.
    """
    why = _Why(problem, rows, old, since, pins, name)
    was, now = _begins(old), _begins(rows)
    began = {key for row in rows[:since] for key in row}
    found = []
    for task in problem.tasks:
        if task.filler or not task.work or task.key in began:
            continue
        before, after = was.get(task.key), now.get(task.key)
        if before != after and (before is None or before >= since or after is not None):
            reason = why(task, before, after)
            found.append(Move(task=task.key, label=task.label, was=before, now=after, reason=reason))
    last = len(problem.periods)
    return tuple(sorted(found, key=lambda m: (min(_or(m.was, last), _or(m.now, last)), m.task)))


def _or(period: int | None, last: int) -> int:
    return last if period is None else period


def _begins(rows: Rows) -> dict[str, int]:
    begins: dict[str, int] = {}
    for number, row in enumerate(rows):
        for key in row:
            begins.setdefault(key, number)
    return begins


class _Why:
    """Finds why a task does not begin when it was planned; the first reason that holds is told."""

    def __init__(
        self, problem: ClassProblem, rows: Rows, old: Rows, since: int, pins: Sequence[Pin], name: Name
    ) -> None:
        self.problem, self.rows, self.old, self.since, self.name = problem, rows, old, since, name
        self.pinned = {(pin.task, pin.period) for pin in pins}
        self.ends = ends_of(problem, rows)

    def __call__(self, task: Task, was: int | None, now: int | None) -> str:
        """Return the reason in words."""
        if now is None:
            return "the calendar is too short for it"
        if (task.key, now) in self.pinned:
            return f"it is pinned to {self.name(now)}"
        if was is None:
            return "it was not in the old timetable"
        if was < self.since:
            return "it was planned for a period that is over, but was not begun"
        if now < was:
            return "its crew is free sooner"
        return (
            self._dates(task, was)
            or self._waits(task, was)
            or self._people(task, was)
            or self._taken(task, was)
        )

    def _dates(self, task: Task, was: int) -> str:
        if task.begin > was:
            return f"its material or date is not before {self.name(task.begin)}"
        if task.allowed and was not in task.allowed:
            return f"whoever it needs is not there on {self.name(was)}"
        if task.dry and not self.problem.periods[was].dry:
            return f"{self.name(was)} is wet"
        return ""

    def _waits(self, task: Task, was: int) -> str:
        late = []
        for wait in task.after:
            end = self.ends.get(wait.task, len(self.problem.periods) - 1)
            day = self.problem.periods[end].day + wait.days
            if end >= was or self.problem.periods[was].day < day:
                late.append((end, wait.task))
        if not late:
            return ""
        end, key = max(late)
        label = self.problem.tasks[self.problem.number[key]].label
        return f"it waits for {label}, which is finished on {self.name(end)}"

    def _people(self, task: Task, was: int) -> str:
        present = self.problem.periods[was].present
        able = [s for s in self.problem.students if s.key in present and self.problem.may(s, task)]
        if len(able) < task.crew_least:
            return f"only {len(able)} who may do it are there on {self.name(was)}"
        return ""

    def _taken(self, task: Task, was: int) -> str:
        """Return which tasks have its crew, its place or the instructor that were not there before."""
        row = self.rows[was] if was < len(self.rows) else ()
        before = set(self.old[was])
        crew = Counter(
            key for key, planned in zip(row, self.old[was], strict=False) if planned == task.key and key
        )
        tasks = {one.key: one for one in self.problem.tasks}
        for key, _ in crew.most_common():
            if not tasks[key].filler:
                return f"its crew is on {tasks[key].label} then"
        for key in sorted(set(row) - before - {""}):
            if tasks[key].place == task.place and not tasks[key].filler:
                return f"{tasks[key].label} has its place then"
        for key in sorted(set(row) - before - {""}):
            if tasks[key].attention and task.attention:
                return f"the instructor is with {tasks[key].label} then"
        away = [
            student.key
            for student, planned in zip(self.problem.students, self.old[was], strict=True)
            if planned == task.key and student.key not in self.problem.periods[was].present
        ]
        if away:
            return f"{' and '.join(away)} of its crew {'are' if len(away) > 1 else 'is'} away then"
        return "others come first so that set day holds"


def said_of(
    problem: ClassProblem,
    *,
    moves: Sequence[Move],
    finishes: tuple[int, int],
    places: tuple[int, int],
    tasks: int,
    name: Name,
) -> tuple[str, str, str]:
    """Return what moved and why in three lines: the finish, the tasks, the students.

    Parameters
    ----------
    problem : ClassProblem
    moves : sequence of Move
    finishes : (int, int)
        As planned and now.
    places : (int, int)
        Near places changed, and how many there are.
    tasks : int
        Tasks that could move.
    name : callable
    """
    return _finish(problem, finishes, name), _moved(moves, tasks, name), _places(places)


def _finish(problem: ClassProblem, finishes: tuple[int, int], name: Name) -> str:
    was, now = finishes
    if now > len(problem.periods):
        return "The calendar is too short: not all work is done at its end."
    change = "as planned" if now == was else f"{abs(now - was)} periods {'later' if now > was else 'earlier'}"
    change = change.replace("1 periods", "1 period")
    late = "" if now <= problem.set_period else f"; that is {now - problem.set_period} after set day"
    return f"All work is done on {name(now - 1)}, {change}{late}."


def _moved(moves: Sequence[Move], tasks: int, name: Name) -> str:
    if not moves:
        return f"None of {tasks} tasks moves."
    named = [
        f"{move.label} to {name(move.now) if move.now is not None else 'no period'} ({move.reason})"
        for move in moves[:_NAMED]
    ]
    more = f", and {len(moves) - _NAMED} more" if len(moves) > _NAMED else ""
    return f"{len(moves)} of {tasks} tasks move: " + "; ".join(named) + more + "."


def _places(places: tuple[int, int]) -> str:
    changed, all_of_them = places
    return f"In the near periods {changed} of {all_of_them} students' places change."
