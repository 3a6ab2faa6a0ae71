"""What was done in a period, as it was written down."""

from dataclasses import dataclass, field
from datetime import date, time

from setday.findings import Where

__all__ = ["PeriodLog", "Worked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """One task in one period.

    Parameters
    ----------
    task : str
        Key of a work, or of one of its parts.
    students : tuple of str
        Keys or names; empty for those who were planned.
    done : float or None
        Share of the whole task that is done when the period ends, 0 to 1; None counts the minutes.
    where : Where
    """

    task: str
    students: tuple[str, ...] = ()
    done: float | None = None
    where: Where = field(default_factory=Where)


@dataclass(frozen=True, slots=True, kw_only=True)
class PeriodLog:
    """One period as it was.

    Parameters
    ----------
    date : date
    begin : time or None
        None where the class meets once that day.
    school_class : str
        Key of the class; "" where only one meets that day.
    absent : tuple of str
        Keys or names of who was away, expected or not.
    worked : tuple of Worked or None
        None where everything went as planned, but for those away.
    where : Where
    """

    date: date
    begin: time | None = None
    school_class: str = ""
    absent: tuple[str, ...] = ()
    worked: tuple[Worked, ...] | None = None
    where: Where = field(default_factory=Where)
