"""What a crew says of its task in a period: begun, stopped, partly done, done, blocked."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from setday.errors import SetdayError

__all__ = ["EntryRefusal", "Mark", "MarkKind", "admit"]

_FAST = timedelta(minutes=2)
"""How far the clock of a tablet may run ahead of the laptop's; our own."""


class EntryRefusal(SetdayError):
    """An entry that cannot be: its time, its crew or its task is against what is known."""


class MarkKind(StrEnum):
    """What happened to the task."""

    START = "start"
    STOP = "stop"
    """The crew leaves it as it is."""
    PARTLY = "partly done"
    DONE = "done"
    BLOCKED = "blocked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One entry of a crew.

    Parameters
    ----------
    entry : str
        Made by the tablet, so that an entry sent twice counts once.
    kind : MarkKind
    crew, task : str
        Name of the crew in its period, key of the task.
    members : tuple of str
        Keys of the students at it.
    at : datetime
        When it happened, as the crew says.
    quantity : float or None
        Done since the last entry, in the task's unit; None where nobody counted.
    why : str
        What blocks it.
    by : str
        Who entered it.
    """

    entry: str
    kind: MarkKind
    crew: str
    task: str
    members: tuple[str, ...]
    at: datetime
    quantity: float | None = None
    why: str = ""
    by: str = ""


def admit(
    mark: Mark, said: Sequence[Mark], *, begins: datetime, ends: datetime, now: datetime, done: bool = False
) -> Mark:
    """Return the mark when it can be true, else say why not.

    Parameters
    ----------
    mark : Mark
    said : sequence of Mark
        Earlier entries of the period.
    begins, ends : datetime
        Of the period.
    now : datetime
    done : bool
        True when the task was finished before.

    Raises
    ------
    EntryRefusal
        Against the time, the crew, the quantity, or what was said before.
    """
    _in_time(mark, begins=begins, ends=ends, now=now)
    if not mark.members:
        raise EntryRefusal("Nobody is at this task.", do="Tick who of the crew is here.", where=mark.crew)
    if mark.quantity is not None and not 0 <= mark.quantity < float("inf"):
        raise EntryRefusal(
            f"{mark.quantity:g} is no quantity that can be done.", do="Write what was done as a number."
        )
    if mark.kind is MarkKind.BLOCKED and not mark.why.strip():
        raise EntryRefusal("It is not said what blocks the task.", do="Write in a few words what is missing.")
    running = _running(mark, said)
    if mark.kind is MarkKind.START and running:
        raise EntryRefusal("The crew is at this task already.", do="Stop it, or mark it as done.")
    if mark.kind is MarkKind.STOP and not running:
        raise EntryRefusal("The crew has not begun this task.", do="Start it, or mark what was done.")
    if done:
        raise EntryRefusal(
            "This task is done already.", do="If it is not, the instructor takes the mark back."
        )
    return mark


def _in_time(mark: Mark, *, begins: datetime, ends: datetime, now: datetime) -> None:
    if mark.at > now + _FAST:
        raise EntryRefusal(
            f"{mark.at:%H:%M} is still to come.", do="Write when it happened, or set the tablet's clock."
        )
    if not begins <= mark.at <= ends:
        raise EntryRefusal(
            f"{mark.at:%H:%M} is not within the period, {begins:%H:%M} to {ends:%H:%M}.",
            do="Write a time within it.",
        )


def _running(mark: Mark, said: Sequence[Mark]) -> bool:
    own = [each for each in said if each.crew == mark.crew and each.at <= mark.at]
    last = max(own, key=lambda each: each.at, default=None)
    return last is not None and last.kind is MarkKind.START and last.task == mark.task
