"""Students of a class: who they are, what they are signed off for, what they know and want."""

from dataclasses import dataclass
from datetime import date

from setday.roster.bells import Bell

__all__ = ["SchoolClass", "SignOff", "Student", "age_on", "birthday", "plain"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SignOff:
    """A safety test or a skill an instructor has signed for.

    Parameters
    ----------
    what : str
        "ladder", "miter saw" ...; capitals and spaces do not matter.
    on : date
        It counts from this day on.
    by : str
        Who signed.
    """

    what: str
    on: date
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Student:
    """A student of a class.

    Parameters
    ----------
    key : str
        Stable and unique in the school; never shown to others.
    name : str
    born : date or None
        None where it is not known; the student is then taken for a minor.
    signoffs : tuple of SignOff
    knows : frozenset of str
        Trades the student can show to another.
    targets : tuple of (str, int)
        Minutes wanted by trade [min].
    apart, together : frozenset of str
        Keys of students who should not, or should, be on one crew.
    student_learner : bool
        True when a written student-learner agreement is on file (29 CFR 570.50(c)).

    Raises
    ------
    ValueError
        Without a key, or with a target below nothing.
    """

    key: str
    name: str
    born: date | None = None
    signoffs: tuple[SignOff, ...] = ()
    knows: frozenset[str] = frozenset()
    targets: tuple[tuple[str, int], ...] = ()
    apart: frozenset[str] = frozenset()
    together: frozenset[str] = frozenset()
    student_learner: bool = False

    def __post_init__(self) -> None:
        if not self.key:
            raise ValueError("a student without a key")
        below = [trade for trade, minutes in self.targets if minutes < 0]
        if below:
            raise ValueError(f"{self.key} wants less than nothing of {', '.join(below)}")

    def age(self, on: date) -> int | None:
        """Return the age in whole years [y], or None where the day of birth is not known.

        Parameters
        ----------
        on : date
        """
        return None if self.born is None else age_on(self.born, on)

    def signed_off(self, what: str, *, on: date) -> bool:
        """Return whether a sign-off counts on a day; one dated later does not.

        Parameters
        ----------
        what : str
        on : date
        """
        return any(plain(each.what) == plain(what) and each.on <= on for each in self.signoffs)

    def signed(self, *, on: date) -> frozenset[str]:
        """Return all that the student is signed off for on a day, in plain small letters.

        Parameters
        ----------
        on : date
        """
        return frozenset(plain(each.what) for each in self.signoffs if each.on <= on)


@dataclass(frozen=True, slots=True, kw_only=True)
class SchoolClass:
    """A class that works on the house.

    Parameters
    ----------
    key, name : str
    students : tuple of Student
    meetings : tuple of Bell
        When it meets, week by week.
    """

    key: str
    name: str
    students: tuple[Student, ...] = ()
    meetings: tuple[Bell, ...] = ()


def birthday(born: date, years: int) -> date:
    """Return the day on which somebody reaches an age; who was born on 29 February waits for 1 March.

    Parameters
    ----------
    born : date
    years : int
        Age reached [y].

    Examples
    --------
    >>> birthday(date(2008, 2, 29), 18)
    datetime.date(2026, 3, 1)
    """
    try:
        return born.replace(year=born.year + years)
    except ValueError:
        return date(born.year + years, 3, 1)


def age_on(born: date, on: date) -> int:
    """Return the age in whole years [y] on a day; negative before the birth.

    Parameters
    ----------
    born, on : date

    Examples
    --------
    >>> age_on(date(2009, 5, 12), date(2027, 5, 11)), age_on(date(2009, 5, 12), date(2027, 5, 12))
    (17, 18)
    """
    years = on.year - born.year
    return years if on >= birthday(born, years) else years - 1


def plain(words: str) -> str:
    """Return words as they are compared: small letters, single spaces.

    Parameters
    ----------
    words : str
    """
    return " ".join(words.split()).casefold()
