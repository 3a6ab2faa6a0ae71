"""The sections of a class file as the roster takes them, with what is wrong found on the way."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from setday.files.class_file import phrases
from setday.files.class_file.shape import CalendarPart, ClassPart, StudentPart
from setday.files.written.fields import Misread
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.files.zones import known_zone, nearest_zone
from setday.findings import Severity
from setday.roster import (
    Absence,
    Calendar,
    DayOff,
    EarlyDismissal,
    Guest,
    Help,
    SchoolClass,
    SignOff,
    Stretch,
    Student,
    plain,
)

__all__ = ["People", "describe_calendar"]

_EVERYONE = {"everyone", "everybody", "all"}
_MOST_DAYS = 400


class People:
    """Classes and students, found by name as people write them.

    Parameters
    ----------
    part : ClassPart
    notebook : Notebook
    written : tuple of str
        Names of all students in the file, also of those that could not be read.
    """

    def __init__(self, part: ClassPart, notebook: Notebook, *, written: tuple[str, ...]) -> None:
        self.part, self.notebook = part, notebook
        self.students = Names(written)
        self.groups = Names(part.classes)
        self.class_of = {name: self._class_of(name, each) for name, each in (part.students or {}).items()}
        self._signed = self._signoffs()
        self._apart = self._pairs("apart from", {n: s.apart_from for n, s in (part.students or {}).items()})
        self._together = self._pairs(
            "together with", {n: s.together_with for n, s in (part.students or {}).items()}
        )

    def classes(self) -> tuple[SchoolClass, ...]:
        """Return the classes with their students."""
        return tuple(
            SchoolClass(
                key=key,
                name=group.name or key,
                meetings=tuple(group.meets),
                students=tuple(
                    self._student(name, each, group.hours_wanted or {})
                    for name, each in (self.part.students or {}).items()
                    if self.class_of[name] == key
                ),
            )
            for key, group in self.part.classes.items()
        )

    def absences(self) -> tuple[Absence, ...]:
        """Return the days students are known to be away."""
        return tuple(
            Absence(student=name, days=days, why=why)
            for name, each in (self.part.students or {}).items()
            for days, why in each.away or ()
        )

    def named(self, written: Iterable[str], path: Path) -> tuple[str, ...]:
        """Return the students meant: by name, by class, or everyone; what is unknown is noted."""
        found: dict[str, None] = {}
        for number, word in enumerate(written):
            group = self.groups.find(word)
            if plain(word) in _EVERYONE:
                found.update(dict.fromkeys(self.class_of))
            elif (student := self.students.find(word)) is not None:
                found[student] = None
            elif group is not None:
                found.update(dict.fromkeys(name for name, of in self.class_of.items() if of == group))
            else:
                self._unknown(self.students, word, "student", (*path, number))
        return tuple(found)

    def group(self, written: str | None, path: Path) -> str:
        """Return the class meant, or an empty text."""
        if written is None:
            return ""
        found = self.groups.find(written)
        if found is None:
            self._unknown(self.groups, written, "class", path)
        return found or ""

    def _class_of(self, name: str, student: StudentPart) -> str:
        path: Path = ("students", name, "class")
        if student.school_class is not None:
            return self.group(student.school_class, path)
        if len(self.groups.names) == 1:
            return self.groups.names[0]
        found = "it is not said which class."
        expected = f"class: one of {', '.join(self.groups.names)}."
        self.notebook.find(
            path[:2], rule="file.missing", found=found, expected=expected, do="Add it.", at_key=True
        )
        return ""

    def _signoffs(self) -> dict[str, list[SignOff]]:
        signed: dict[str, list[SignOff]] = {}
        for number, each in enumerate(self.part.signoffs or ()):
            one = SignOff(what=each.what, on=each.on, by=each.by)
            for name in self.named(each.students, ("signoffs", number, "students")):
                signed.setdefault(name, []).append(one)
        return signed

    def _pairs(self, key: str, written: dict[str, list[str] | None]) -> dict[str, set[str]]:
        """Return who is to be kept from, or with, whom; said of one, it holds for both."""
        pairs: dict[str, set[str]] = {}
        for name, others in written.items():
            path: Path = ("students", name, key)
            for number, word in enumerate(others or ()):
                other = self.students.find(word)
                if other is None:
                    self._unknown(self.students, word, "student", (*path, number))
                elif other == name:
                    found, do = "the student is named beside themself.", "Name another."
                    self.notebook.find((*path, number), rule="file.entry", found=found, do=do)
                else:
                    pairs.setdefault(name, set()).add(other)
                    pairs.setdefault(other, set()).add(name)
        return pairs

    def _student(self, name: str, part: StudentPart, wanted: dict[str, float]) -> Student:
        self._both_ways(name)
        hours = {**wanted, **(part.hours_wanted or {})}
        return Student(
            key=name,
            name=name,
            born=part.born,
            signoffs=tuple(self._signed.get(name, ())),
            knows=frozenset(part.knows or ()),
            targets=tuple((trade, round(each * 60)) for trade, each in hours.items()),
            apart=frozenset(self._apart.get(name, ())),
            together=frozenset(self._together.get(name, ())),
            student_learner=bool(part.student_learner),
        )

    def _both_ways(self, name: str) -> None:
        both = self._apart.get(name, set()) & self._together.get(name, set())
        for other in sorted(both):
            found = f"'{other}' is to be both together with and apart from '{name}'."
            do = "Take one of them out."
            self.notebook.find(("students", name), rule="file.entry", found=found, do=do, at_key=True)

    def _unknown(self, names: Names, word: str, what: str, path: Path) -> None:
        found, expected, do = names.unknown(word, what)
        self.notebook.find(path, rule="file.name", found=found, expected=expected, do=do)


def describe_calendar(part: CalendarPart, people: People, notebook: Notebook) -> Calendar:
    """Return the calendar.

    Parameters
    ----------
    part : CalendarPart
    people : People
    notebook : Notebook
    """
    _look_at_zone(part, notebook)
    return Calendar(
        first_day=part.first_day,
        set_day=part.set_day,
        zone=part.time_zone or "",
        days_off=tuple(_days_off(part, people, notebook)),
        early=tuple(_early(part, notebook)),
        absences=people.absences(),
        guests=tuple(
            Guest(who=who, days=tuple(each.days), at=each.at, why=each.why or "")
            for who, each in (part.guests or {}).items()
        ),
        help=tuple(
            Help(
                who=who,
                days=each.days[0],
                weekdays=each.weekdays or (),
                tenths=10 if each.attention is None else each.attention,
            )
            for who, each in (part.helpers or {}).items()
        ),
        wet_days=frozenset(day for days, _ in part.wet_days or () for day in _each(days)),
        wet_share=tuple(_wet_share(part, notebook)),
    )


def _look_at_zone(part: CalendarPart, notebook: Notebook) -> None:
    zone = part.time_zone or ""
    if not zone or known_zone(zone):
        return
    like = nearest_zone(zone)
    notebook.find(
        ("calendar", "time zone"),
        rule="file.name",
        found=f"there is no time zone '{zone[:60]}'.",
        expected="a name of the IANA list, like America/Denver.",
        do=f"Did you mean '{like}'?" if like else "Write a continent, a slash, and a large city.",
    )


def _each(days: Stretch) -> list[date]:
    count = min((days.last - days.first).days + 1, _MOST_DAYS)
    return [days.first + timedelta(days=n) for n in range(count)]


def _days_off(part: CalendarPart, people: People, notebook: Notebook) -> list[DayOff]:
    made = []
    for written, why in (part.days_off or {}).items():
        path: Path = ("calendar", "days off", written)
        days, _, group = written.partition(" for ")
        try:
            stretch, _ = phrases.read_days(days)
        except Misread as error:
            _misread(error, path, notebook)
            continue
        classes = frozenset(filter(None, [people.group(group.strip() or None, path)]))
        if (stretch.last < part.first_day or stretch.first >= part.set_day) and not group:
            found = "it lies outside the calendar, from the first day to set day."
            notebook.find(
                path,
                rule="calendar.day-off",
                found=found,
                do="Check the year.",
                severity=Severity.ASK,
                at_key=True,
            )
        if not group or classes:
            made.append(DayOff(days=stretch, why=why, classes=classes))
    return made


def _early(part: CalendarPart, notebook: Notebook) -> list[EarlyDismissal]:
    made = []
    for written, each in (part.early_dismissal or {}).items():
        try:
            made.append(replace(each, day=phrases.read_day(written)))
        except Misread as error:
            _misread(error, ("calendar", "early dismissal", written), notebook)
    return made


def _wet_share(part: CalendarPart, notebook: Notebook) -> list[tuple[int, float]]:
    made = []
    for written, share in (part.wet_share or {}).items():
        try:
            made.append((phrases.read_month(written), share))
        except Misread as error:
            _misread(error, ("calendar", "wet share", written), notebook)
    return made


def _misread(error: Misread, path: Path, notebook: Notebook) -> None:
    notebook.find(
        path, rule="file.entry", found=error.found, expected=error.expected, do=error.do, at_key=True
    )
