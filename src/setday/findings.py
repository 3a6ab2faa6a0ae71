"""What a check found."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from setday.rules import Source

__all__ = ["Finding", "Severity", "Where", "in_order"]


class Severity(StrEnum):
    """How much a finding matters."""

    PROBLEM = "problem"
    """Nothing can be figured until it is put right."""
    ASK = "ask"
    """Readable, but surely or likely not what was meant; the person decides."""
    NOTE = "note"
    """Worth knowing; changes nothing."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Where:
    """A place in a file: its name, line and column, counted from 1 (0: unknown)."""

    file: str = ""
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        if not self.line:
            return self.file
        return f"{self.file}:{self.line}" if self.file else f"line {self.line}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a check found.

    Parameters
    ----------
    rule : str
        Stable key of the rule, like ``house.opening-off-wall``.
    about : str
        The thing on the house, in the words of the file: "wall 'south'".
    found, expected, do : str
        Plain sentences or phrases: what was found, what was expected, what to do.
    where : Where
        File and line.
    severity : Severity
    source : Source or None
        The published rule behind it, where there is one.
    """

    rule: str
    about: str
    found: str
    expected: str = ""
    do: str = ""
    where: Where = Where()
    severity: Severity = Severity.PROBLEM
    source: Source | None = None

    def __str__(self) -> str:
        place = f"{self.where}: " if str(self.where) else ""
        parts = [f"{place}{self.about}: {self.found}"]
        if self.expected:
            parts.append(f"Expected: {self.expected}")
        if self.do:
            parts.append(self.do)
        return " ".join(parts)


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings by file, line and rule, each said once."""
    unique = dict.fromkeys(findings)
    return tuple(sorted(unique, key=lambda f: (f.where, f.rule, f.about, f.found)))
