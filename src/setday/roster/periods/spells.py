"""Who was at which task for how long in one period."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from setday.roster.periods.marks import Mark, MarkKind

__all__ = ["Spell", "spells"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spell:
    """A stretch of one crew at one task.

    Parameters
    ----------
    crew, task : str
    members : tuple of str
    begins, ends : datetime
    """

    crew: str
    task: str
    members: tuple[str, ...]
    begins: datetime
    ends: datetime

    @property
    def minutes(self) -> int:
        """How long it was, for each of the crew [min]."""
        return round((self.ends - self.begins).total_seconds() / 60)


def spells(marks: Iterable[Mark], *, begins: datetime, ends: datetime) -> tuple[Spell, ...]:
    """Return the stretches of every crew, in order of crew and time.

    A start ends what the crew was at before.  A task that is marked without having been started counts
    from the crew's last entry, or from the period's begin: a crew that forgot to press start worked too.

    Parameters
    ----------
    marks : iterable of Mark
        Of one period.
    begins, ends : datetime
        Of the period; what still runs at its end ends there.
    """
    crews: dict[str, list[Mark]] = {}
    for mark in sorted(marks, key=lambda each: (each.crew, each.at, each.entry)):
        crews.setdefault(mark.crew, []).append(mark)
    found = [
        spell for own in crews.values() for spell in _of_crew(own, begins=begins, ends=ends) if spell.minutes
    ]
    return tuple(found)


def _of_crew(own: Sequence[Mark], *, begins: datetime, ends: datetime) -> list[Spell]:
    found: list[Spell] = []
    since, running = begins, None
    for mark in own:
        at = min(max(mark.at, begins), ends)
        if mark.kind is MarkKind.START:
            if running is not None:
                found.append(_spell(running, since, at))
            since, running = at, mark
            continue
        # Where the crew was at another task, that one ends here: no minute counts twice.
        found.append(_spell(running or mark, since, at))
        since, running = at, None
    if running is not None:
        found.append(_spell(running, since, ends))
    return found


def _spell(mark: Mark, begins: datetime, ends: datetime) -> Spell:
    return Spell(crew=mark.crew, task=mark.task, members=mark.members, begins=begins, ends=ends)
