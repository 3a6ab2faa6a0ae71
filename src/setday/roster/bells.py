"""When a class meets: weekdays, bell times, and what changes them."""

from dataclasses import dataclass
from datetime import date, time, timedelta

__all__ = [
    "WEEKDAYS",
    "Absence",
    "Bell",
    "DayOff",
    "EarlyDismissal",
    "Guest",
    "Help",
    "Stretch",
    "minute_of_day",
    "spoken_day",
]

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def spoken_day(day: date, *, weekday: bool = False) -> str:
    """Return a day in words, the same on every machine.

    Parameters
    ----------
    day : date
    weekday : bool
        Say the day of the week too.

    Examples
    --------
    >>> spoken_day(date(2027, 5, 12)), spoken_day(date(2027, 5, 12), weekday=True)
    ('12 May 2027', 'Wednesday 12 May 2027')
    """
    said = f"{day.day} {_MONTHS[day.month - 1]} {day.year}"
    return f"{WEEKDAYS[day.weekday()]} {said}" if weekday else said


def minute_of_day(clock: time) -> int:
    """Return the minutes since midnight [min].

    Parameters
    ----------
    clock : time
    """
    return clock.hour * 60 + clock.minute


@dataclass(frozen=True, slots=True, kw_only=True)
class Bell:
    """A period that comes again every week, or every few weeks.

    Parameters
    ----------
    weekdays : tuple of int
        0 is Monday, as in Python's own calendar.
    begin : time
    minutes : int
        From bell to bell, on one day [min].
    every_weeks : int
        1 for every week; 2 for every other.
    week : int
        Which of these weeks, 0 being the week of the calendar's first day.

    Raises
    ------
    ValueError
        For a weekday that is none, or a length below one minute.
    """

    weekdays: tuple[int, ...]
    begin: time
    minutes: int
    every_weeks: int = 1
    week: int = 0

    def __post_init__(self) -> None:
        if not all(0 <= day <= 6 for day in self.weekdays):
            raise ValueError(f"weekdays run from 0 to 6, not {self.weekdays}")
        if self.minutes < 1 or self.every_weeks < 1 or not 0 <= self.week < self.every_weeks:
            raise ValueError(f"a period of {self.minutes} minutes, week {self.week} of {self.every_weeks}")

    def rings(self, day: date, *, since: date) -> bool:
        """Return whether the period is held on a day, as far as the pattern goes.

        Parameters
        ----------
        day : date
        since : date
            The calendar's first day; its week is number 0.
        """
        monday = since - timedelta(days=since.weekday())
        return day.weekday() in self.weekdays and (day - monday).days // 7 % self.every_weeks == self.week


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Days from a first to a last, both counted.

    Parameters
    ----------
    first, last : date
    """

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last


@dataclass(frozen=True, slots=True, kw_only=True)
class DayOff:
    """Days without school.

    Parameters
    ----------
    days : Stretch
    why : str
    classes : frozenset of str
        Keys of the classes it holds for; empty for all.
    """

    days: Stretch
    why: str
    classes: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlyDismissal:
    """A day that ends early: what begins later falls out, what is running is cut short.

    Parameters
    ----------
    day : date
    ends : time or None
        When the day ends; None where every period is shortened instead.
    minutes : int
        Length of every period on a shortened day [min]; 0 where `ends` says it.
    why : str
    """

    day: date
    ends: time | None = None
    minutes: int = 0
    why: str = ""

    def left_of(self, begin: time, minutes: int) -> int:
        """Return how many minutes of a period are left [min].

        Parameters
        ----------
        begin : time
        minutes : int
            Its usual length [min].
        """
        if self.ends is not None:
            return max(0, min(minutes, minute_of_day(self.ends) - minute_of_day(begin)))
        return min(minutes, self.minutes) if self.minutes else minutes


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """A student who is known to be away.

    Parameters
    ----------
    student : str
        Key of the student.
    days : Stretch
    why : str
    """

    student: str
    days: Stretch
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guest:
    """Somebody who comes to see something: an inspector, an engineer.

    Parameters
    ----------
    who : str
    days : tuple of date
    at : time or None
        None where the guest stays all day; otherwise only the period running then.
    why : str
    """

    who: str
    days: tuple[date, ...]
    at: time | None = None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """A second pair of eyes.

    Parameters
    ----------
    who : str
    days : Stretch
    weekdays : tuple of int
        Empty for every day of the stretch.
    tenths : int
        What it adds to the instructor's own ten tenths of attention.
    """

    who: str
    days: Stretch
    weekdays: tuple[int, ...] = ()
    tenths: int = 10

    def there(self, day: date) -> bool:
        """Return whether the helper is there on a day.

        Parameters
        ----------
        day : date
        """
        return day in self.days and (not self.weekdays or day.weekday() in self.weekdays)
