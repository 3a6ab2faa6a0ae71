"""A house's work, a class and its calendar as one class problem; dates to periods and back."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cached_property

from setday.actions.houses import OpenHouse
from setday.actions.tasks.gathering import HouseWork, house_work
from setday.actions.timetable.checks import check_work
from setday.actions.timetable.gates import GateRecords, as_the_gates_stand
from setday.actions.timetable.permissions import Permissions
from setday.closein import GateStanding
from setday.errors import NoAnswer
from setday.findings import Finding, Severity, in_order
from setday.roster import ClassPlan, Meeting, check_plan, meetings, plain, set_period
from setday.roster import Pin as TypedPin
from setday.rules import RuleBook
from setday.timetable.classwork import ClassProblem, Period, Pin, Place, Task, Wait
from setday.timetable.tasks import Work, timetable_rules

__all__ = ["BENCH", "ClassDay", "class_day", "guest_there"]

BENCH = "bench"
"""Key of the bench that is added where the class file has no work for whoever is left over."""
_BEYOND_DAYS = 120
"""Days of calendar behind set day, so that a late timetable shows as one [d]."""


@dataclass(frozen=True, kw_only=True)
class ClassDay:
    """Everything a timetable of one house and its classes is made from.

    Parameters
    ----------
    plan : ClassPlan
    work : HouseWork
    meetings : tuple of Meeting
        To set day and some weeks beyond it.
    problem : ClassProblem
        Its periods are the meetings, by number.
    pins : tuple of Pin
    findings : tuple of Finding
        What is doubtful or worth knowing.
    gates : GateRecords
        The gates of the house as they stood in the records; empty where none were given.
    """

    plan: ClassPlan
    work: HouseWork
    meetings: tuple[Meeting, ...]
    problem: ClassProblem
    pins: tuple[Pin, ...]
    findings: tuple[Finding, ...]
    gates: GateRecords = field(default_factory=GateRecords)

    @cached_property
    def works(self) -> Mapping[str, Work]:
        """Works by key."""
        return {work.key: work for work in self.work.works}

    @cached_property
    def names(self) -> Mapping[str, str]:
        """Names of the students by key."""
        return {student.key: student.name for student in self.plan.students}

    @property
    def set_period(self) -> int:
        """First period that is too late."""
        return self.problem.set_period

    def date_of(self, period: int) -> date | None:
        """Return the date of a period; None beyond the calendar."""
        return self.meetings[period].date if 0 <= period < len(self.meetings) else None

    def ready_on(self, finish: int) -> date | None:
        """Return the day on which all work is done: that of the last period; None beyond the calendar."""
        return self.date_of(finish - 1) if finish else None

    def spoken(self, text: str) -> str:
        """Return a sentence with its periods by day and bell."""

        def said(found: re.Match[str]) -> str:
            number = int(found[1])
            if number >= len(self.meetings):
                return "a period after the calendar"
            meeting = self.meetings[number]
            return f"{meeting.date:%a %-d %b} at {meeting.begin:%-H:%M}"

        return re.sub(r"\bperiod (\d+)\b", said, text)

    def period_on(self, day: date, *, school_class: str = "") -> int:
        """Return the first period on a day or after it; the number of periods where there is none."""
        return next(
            (m.number for m in self.meetings if m.date >= day and school_class in ("", m.school_class)),
            len(self.meetings),
        )


def class_day(
    opened: OpenHouse,
    plan: ClassPlan,
    *,
    clock: Callable[[], float],
    today: date | None = None,
    done: Mapping[str, float] | None = None,
    factors: Mapping[str, float] | None = None,
    since: int = 0,
    gates: Iterable[GateStanding] = (),
) -> ClassDay:
    """Put the work of a house into the periods of its classes.

    Parameters
    ----------
    opened : OpenHouse
    plan : ClassPlan
    clock : callable
        Returns seconds.
    today : date or None
        Given, set day must lie after it.
    done : mapping or None
        Share of each work that is done, by key, 0 to 1.
    factors : mapping or None
        What the log says a trade takes, times the plan.
    since : int
        Number of periods that are over: who may do what is asked for the next one's day.
    gates : iterable of GateStanding
        How far the gates of the house are by its records.

    Raises
    ------
    NoAnswer
        With everything that makes a timetable impossible, one sentence a line.
    """
    findings = list(check_plan(plan, today=today))
    gathered = house_work(opened, plan, clock=clock)
    work, records = as_the_gates_stand(
        _as_it_stands(gathered, done or {}, factors or {}), opened.built(), gates
    )
    findings += work.findings
    problems = [each for each in findings if each.severity is Severity.PROBLEM]
    listed: tuple[Meeting, ...] = ()
    if not any(each.rule.startswith("calendar.") for each in problems):
        listed = meetings(plan.calendar, plan.classes, today=today, beyond_days=_BEYOND_DAYS)
        findings += check_work(work, plan, listed)
        problems = [each for each in findings if each.severity is Severity.PROBLEM]
    if problems:
        said = "\n".join(str(each) for each in in_order(problems))
        raise NoAnswer(f"No timetable can be made:\n{said}", do="")
    problem = _problem(work, plan, listed, since, timetable_rules(opened.local))
    pins = tuple(_pins(plan.pins, problem, listed, work, since))
    return ClassDay(
        plan=plan,
        work=work,
        meetings=listed,
        problem=problem,
        pins=pins,
        findings=in_order(findings),
        gates=records,
    )


def _as_it_stands(work: HouseWork, done: Mapping[str, float], factors: Mapping[str, float]) -> HouseWork:
    works = tuple(
        replace(
            each,
            minutes=round(each.minutes * factors.get(each.trade, 1.0)),
            done=done.get(each.key, each.done),
        )
        for each in work.works
    )
    return replace(work, works=works)


def _problem(
    work: HouseWork, plan: ClassPlan, listed: tuple[Meeting, ...], since: int, rules: RuleBook
) -> ClassProblem:
    now = listed[min(since, len(listed) - 1)].date
    allowed = Permissions(plan, since=now)
    notice = timedelta(days=rules.number("timetable.guest_notice_days"))
    again = (round(rules.number("timetable.guest_again_days")), now + notice)
    works = work.works
    if not plan.idle_allowed and not any(each.filler for each in works):
        works = (*works, _bench(len(plan.students)))
    places = dict(work.places) | ({"shop": len(plan.students)} if works[-1].key == BENCH else {})
    groups = {group.key: frozenset(s.key for s in group.students) for group in plan.classes}
    first = listed[0].date
    return ClassProblem(
        tasks=tuple(_task(each, listed, allowed, again) for each in works),
        students=allowed.students(),
        periods=tuple(
            Period(
                day=(meeting.date - first).days,
                minutes=meeting.minutes,
                present=groups[meeting.school_class] - meeting.absent,
                attention=meeting.attention,
                dry=meeting.dry,
            )
            for meeting in listed
        ),
        places=tuple(Place(key=place, holds=many) for place, many in places.items()),
        set_period=set_period(plan.calendar, listed),
    )


def _bench(many: int) -> Work:
    return Work(
        key=BENCH,
        label="Shop and practice bench",
        trade="bench",
        kind="bench",
        place="shop",
        minutes=0,
        crew_most=max(1, many),
        filler=True,
        on_site=False,
        parts=(BENCH,),
    )


def _task(work: Work, listed: tuple[Meeting, ...], allowed: Permissions, again: tuple[int, date]) -> Task:
    if work.done >= 1:  # nobody is asked for, and nothing holds what follows
        return Task(key=work.key, label=work.label, trade=work.trade, place=work.place, work=0)
    permission = allowed.of_work(work)
    due = max(filter(None, (work.due, permission.since)), default=None)
    begin = 0
    if due is not None:
        begin = next((m.number for m in listed if m.date >= due), len(listed))
    return Task(
        key=work.key,
        label=work.label,
        trade=work.trade,
        place=work.place,
        work=0 if work.filler else work.left,
        crew_least=1 if work.filler else work.crew_least,
        crew_most=work.crew_most,
        after=tuple(Wait(task=after.key, days=after.days) for after in work.after),
        signoffs=permission.words,
        attention=0 if work.filler else work.attention,  # a bench gets the eyes that are left
        begin=begin,
        allowed=_allowed(work, listed, again),
        dry=work.dry,
        clashes=() if work.filler else work.clashes,
        filler=work.filler,
    )


def _allowed(work: Work, listed: tuple[Meeting, ...], again: tuple[int, date]) -> tuple[int, ...]:
    """Return the periods a work may run in; a guest who was missed can be booked again.

    That is some days after the last booked one, and not before a new booking could be for.
    """
    if not work.on and not work.guest:
        return ()
    there = [m for m in listed if (not work.on or m.date in work.on) and guest_there(work, m)]
    booked = tuple(m.number for m in there)
    if work.on or not there:
        return booked
    days, first = again
    since = max(there[-1].date + timedelta(days=days), first)
    return (*booked, *(m.number for m in listed if m.date >= since and m.number > booked[-1]))


def guest_there(work: Work, meeting: Meeting) -> bool:
    """Tell whether the guest a work needs is booked for a period; true where it needs none."""
    return not work.guest or plain(work.guest) in map(plain, meeting.guests)


def _pins(
    typed: tuple[TypedPin, ...],
    problem: ClassProblem,
    listed: tuple[Meeting, ...],
    work: HouseWork,
    since: int,
) -> Iterator[Pin]:
    keys = {part: each.key for each in work.works for part in (each.key, *each.parts)}
    for pin in typed:
        for meeting in listed[since:]:
            if meeting.date in pin.days and pin.school_class in ("", meeting.school_class):
                present = problem.periods[meeting.number].present
                students = tuple(key for key in pin.students if key in present)
                yield Pin(task=keys.get(pin.task, pin.task), period=meeting.number, students=students)
