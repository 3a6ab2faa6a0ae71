"""Who may do what, and from when: sign-offs and limits for minors as one word for each kind of demand.

The search knows sign-offs that do not change.  One that will be signed for, or an age that will be reached,
while the house is built therefore holds work back until the day on which enough students may do it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from setday.roster import ClassPlan, birthday, may, plain, spoken_day
from setday.roster import Student as RosterStudent
from setday.roster import Work as RosterWork
from setday.timetable.classwork import Student
from setday.timetable.tasks import Work

__all__ = ["Permission", "Permissions"]

_AGES = (14, 16, 18)
_ENOUGH = 0.5
"""Share of those who will ever be allowed that is worth waiting for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Permission:
    """What a work asks of a student.

    Parameters
    ----------
    words : tuple of str
        One word, or none where everybody may do it.
    able : frozenset of str
        Keys of the students who may.
    since : date or None
        The day from which they all may, where it is still to come.
    """

    words: tuple[str, ...]
    able: frozenset[str]
    since: date | None


class Permissions:
    """Who may do which work, worked out once for each kind of demand.

    Parameters
    ----------
    plan : ClassPlan
    since : date
        The first day that matters.
    """

    def __init__(self, plan: ClassPlan, *, since: date) -> None:
        self.plan, self.since = plan, since
        self.days = tuple(sorted({since, *self._changes()}))
        self.known: dict[tuple[object, ...], Permission] = {}

    def _changes(self) -> Iterator[date]:
        last = self.plan.calendar.set_day
        for student in self.plan.students:
            born = student.born
            reached = [birthday(born, age) for age in _AGES] if born else []
            for day in (*reached, *(sign.on for sign in student.signoffs)):
                if self.since < day < last:
                    yield day

    def of_work(self, work: Work) -> Permission:
        """Return what a work asks, and who may do it."""
        demand = (work.signoffs, work.exposures, work.on_site, work.crew_least)
        if demand not in self.known:
            self.known[demand] = self._found(work)
        return self.known[demand]

    def _found(self, work: Work) -> Permission:
        asked = RosterWork(
            key=work.key,
            label=work.label,
            signoffs=work.signoffs,
            exposures=work.exposures,
            on_site=work.on_site,
        )
        able = [(day, self._able(asked, day)) for day in self.days]
        most = len(able[-1][1])
        enough = max(min(work.crew_least, most), _ENOUGH * most)
        day, who = next((day, who) for day, who in able if len(who) >= enough)
        if len(who) == len(self.plan.students):
            words: tuple[str, ...] = ()
        else:
            by = f", by {spoken_day(day)}" if day > self.since else ""
            words = (f"{_words(work)}{by}",)
        return Permission(words=words, able=who, since=day if day > self.since else None)

    def _able(self, asked: RosterWork, day: date) -> frozenset[str]:
        return frozenset(s.key for s in self.plan.students if may(s, asked, on=day, rules=self.plan.limits))

    def students(self) -> tuple[Student, ...]:
        """Return the students as the search knows them; asked after every work."""
        return tuple(self._student(student) for student in self.plan.students)

    def _student(self, student: RosterStudent) -> Student:
        mine = {word for each in self.known.values() if student.key in each.able for word in each.words}
        return Student(
            key=student.key,
            signoffs=frozenset(mine),
            knows=student.knows,
            targets=student.targets,
            apart=student.apart,
            together=student.together,
        )


def _words(work: Work) -> str:
    """Return a demand in words: "lift, of age for power saw"."""
    asked = [*map(plain, work.signoffs), *(f"of age for {plain(word)}" for word in work.exposures)]
    return ", ".join(asked) or "old enough for the site"
