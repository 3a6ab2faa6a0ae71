"""A roster as read: who is on it, with the line each stands on, and who is on it twice."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from setday.findings import Finding, Severity, Where
from setday.roster import plain

__all__ = ["RosterClass", "RosterEntry", "RosterList", "with_doubles"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterEntry:
    """One person of a roster, as it stood there.

    Parameters
    ----------
    name : str
        As the person is called: given name first.
    number : str
        The school's own number or key; "" where there is none.
    born : date or None
    role : str
        "student", "instructor" or "helper".
    classes : tuple of str
        Keys of the classes, as in the file.
    where : Where
    double_of : Where or None
        Where the same person stands a first time.
    """

    name: str
    number: str = ""
    born: date | None = None
    role: str = "student"
    classes: tuple[str, ...] = ()
    where: Where = Where()
    double_of: Where | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterClass:
    """A class of a roster.

    Parameters
    ----------
    key, title : str
    school : str
        "" where the file does not say.
    students : int
        How many students it has [count].
    """

    key: str
    title: str
    school: str = ""
    students: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterList:
    """A roster as read.

    Parameters
    ----------
    kind : str
        What it was read as: "typed lines", "CSV", "OneRoster 1.1", "OneRoster 1.2", or "" for nothing.
    text : str
        What arrived, to be shown again in a form; "" for an archive.
    entries : tuple of RosterEntry
        All of them, doubles too.
    classes : tuple of RosterClass
    findings : tuple of Finding
    """

    kind: str
    text: str
    entries: tuple[RosterEntry, ...]
    classes: tuple[RosterClass, ...]
    findings: tuple[Finding, ...]

    @property
    def once(self) -> tuple[RosterEntry, ...]:
        """Everybody once: without the doubles."""
        return tuple(entry for entry in self.entries if entry.double_of is None)

    def of_class(self, key: str) -> tuple[RosterEntry, ...]:
        """Return everybody of a class once.

        Parameters
        ----------
        key : str
        """
        return tuple(entry for entry in self.once if key in entry.classes)


def with_doubles(entries: Iterable[RosterEntry]) -> tuple[tuple[RosterEntry, ...], tuple[Finding, ...]]:
    """Return the entries with doubles marked, and a finding for each.

    Two with one number are the same person; two with one name are, unless number or birth date tell them
    apart.

    Parameters
    ----------
    entries : iterable of RosterEntry
    """
    kept: list[RosterEntry] = []
    findings: list[Finding] = []
    numbered: dict[str, RosterEntry] = {}
    named: dict[str, list[RosterEntry]] = {}
    for entry in entries:
        namesakes = named.setdefault(plain(entry.name), [])
        first = numbered.get(entry.number) if entry.number else None
        first = first or next((other for other in namesakes if not _told_apart(entry, other)), None)
        if first is not None:
            findings.append(_double(entry, first))
            kept.append(replace(entry, double_of=first.where))
            continue
        namesakes.append(entry)
        if entry.number:
            numbered[entry.number] = entry
        kept.append(entry)
    return tuple(kept), tuple(findings)


def _told_apart(entry: RosterEntry, other: RosterEntry) -> bool:
    pairs = ((entry.number, other.number), (entry.born, other.born))
    return any(one and two and one != two for one, two in pairs)


def _double(entry: RosterEntry, first: RosterEntry) -> Finding:
    line = f"line {first.where.line}" if first.where.file == entry.where.file else str(first.where)
    by = "number" if entry.number and entry.number == first.number else "name"
    named = f" as '{first.name}'" if plain(entry.name) != plain(first.name) else ""
    return Finding(
        rule="roster.double",
        about=f"'{entry.name}'",
        found=f"the same {by} stands on {line}{named}.",
        expected="everybody once.",
        do="Take one of them out, or tell them apart by a number or a day of birth.",
        where=entry.where,
        severity=Severity.ASK,
    )
