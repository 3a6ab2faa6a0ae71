"""The school calendar of the house: from its first day to set day, meeting by meeting."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from itertools import combinations, groupby
from operator import itemgetter

from setday.errors import NoAnswer
from setday.findings import Finding, Severity
from setday.roster.bells import (
    Absence,
    Bell,
    DayOff,
    EarlyDismissal,
    Guest,
    Help,
    minute_of_day,
    spoken_day,
)
from setday.roster.people import SchoolClass

__all__ = ["Calendar", "Meeting", "check_calendar", "meetings", "set_period"]

ONE_INSTRUCTOR = 10
"""Attention is counted in tenths of one instructor [count]."""
LONGEST_DAYS = 3 * 366
"""A house is built in one to three school years; a longer calendar is a slip of the pen [days]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """From the first day of work to set day.

    Parameters
    ----------
    first_day, set_day : date
        No period on set day itself or after it counts as work on the house.
    zone : str
        Name of the time zone in the IANA list, like "America/Denver"; "" where it is not said.
    days_off : tuple of DayOff
    early : tuple of EarlyDismissal
    absences : tuple of Absence
    guests : tuple of Guest
    help : tuple of Help
    wet_days : frozenset of date
        Days on which wet weather is expected.
    wet_share : tuple of (int, float)
        Month (1 to 12) and the share of its days on which work outdoors falls out, for the odds.
    """

    first_day: date
    set_day: date
    zone: str = ""
    days_off: tuple[DayOff, ...] = ()
    early: tuple[EarlyDismissal, ...] = ()
    absences: tuple[Absence, ...] = ()
    guests: tuple[Guest, ...] = ()
    help: tuple[Help, ...] = ()
    wet_days: frozenset[date] = frozenset()
    wet_share: tuple[tuple[int, float], ...] = ()

    def __post_init__(self) -> None:
        wrong = [share for share in self.wet_share if not (1 <= share[0] <= 12 and 0 <= share[1] <= 1)]
        if wrong:
            raise ValueError(f"a month and a share from 0 to 1, not {wrong}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """One period of one class.

    Parameters
    ----------
    number : int
        From 0, in the order of the calendar, over all classes.
    school_class : str
        Key of the class.
    date : date
    begin : time
    minutes : int
        After early dismissals [min].
    attention : int
        Tenths of an instructor who are there.
    dry : bool
        False when wet weather is expected.
    absent : frozenset of str
        Keys of the students who are known to be away.
    guests : tuple of str
        Who is there to see something.
    wet_chance : float
        Share of such days on which work outdoors falls out, for the odds; 1 on an expected wet day.
    """

    number: int
    school_class: str
    date: date
    begin: time
    minutes: int
    attention: int = ONE_INSTRUCTOR
    dry: bool = True
    absent: frozenset[str] = frozenset()
    guests: tuple[str, ...] = ()
    wet_chance: float = 0.0


def meetings(
    calendar: Calendar, classes: Sequence[SchoolClass], *, today: date | None = None, beyond_days: int = 0
) -> tuple[Meeting, ...]:
    """Return every meeting in order, numbered from 0.

    Parameters
    ----------
    calendar : Calendar
    classes : sequence of SchoolClass
    today : date or None
        Given, set day must lie after it.
    beyond_days : int
        Days from set day on that are listed too, so that a late timetable can be shown as one [days].

    Raises
    ------
    NoAnswer
        With everything that makes the calendar impossible, one sentence a line.

    Examples
    --------
    >>> from setday.roster import Student
    >>> bell = Bell(weekdays=(0, 2), begin=time(8), minutes=90)
    >>> pair = SchoolClass(key="am", name="Morning", students=(Student(key="a", name="A"),), meetings=(bell,))
    >>> autumn = Calendar(first_day=date(2026, 9, 7), set_day=date(2026, 9, 21))
    >>> [f"{each.date:%a %d}" for each in meetings(autumn, [pair])]
    ['Mon 07', 'Wed 09', 'Mon 14', 'Wed 16']
    """
    found = check_calendar(calendar, classes, today=today)
    problems = [str(each) for each in found if each.severity is Severity.PROBLEM]
    if problems:
        raise NoAnswer("\n".join(problems), do="Put the class file right and try again.")
    last = calendar.set_day + timedelta(days=beyond_days)
    held = sorted(_held(calendar, classes, last), key=lambda each: (each[0], each[1], each[3].key))
    return tuple(_meeting(calendar, number, *each) for number, each in enumerate(held))


def set_period(calendar: Calendar, listed: Sequence[Meeting]) -> int:
    """Return the number of the first meeting that is too late: on set day or after it.

    Parameters
    ----------
    calendar : Calendar
    listed : sequence of Meeting
        In order.
    """
    return sum(each.date < calendar.set_day for each in listed)


Held = tuple[date, time, int, SchoolClass]


def _held(calendar: Calendar, classes: Sequence[SchoolClass], last: date) -> Iterator[Held]:
    for day in _days(calendar.first_day, last):
        for group in classes:
            if any(
                day in off.days and (not off.classes or group.key in off.classes) for off in calendar.days_off
            ):
                continue
            for bell in group.meetings:
                if bell.rings(day, since=calendar.first_day):
                    minutes = _minutes(calendar, day, bell)
                    if minutes:
                        yield day, bell.begin, minutes, group


def _days(first: date, last: date) -> Iterator[date]:
    """Yield the days from a first to the one before a last."""
    for number in range((last - first).days):
        yield first + timedelta(days=number)


def _minutes(calendar: Calendar, day: date, bell: Bell) -> int:
    minutes = bell.minutes
    for early in calendar.early:
        if early.day == day:
            minutes = early.left_of(bell.begin, minutes)
    return minutes


def _meeting(
    calendar: Calendar, number: int, day: date, begin: time, minutes: int, group: SchoolClass
) -> Meeting:
    dry = day not in calendar.wet_days
    students = {student.key for student in group.students}
    away = {each.student for each in calendar.absences if day in each.days}
    return Meeting(
        number=number,
        school_class=group.key,
        date=day,
        begin=begin,
        minutes=minutes,
        attention=ONE_INSTRUCTOR + sum(each.tenths for each in calendar.help if each.there(day)),
        dry=dry,
        absent=frozenset(students & away),
        guests=tuple(
            each.who for each in calendar.guests if day in each.days and _in_it(each, begin, minutes)
        ),
        wet_chance=dict(calendar.wet_share).get(day.month, 0.0) if dry else 1.0,
    )


def _in_it(guest: Guest, begin: time, minutes: int) -> bool:
    if guest.at is None:
        return True
    return 0 <= minute_of_day(guest.at) - minute_of_day(begin) < minutes


def check_calendar(
    calendar: Calendar, classes: Sequence[SchoolClass], *, today: date | None = None
) -> tuple[Finding, ...]:
    """Return all that is wrong or doubtful with a calendar and its classes.

    Parameters
    ----------
    calendar : Calendar
    classes : sequence of SchoolClass
    today : date or None
        Given, set day must lie after it.
    """
    found = [*_when(calendar, today), *_who(calendar, classes)]
    whole = 0 < (calendar.set_day - calendar.first_day).days <= LONGEST_DAYS
    if whole:
        found += [
            *_overlaps(calendar, classes),
            *_nothing_held(calendar, classes),
            *_unheard(calendar, classes),
        ]
    return tuple(found)


def _when(calendar: Calendar, today: date | None) -> Iterator[Finding]:
    first, last = calendar.first_day, calendar.set_day
    if last <= first:
        yield _problem(
            "set-day",
            "set day",
            f"it is {spoken_day(last)}, not after the first day, {spoken_day(first)}.",
            do="Correct one of them.",
        )
    elif (last - first).days > LONGEST_DAYS:
        found = f"it lies {(last - first).days:,} days after the first day."
        yield _problem("set-day", "set day", found, expected="at most three years.", do="Check both years.")
    if today is not None and last <= today:
        found = f"it is {spoken_day(last)}, and today is {spoken_day(today)}: it has passed."
        do = "Write another set day; nothing can be planned before one that is over."
        yield _problem("set-day-over", "set day", found, expected="a day to come.", do=do)


def _who(calendar: Calendar, classes: Sequence[SchoolClass]) -> Iterator[Finding]:
    if not classes:
        yield _problem(
            "no-class", "the calendar", "no class is written.", do="Write a class and its periods."
        )
    for group in classes:
        if not group.students:
            found, do = "nobody is in it: no work can be planned.", "Write its students."
            yield _problem("empty-class", f"class '{group.name}'", found, do=do)
        if not group.meetings:
            found, do = "it never meets.", "Write its weekdays, bell time and minutes."
            yield _problem("no-period", f"class '{group.name}'", found, do=do)
    for words, keys in (
        ("class", [group.key for group in classes]),
        ("student", [student.key for group in classes for student in group.students]),
    ):
        for key in sorted({key for key in keys if keys.count(key) > 1}):
            found, do = f"two are called {key}.", "Give one of them another name."
            yield _problem("twice", f"{words} '{key}'", found, do=do)
    known = {student.key for group in classes for student in group.students}
    for absence in calendar.absences:
        if absence.student not in known:
            do = "Correct the name, or take the absence out."
            yield _problem("absence", f"absence of '{absence.student}'", "no class has that student.", do=do)


def _overlaps(calendar: Calendar, classes: Sequence[SchoolClass]) -> Iterator[Finding]:
    """Yield each pair of periods that run at the same time, once, with the first day it happens."""
    told: set[tuple[str, time, str, time]] = set()
    for day, of_day in groupby(_held(calendar, classes, calendar.set_day), key=itemgetter(0)):
        held = sorted(of_day, key=lambda each: (each[1], each[3].key))
        for (_, begin, minutes, group), (_, later, _, other) in combinations(held, 2):
            pair = (group.key, begin, other.key, later)
            if minute_of_day(later) < minute_of_day(begin) + minutes and pair not in told:
                told.add(pair)
                yield _overlap(day, (group, begin, minutes), (other, later))


def _overlap(day: date, one: tuple[SchoolClass, time, int], other: tuple[SchoolClass, time]) -> Finding:
    same = one[0].key == other[0].key
    whose = "the same class" if same else other[0].name
    about = f"periods of {one[0].name}" if same else f"{one[0].name} and {other[0].name}"
    found = (
        f"the period of {one[0].name} at {one[1]:%H:%M} lasts {one[2]} minutes, into that of"
        f" {whose} at {other[1]:%H:%M}, on {spoken_day(day, weekday=True)}."
    )
    do = "Change a bell time or a length; one instructor teaches one class at a time."
    return _problem("overlap", about, found, do=do)


def _nothing_held(calendar: Calendar, classes: Sequence[SchoolClass]) -> Iterator[Finding]:
    meeting = {each[3].key for each in _held(calendar, classes, calendar.set_day)}
    for group in classes:
        if group.meetings and group.key not in meeting:
            found = "it has no period between the first day and set day that is not a day off."
            yield _problem(
                "no-period", f"class '{group.name}'", found, do="Check its weekdays and the dates."
            )


def _unheard(calendar: Calendar, classes: Sequence[SchoolClass]) -> Iterator[Finding]:
    """Yield a doubt for a guest or an early dismissal on a day without a period."""
    held = list(_held(calendar, classes, calendar.set_day))
    days = {each[0] for each in held}
    for guest in calendar.guests:
        for day in guest.days:
            begun = [(begin, minutes) for on, begin, minutes, _ in held if on == day]
            if not any(_in_it(guest, begin, minutes) for begin, minutes in begun):
                at = f" at {guest.at:%H:%M}" if guest.at and day in days else ""
                found = f"no class meets on {spoken_day(day, weekday=True)}{at}."
                yield _doubt("guest", f"guest '{guest.who}'", found, do="Check the date, or ask for another.")


def _problem(rule: str, about: str, found: str, *, expected: str = "", do: str = "") -> Finding:
    return Finding(rule=f"calendar.{rule}", about=about, found=found, expected=expected, do=do)


def _doubt(rule: str, about: str, found: str, *, do: str) -> Finding:
    return Finding(rule=f"calendar.{rule}", about=about, found=found, do=do, severity=Severity.ASK)
