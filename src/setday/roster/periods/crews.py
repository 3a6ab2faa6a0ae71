"""The crews of one period, and what keeps one from being sent to its work."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from setday.findings import Finding, Severity
from setday.roster.limits import LimitRules, Work, refusals
from setday.roster.people import Student

__all__ = ["Crew", "CrewTask", "check_crews"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewTask:
    """A task as a crew meets it.

    Parameters
    ----------
    key, label, trade, skill, place : str
    quantity : float
        All of it, in `unit`; 0 where nobody said.
    unit : str
    crew_least, crew_most : int
        Useful crew sizes.
    signoffs, exposures : tuple of str
        As in `setday.roster.Work`.
    on_site : bool
        False for practice benches.
    """

    key: str
    label: str
    trade: str
    place: str
    skill: str = ""
    quantity: float = 0.0
    unit: str = ""
    crew_least: int = 1
    crew_most: int = 4
    signoffs: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    on_site: bool = True

    @property
    def work(self) -> Work:
        """The task as far as it matters who may do it."""
        return Work(
            key=self.key,
            label=self.label,
            signoffs=self.signoffs,
            exposures=self.exposures,
            on_site=self.on_site,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """The students who work together in a period, and their tasks in the order they are done."""

    name: str
    members: tuple[str, ...]
    tasks: tuple[str, ...]


def check_crews(
    crews: Sequence[Crew],
    *,
    students: Mapping[str, Student],
    tasks: Mapping[str, CrewTask],
    present: frozenset[str],
    on: date,
    rules: LimitRules | None = None,
) -> tuple[Finding, ...]:
    """Return what keeps crews from their work: hard limits as problems, the rest as questions.

    Parameters
    ----------
    crews : sequence of Crew
    students, tasks : mapping
        By key.
    present : frozenset of str
        Keys of those who are here.
    on : date
    rules : LimitRules or None
        Which limits for minors are set aside, and why; None keeps them all.

    Examples
    --------
    >>> pair = (Crew(name="1", members=("a",), tasks=()), Crew(name="2", members=("a",), tasks=()))
    >>> ann = Student(key="a", name="Ann")
    >>> [
    ...     each.rule
    ...     for each in check_crews(
    ...         pair, students={"a": ann}, tasks={}, present=frozenset("a"), on=date(2026, 9, 7)
    ...     )
    ... ]
    ['period.two-crews']
    """
    found = list(_twice(crews, students))
    for crew in crews:
        found += _away(crew, students, present)
        for key in crew.tasks:
            if key in tasks:
                found += _size(crew, tasks[key])
                for member in crew.members:
                    found += refusals(students[member], tasks[key].work, on=on, rules=rules)
    return tuple(found)


def _twice(crews: Sequence[Crew], students: Mapping[str, Student]) -> Iterator[Finding]:
    counted = Counter(member for crew in crews for member in set(crew.members))
    for key, count in counted.items():
        if count > 1:
            names = " and ".join(crew.name for crew in crews if key in crew.members)
            yield Finding(
                rule="period.two-crews",
                about=students[key].name,
                found=f"is in more than one crew: {names}.",
                expected="one crew at a time.",
                do="Take the name out of one of them.",
            )


def _away(crew: Crew, students: Mapping[str, Student], present: frozenset[str]) -> Iterator[Finding]:
    for key in crew.members:
        if key not in present:
            yield Finding(
                rule="period.away",
                about=students[key].name,
                found=f"is in crew {crew.name} and is not here.",
                expected="a crew of those who are here.",
                do="Mark the student as here, or take the name out of the crew.",
            )


def _size(crew: Crew, task: CrewTask) -> Iterator[Finding]:
    count = len(crew.members)
    if task.crew_least <= count <= task.crew_most:
        return
    few = count < task.crew_least
    yield Finding(
        rule="period.crew-size",
        severity=Severity.PROBLEM if few else Severity.ASK,
        about=f"crew {crew.name}",
        found=f"{count} at '{task.label}'.",
        expected=f"{task.crew_least} at least."
        if few
        else f"{task.crew_most} at most find room for their hands.",
        do="Put somebody with them, or give them other work." if few else "Give some of them other work.",
    )
