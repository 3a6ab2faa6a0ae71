"""Invented students and classes the tests of the roster share."""

from datetime import date, time

from setday.roster import Bell, Calendar, SchoolClass, SignOff, Student

__all__ = ["AUTUMN", "adult", "group", "signed", "student"]

AUTUMN = Calendar(first_day=date(2026, 9, 7), set_day=date(2026, 10, 5))
MORNING = Bell(weekdays=(0, 2, 4), begin=time(8, 5), minutes=90)


def student(key="ana", *, born=date(2010, 3, 9), **more):
    """A student of 16 in the autumn of 2026."""
    return Student(key=key, name=key.title(), born=born, **more)


def adult(key="cy", **more):
    """A student of 18 in the autumn of 2026."""
    return student(key, born=date(2008, 1, 2), **more)


def signed(what, on=date(2026, 9, 1)):
    """A sign-off by the instructor."""
    return SignOff(what=what, on=on, by="R. Halvorsen")


def group(key="am", *, meetings=(MORNING,), students=(), name=""):
    """A class with one student unless others are given."""
    return SchoolClass(
        key=key, name=name or f"{key} class", students=students or (student(f"{key} one"),), meetings=meetings
    )
