"""The timetable of a house and its classes: solved, checked, and told by dates and names."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from setday.actions.timetable.problem import ClassDay, guest_there
from setday.solving import Limits
from setday.timetable.classwork import ClassTimetable, Fixed, Near, Tally, solve, tally, verify
from setday.timetable.tasks import Work

__all__ = ["Crew", "Progress", "Timetable", "solve_timetable", "spans"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How a search gets on, by dates.

    Parameters
    ----------
    seconds : float
        Since it began [s].
    finish, bound : int
        Periods until all work is done: the best so far, and what is proven to be the least (0: nothing).
    ready, earliest : date or None
        The same as days; None beyond the calendar.
    """

    seconds: float
    finish: int
    bound: int
    ready: date | None
    earliest: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Who does one task in one period.

    Parameters
    ----------
    number : int
        Crews of a period are counted from 1.
    work : str
        Key of the work.
    students : tuple of str
        Keys.
    """

    number: int
    work: str
    students: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Timetable:
    """A timetable that passed its check.

    Parameters
    ----------
    day : ClassDay
    rows : tuple of tuple of str
        For each period the key of each student's task, "" for none.
    finish, bound, plain : int
        Periods until all is done: here, at the least, and by a plain list of what is urgent.
    status : str
        "optimal", "feasible", "stopped".
    undone : tuple of str
        What is left undone when the calendar is too short, and pins that are not kept.
    idle : int
        Times somebody present has no task.
    seconds : float
    since : int
        Periods that are over.
    """

    day: ClassDay
    rows: tuple[tuple[str, ...], ...]
    finish: int
    bound: int
    plain: int
    status: str
    undone: tuple[str, ...]
    idle: int
    seconds: float
    since: int = 0

    @property
    def ready(self) -> date | None:
        """The day on which all is done; None where it is not within the calendar."""
        return None if self.late_beyond else self.day.ready_on(self.finish)

    @property
    def late_beyond(self) -> bool:
        """True when the calendar ends before the work does."""
        return self.finish > len(self.day.meetings)

    @property
    def in_time(self) -> bool:
        """True when all work is done before set day."""
        return self.finish <= self.day.set_period and not self.late_beyond

    @property
    def margin_days(self) -> int | None:
        """Days from the last day of work to set day, below nothing when late; None beyond the calendar."""
        ready = self.ready
        return None if ready is None else (self.day.plan.calendar.set_day - ready).days

    @cached_property
    def crews(self) -> tuple[tuple[Crew, ...], ...]:
        """The crews of each period; one that goes on with its task keeps its number where it can."""
        students = [student.key for student in self.day.problem.students]
        numbered: list[tuple[Crew, ...]] = []
        kept: dict[str, int] = {}
        for row in self.rows:
            members: dict[str, list[str]] = {}
            for student, key in zip(students, row, strict=True):
                if key:
                    members.setdefault(key, []).append(student)
            kept = _numbered(sorted(members, key=self._order), kept)
            crews = [Crew(number=kept[key], work=key, students=tuple(members[key])) for key in members]
            numbered.append(tuple(sorted(crews, key=lambda crew: crew.number)))
        return tuple(numbered)

    def _order(self, key: str) -> tuple[bool, int]:
        number = self.day.problem.number[key]
        return self.day.problem.tasks[number].filler, number

    @cached_property
    def to_book(self) -> tuple[str, ...]:
        """Guests who are planned for a day on which nobody has booked them, in words."""
        said = []
        for number in range(self.since, len(self.crews)):
            for crew in self.crews[number]:
                work = self.day.works.get(crew.work)
                if work is not None and not guest_there(work, self.day.meetings[number]):
                    on = self.day.meetings[number].date
                    said.append(f"book {work.guest} for {on:%A %-d %B %Y}: {work.label}")
        return tuple(dict.fromkeys(said))

    def broken(self) -> list[str]:
        """Return the hard rules it breaks, asked of the check that shares nothing with the search."""
        return [self.day.spoken(each) for each in verify(self.day.problem, self.rows, since=self.since)]

    @cached_property
    def tally(self) -> Tally:
        """Hours, changes of crew and pairs."""
        return tally(self.day.problem, self.rows, since=self.since)

    def minutes_by_trade(self) -> dict[str, Counter[str]]:
        """Return for each student the minutes of each trade [min]."""
        trades = {task.key: task.trade for task in self.day.problem.tasks}
        sums: dict[str, Counter[str]] = {s.key: Counter() for s in self.day.problem.students}
        for period, row in zip(self.day.problem.periods, self.rows, strict=False):
            for student, key in zip(self.day.problem.students, row, strict=True):
                if key:
                    sums[student.key][trades[key]] += period.minutes
        return sums


def _numbered(keys: list[str], before: dict[str, int]) -> dict[str, int]:
    """Return a number for each task: its old one where it had one, else the lowest free one."""
    numbers = {key: before[key] for key in keys if key in before and before[key] <= len(keys)}
    free = iter(n for n in range(1, len(keys) + 1) if n not in numbers.values())
    return numbers | {key: next(free) for key in keys if key not in numbers}


def solve_timetable(
    day: ClassDay,
    *,
    limits: Limits,
    fixed: Fixed | None = None,
    start: Near | None = None,
    on_progress: Callable[[Progress], bool] | None = None,
) -> Timetable:
    """Find who does what in every period, the earliest finish first.

    Parameters
    ----------
    day : ClassDay
    limits : Limits
    fixed : Fixed or None
        Periods that are over; the pins of the class file are put to it.
    start : Near or None
        A timetable to stay near.
    on_progress : callable or None
        Told how it gets on; answers False to stop and keep the best.
    """
    given = fixed or Fixed()
    since = len(given.happened)
    pins = (*given.pins, *(pin for pin in day.pins if pin.period >= since))
    began = limits.clock()

    def follow(best: int, bound: int) -> bool | None:
        if on_progress is None:
            return None
        return on_progress(
            Progress(
                seconds=limits.clock() - began,
                finish=best,
                bound=bound,
                ready=day.ready_on(best),
                earliest=day.ready_on(bound),
            )
        )

    found = solve(
        day.problem,
        limits=limits,
        fixed=Fixed(happened=given.happened, pins=pins),
        start=start,
        on_progress=follow,
    )
    return timetable_of(day, found, since=since)


def timetable_of(day: ClassDay, found: ClassTimetable, *, since: int = 0) -> Timetable:
    """Return what a search found, told by dates and names."""
    return Timetable(
        day=day,
        rows=found.rows,
        finish=found.finish,
        bound=found.bound,
        plain=found.plain,
        status=found.status.value,
        undone=tuple(day.spoken(each) for each in found.broken),
        idle=found.idle,
        seconds=found.seconds,
        since=since,
    )


def spans(timetable: Timetable) -> Iterator[tuple[Work, tuple[int, ...]]]:
    """Yield each work with the periods it runs in, in the order in which they begin; benches left out."""
    running: dict[str, list[int]] = {}
    for number, crews in enumerate(timetable.crews):
        for crew in crews:
            running.setdefault(crew.work, []).append(number)
    works = [work for work in timetable.day.work.works if not work.filler]
    last = len(timetable.rows)
    for work in sorted(works, key=lambda w: running.get(w.key, [last])[0]):
        yield work, tuple(running.get(work.key, ()))
