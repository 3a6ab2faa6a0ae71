"""How far a house is: from a saved timetable and a log, what happened, what is left, and the class's pace."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from setday.actions.timetable.problem import ClassDay
from setday.actions.timetable.solving import Timetable
from setday.errors import NoAnswer
from setday.files import SavedCrew, SavedPeriod, SavedTimetable
from setday.findings import Finding
from setday.roster import Meeting, plain, spoken_day
from setday.timetable.classwork import ClassProblem, carried_on, idle
from setday.timetable.odds import Logged, Pace, learn
from setday.timetable.tasks import PeriodLog, Worked

__all__ = ["Rows", "Standing", "planned_rows", "saved_of", "standing", "timetable_at"]

Rows = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, kw_only=True)
class Standing:
    """How far a house is.

    Parameters
    ----------
    happened : rows
        Of the periods that are over, as they were.
    planned : rows
        Of the saved timetable, from its first period on.
    problem : ClassProblem
        Each task's work is what was spent and what is left.
    left : mapping
        Student-minutes still to do, by task [min].
    paces : tuple of Pace
        What the log says of each trade.
    absences : mapping
        Number of each logged period to the keys of who was away.
    """

    happened: Rows
    planned: Rows
    problem: ClassProblem
    left: Mapping[str, int]
    paces: tuple[Pace, ...]
    absences: Mapping[int, frozenset[str]] = field(default_factory=dict)

    @property
    def since(self) -> int:
        """Number of periods that are over."""
        return len(self.happened)

    @property
    def rows(self) -> Rows:
        """What happened, and what was planned after it."""
        return (*self.happened, *self.planned[self.since :])


def planned_rows(day: ClassDay, saved: SavedTimetable) -> Rows:
    """Return a saved timetable as rows of this class and calendar; who or what is gone is left out."""
    listed = {(p.day, p.begin, p.school_class): p for p in saved.periods}
    keys = {part: work.key for work in day.work.works for part in (work.key, *work.parts)}
    known = {*day.problem.number}
    students = [student.key for student in day.problem.students]
    last = max((m.number for m in day.meetings if (m.date, m.begin, m.school_class) in listed), default=-1)
    rows = []
    for meeting in day.meetings[: last + 1]:
        period = listed.get((meeting.date, meeting.begin, meeting.school_class))
        place: dict[str, str] = {}
        for crew in period.crews if period else ():
            task = keys.get(crew.task, crew.task)
            place |= dict.fromkeys(crew.students, task if task in known else "")
        present = day.problem.periods[meeting.number].present
        rows.append(tuple(place.get(key, "") if key in present else "" for key in students))
    return tuple(rows)


def saved_of(timetable: Timetable) -> SavedTimetable:
    """Return a timetable as if it had been saved and read back."""
    return SavedTimetable(
        house=timetable.day.work.house,
        periods=tuple(
            SavedPeriod(
                day=meeting.date,
                begin=meeting.begin,
                school_class=meeting.school_class,
                crews=tuple(SavedCrew(task=crew.work, students=crew.students) for crew in crews),
            )
            for meeting, crews in zip(timetable.day.meetings, timetable.crews, strict=False)
        ),
        minutes={work.key: work.minutes for work in timetable.day.work.works},
    )


def timetable_at(day: ClassDay, stand: Standing) -> Timetable:
    """Return the timetable as it stands: what happened, then what was planned."""
    rows = stand.rows
    last = max((n for n, row in enumerate(rows) if any(row)), default=-1)
    return Timetable(
        day=day,
        rows=rows,
        finish=last + 1,
        bound=0,
        plain=0,
        status="kept",
        undone=(),
        idle=idle(stand.problem, rows),
        seconds=0.0,
        since=stand.since,
    )


def standing(day: ClassDay, saved: SavedTimetable, log: Sequence[PeriodLog]) -> Standing:
    """Return how far a house is.

    Parameters
    ----------
    day : ClassDay
    saved : SavedTimetable
    log : sequence of PeriodLog
        Every period that is over; one that is not in it before a logged one went as planned.

    Raises
    ------
    NoAnswer
        With everything in the log that cannot be, one sentence a line.
    """
    return _Reading(day, saved, log).read()


class _Reading:
    def __init__(self, day: ClassDay, saved: SavedTimetable, log: Sequence[PeriodLog]) -> None:
        self.day, self.log = day, log
        self.planned = planned_rows(day, saved)
        self.students = [student.key for student in day.problem.students]
        names = {plain(name): key for key, name in day.names.items()}
        self.who = names | {plain(key): key for key in self.students}
        self.keys = {plain(p): w.key for w in day.work.works for p in (w.key, *w.parts, w.label)}
        self.told: list[Finding] = []

    def read(self) -> Standing:
        logged = {meeting.number: entry for entry in self.log if (meeting := self._meeting(entry))}
        over = max(logged, default=-1) + 1
        self.share = {work.key: work.done for work in self.day.work.works}
        self.spent = dict.fromkeys(self.share, 0)
        self.seen: dict[str, tuple[int, float]] = {}
        happened: list[tuple[str, ...]] = []
        absences: dict[int, frozenset[str]] = {}
        for number in range(over):
            entry = logged.get(number)
            absences[number] = self._absent(entry)
            row = self._row(number, entry, absences[number])
            happened.append(row)
            self._count(number, row, entry)
        self.share = {key: self.day.gates.share(key, share) for key, share in self.share.items()}
        if self.told:
            raise NoAnswer("The log cannot be used:\n" + "\n".join(str(each) for each in self.told))
        paces = self._paces()
        left = self._left(paces)
        problem = carried_on(self.day.problem, happened=happened, left=left)
        return Standing(
            happened=tuple(happened),
            planned=self.planned,
            problem=problem,
            left=left,
            paces=paces,
            absences=absences,
        )

    def _meeting(self, entry: PeriodLog) -> Meeting | None:
        found = [
            meeting
            for meeting in self.day.meetings
            if meeting.date == entry.date
            and entry.school_class in ("", meeting.school_class)
            and entry.begin in (None, meeting.begin)
        ]
        if len(found) == 1:
            return found[0]
        which = f"class '{entry.school_class}'" if entry.school_class else "one class"
        day = spoken_day(entry.date)
        many = "no class meets then." if not found else f"{len(found)} periods are held, not one of {which}."
        self._tell(entry, day, many, "Write date, class and begin as in the timetable.")
        return None

    def _absent(self, entry: PeriodLog | None) -> frozenset[str]:
        return frozenset(self._student(name, entry) for name in entry.absent) - {""} if entry else frozenset()

    def _student(self, name: str, entry: PeriodLog | None) -> str:
        key = self.who.get(plain(name), "")
        if not key and entry is not None:
            self._tell(entry, spoken_day(entry.date), f"'{name}' is in no class.", "Correct the name.")
        return key

    def _task(self, worked: Worked, entry: PeriodLog) -> str:
        key = self.keys.get(plain(worked.task), worked.task if worked.task in self.day.problem.number else "")
        if not key:
            found = f"'{worked.task}' is no task of the house or the class."
            self._tell(entry, spoken_day(entry.date), found, "Write its key as in the timetable.")
        return key

    def _row(self, number: int, entry: PeriodLog | None, absent: frozenset[str]) -> tuple[str, ...]:
        planned = self.planned[number] if number < len(self.planned) else ("",) * len(self.students)
        place = dict(zip(self.students, planned, strict=True))
        if entry is not None and entry.worked is not None:
            named = {self._task(each, entry): each for each in entry.worked}
            crews = {
                task: [self._student(name, entry) for name in each.students]
                or [key for key, on in place.items() if on == task]
                for task, each in named.items()
                if task
            }
            place = {key: task for task, crew in crews.items() for key in crew if key}
        return tuple("" if key in absent else place.get(key, "") for key in self.students)

    def _count(self, number: int, row: tuple[str, ...], entry: PeriodLog | None) -> None:
        """Count the minutes of a period, and how much of each task is done by it."""
        minutes = self.day.problem.periods[number].minutes
        said = {self.keys.get(plain(w.task), w.task): w.done for w in (entry.worked or ())} if entry else {}
        for key in {key for key in row if key in self.share}:
            work = self.day.works[key]
            spent = row.count(key) * minutes
            self.spent[key] += spent
            if said.get(key) is None:
                done = self.share[key] + spent / work.minutes if work.minutes else 1.0
                self.share[key] = min(1.0, done)
        for key, share in said.items():
            if share is not None and key in self.share:
                self.share[key] = share
                if 0 < share < 1 and self.spent[key]:
                    self.seen[key] = (self.spent[key], share)

    def _paces(self) -> tuple[Pace, ...]:
        """Learn from what the log says of tasks before the period that finished them.

        Of that last one nobody knows how much of it was needed.
        """
        logged = [
            Logged(
                trade=self.day.works[key].trade,
                planned=self.day.works[key].minutes * done,
                actual=spent,
            )
            for key, (spent, done) in sorted(self.seen.items())
            if self.day.works[key].minutes
        ]
        return learn(logged, trades=[work.trade for work in self.day.work.works])

    def _left(self, paces: tuple[Pace, ...]) -> Mapping[str, int]:
        middle = {pace.trade: pace.middle for pace in paces if pace.logged}
        left = {}
        for work in self.day.work.works:
            if work.filler:
                continue
            rest = work.minutes * (1 - self.share[work.key]) * middle.get(work.trade, 1.0)
            left[work.key] = 0 if self.share[work.key] >= 1 else max(1, round(rest)) if work.minutes else 0
        return left

    def _tell(self, entry: PeriodLog, about: str, found: str, do: str) -> None:
        self.told.append(
            Finding(rule="log.entry", about=f"log of {about}", found=found, do=do, where=entry.where)
        )
