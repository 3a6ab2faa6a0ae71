"""One piece of work as a class does it: richer than what the search needs, with its dates and its reasons."""

from dataclasses import dataclass
from datetime import date

from setday.working import Working

__all__ = ["After", "Work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class After:
    """What a work waits for: another one, then whole days (drying, curing, notice to an inspector)."""

    key: str
    days: int = 0
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One piece of work.

    Parameters
    ----------
    key, label, trade : str
    kind : str
        Key of its `KindOfWork`; "plain" where the instructor typed it and named no kind.
    place : str
    minutes : int
        Student-minutes, the factor of the class already in [min].
    quantity : float
        In `unit`; 0 where nobody said.
    unit : str
    crew_least, crew_most : int
    after : tuple of After
    signoffs, exposures : tuple of str
        Sign-offs every member needs; what the law on minors asks about.
    attention : int
        Tenths of one instructor.
    clashes : tuple of str
        Trades that may not work in the same place meanwhile.
    dry : bool
        True when it needs dry weather.
    due : date or None
        It cannot begin before: its material comes then, or the instructor said so.
    due_why : str
    on : tuple of date
        The only days on which it can be, as when a guest is booked; empty for any.
    guest : str
        Who has to be there.
    filler : bool
        Bench work for whoever is left over.
    on_site : bool
        False for practice benches: no construction work on the site.
    parts : tuple of str
        Keys of what the trades handed on that is in it, and of what a bundle was made of.
    done : float
        Share that is done already, 0 to 1.
    said_by : str
        Where its minutes come from, in words.
    working : Working or None
    """

    key: str
    label: str
    trade: str
    kind: str
    place: str
    minutes: int
    quantity: float = 0.0
    unit: str = ""
    crew_least: int = 1
    crew_most: int = 4
    after: tuple[After, ...] = ()
    signoffs: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    attention: int = 0
    clashes: tuple[str, ...] = ()
    dry: bool = False
    due: date | None = None
    due_why: str = ""
    on: tuple[date, ...] = ()
    guest: str = ""
    filler: bool = False
    on_site: bool = True
    parts: tuple[str, ...] = ()
    done: float = 0.0
    said_by: str = ""
    working: Working | None = None

    def __post_init__(self) -> None:
        if self.minutes < 0 or not 0 <= self.done <= 1:
            raise ValueError(f"{self.label}: {self.minutes} min, {self.done} of it done")

    @property
    def left(self) -> int:
        """Student-minutes still to be done [min]; at least 1 where anything is left."""
        if self.done >= 1:
            return 0
        return max(1, round(self.minutes * (1 - self.done))) if self.minutes else 0
