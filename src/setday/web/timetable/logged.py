"""What crews entered in closed periods, as the log that repair and odds read."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.roster import Meeting, plain
from setday.roster.periods import TaskState, log_of
from setday.web.clock import on_site
from setday.web.keeping.models import AttendanceState, ClassPeriod, House, HouseTask, Member
from setday.web.period.figured import marks_of

if TYPE_CHECKING:
    from setday.actions.timetable.problem import ClassDay
    from setday.roster.periods import Mark
    from setday.timetable.tasks import PeriodLog, Worked

__all__ = ["Logged", "logged", "meeting_of", "student_keys"]

_NOT_DONE = 0.9
"""How much of a task is taken for done at most while its crew has not said that it is; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """The closed periods of a house as a log.

    Parameters
    ----------
    periods : tuple of PeriodLog
    left_out : tuple of str
        What has no place in the class file or the house, in words.
    """

    periods: "tuple[PeriodLog, ...]" = ()
    left_out: tuple[str, ...] = ()


def logged(house: House, day: "ClassDay") -> Logged:
    """Return what was done in the closed periods of a house, in order.

    Parameters
    ----------
    house : House
    day : ClassDay
        Of the class file in force: periods, students and tasks are found in it by their keys or names.
    """
    return _Log(house, day).read()


def student_keys(day: "ClassDay", members: Iterable[Member]) -> dict[str, str]:
    """Return the student of the class file for each member, by the member's key; those without left out."""
    named = {plain(name): key for key, name in day.names.items()}
    found = {each.key: named.get(plain(each.name)) or named.get(plain(each.key)) for each in members}
    return {member: student for member, student in found.items() if student}


def meeting_of(period: ClassPeriod, day: "ClassDay") -> Meeting | None:
    """Return the meeting of the class file that a period was: of its class, that day, nearest its bell."""
    begins = on_site(period.begins)
    ours = {plain(period.school_class.key), plain(period.school_class.name)}
    groups = {group.key for group in day.plan.classes if {plain(group.key), plain(group.name)} & ours}
    then = [m for m in day.meetings if m.date == begins.date() and m.school_class in groups]
    minutes = begins.hour * 60 + begins.minute
    return min(then, key=lambda m: abs(m.begin.hour * 60 + m.begin.minute - minutes), default=None)


class _Log:
    def __init__(self, house: House, day: "ClassDay") -> None:
        self.house, self.day = house, day
        self.people = student_keys(day, Member.objects.filter(school=house.school))
        self.tasks = {task.key: task for task in HouseTask.objects.filter(house=house)}
        self.keys = {part: work.key for work in day.work.works for part in (work.key, *work.parts)}
        self.said: list[Mark] = []
        self.spent: dict[str, float] = {}
        self.left_out: list[str] = []

    def read(self) -> Logged:
        closed = ClassPeriod.objects.filter(house=self.house, closed_at__isnull=False)
        rows = closed.select_related("school_class", "school").order_by("begins", "pk")
        found = [each for period in rows for each in self._period(period)]
        return Logged(periods=tuple(found), left_out=tuple(dict.fromkeys(self.left_out)))

    def _period(self, period: ClassPeriod) -> Iterator["PeriodLog"]:
        from setday.timetable.tasks import PeriodLog

        meeting = meeting_of(period, self.day)
        marks = marks_of(period)
        self.said += marks
        if meeting is None:
            self.left_out.append(_("%(period)s: the class file has no such period.") % {"period": period})
            return
        away = period.attendance.filter(state=AttendanceState.AWAY).select_related("member")
        yield PeriodLog(
            date=meeting.date,
            begin=meeting.begin,
            school_class=meeting.school_class,
            absent=tuple(each for row in away for each in self._student(row.member.key, row.member.name)),
            worked=tuple(self._worked(marks, meeting)) if marks else None,
        )

    def _student(self, key: str, name: str = "") -> Iterator[str]:
        if key in self.people:
            yield self.people[key]
        else:
            self.left_out.append(_("%(name)s is not in the class file.") % {"name": name or key})

    def _worked(self, marks: "Iterable[Mark]", meeting: Meeting) -> Iterator["Worked"]:
        from setday.timetable.tasks import Worked

        at: dict[str, set[str]] = {}
        for mark in marks:
            at.setdefault(mark.task, set()).update(mark.members)
        for task, members in at.items():
            key = self.keys.get(task)
            if key is None:
                label = self.tasks[task].label if task in self.tasks else task
                self.left_out.append(_("'%(task)s' is not in the timetable.") % {"task": label})
                continue
            students = tuple(sorted(each for member in members for each in self._student(member)))
            self.spent[task] = self.spent.get(task, 0) + len(students) * meeting.minutes
            yield Worked(task=key, students=students, done=self._done(task, key))

    def _done(self, task: str, key: str) -> float | None:
        """Return how much of a task is done: what was said, else by the minutes, never all of it."""
        progress = log_of(self.said).of(task)
        if progress.state is TaskState.DONE:
            return 1.0
        whole = self.tasks[task].quantity if task in self.tasks else 0
        if whole and progress.quantity:
            return min(_NOT_DONE, progress.quantity / whole)
        minutes = self.day.works[key].minutes
        return _NOT_DONE if minutes and self.spent[task] >= _NOT_DONE * minutes else None
