"""A timetable repaired, and what became of the old one."""

from dataclasses import dataclass

from setday.timetable.repair.moves import Move

__all__ = ["Repair"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A timetable repaired, and what became of the old one.

    Parameters
    ----------
    rows : tuple of tuple of str
        The whole timetable, what happened first.
    before : tuple of tuple of str
        The timetable it was made from; to undo is to take that again.
    since : int
        First period that was planned anew.
    finish, finish_before : int
        Periods until all work is done, now and as it was planned.
    possible : int
        The earliest finish found, also by planning anew from nothing.
    moves : tuple of Move
        Tasks that begin in another period than planned, the near ones first.
    tasks : int
        Tasks that were planned and had not begun.
    forced : int
        Those among them that cannot begin when planned, whatever is planned now: what they wait for cannot be
        done, or their material is not there, or too few who may do them are.
    places_changed, places : int
        Places of present students in the near periods that changed, and how many there are.
    said : tuple of str
        What moved and why, in three lines.
    broken : tuple of str
        Work that the calendar leaves undone, and pins that cannot be kept; empty otherwise.
    """

    rows: tuple[tuple[str, ...], ...]
    before: tuple[tuple[str, ...], ...]
    since: int
    finish: int
    finish_before: int
    possible: int
    moves: tuple[Move, ...]
    tasks: int
    forced: int
    places_changed: int
    places: int
    said: tuple[str, str, str]
    broken: tuple[str, ...]
