"""A house file line by line, each finding beside its line; and two versions of one line by line."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from setday.findings import Finding, Severity

__all__ = ["DiffRow", "Row", "compared", "listed", "unplaced"]

_AROUND = 3
_GRAVITY = (Severity.PROBLEM, Severity.ASK, Severity.NOTE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the file with what was found in it; or a stretch of lines left out."""

    number: int
    text: str = ""
    findings: tuple[Finding, ...] = ()
    left_out: int = 0

    @property
    def mark(self) -> str:
        """The gravest severity found in the line; empty for none."""
        found = {finding.severity for finding in self.findings}
        return next((str(severity) for severity in _GRAVITY if severity in found), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class DiffRow:
    """One line of a comparison: "same", "added", "removed", or "cut" for a stretch left out."""

    kind: str
    before: int = 0
    after: int = 0
    text: str = ""
    left_out: int = 0


def listed(text: str, findings: Iterable[Finding], *, whole: bool) -> tuple[Row, ...]:
    """Return the lines of a file with their findings.

    Parameters
    ----------
    text : str
    findings : iterable of Finding
    whole : bool
        False leaves out the stretches in which nothing was found.
    """
    lines = text.splitlines()
    by_line: dict[int, list[Finding]] = {}
    for finding in findings:
        if finding.where.line:
            by_line.setdefault(min(finding.where.line, max(len(lines), 1)), []).append(finding)
    rows = [
        Row(number=number, text=line, findings=tuple(by_line.get(number, ())))
        for number, line in enumerate(lines or [""], start=1)
    ]
    if whole:
        return tuple(rows)
    return tuple(_shortened(rows))


def _shortened(rows: Sequence[Row]) -> Iterable[Row]:
    near = {n for row in rows if row.findings for n in range(row.number - _AROUND, row.number + _AROUND + 1)}
    skipped = 0
    for row in rows:
        if row.number not in near:
            skipped += 1
            continue
        if skipped:
            yield Row(number=0, left_out=skipped)
            skipped = 0
        yield row
    if skipped and near:
        yield Row(number=0, left_out=skipped)


def unplaced(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings that belong to no line."""
    return tuple(finding for finding in findings if not finding.where.line)


def compared(before: str, after: str) -> tuple[DiffRow, ...]:
    """Return what changed from one text to another, with a few lines around each change."""
    old, new = before.splitlines(), after.splitlines()
    rows: list[DiffRow] = []
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    for kind, a0, a1, b0, b1 in matcher.get_opcodes():
        if kind == "equal":
            rows += _unchanged(old, (a0, a1, b0), last=a1 == len(old) and b1 == len(new))
            continue
        rows += [DiffRow(kind="removed", before=n + 1, text=old[n]) for n in range(a0, a1)]
        rows += [DiffRow(kind="added", after=n + 1, text=new[n]) for n in range(b0, b1)]
    return tuple(rows)


def _unchanged(old: Sequence[str], span: tuple[int, int, int], *, last: bool) -> list[DiffRow]:
    a0, a1, b0 = span
    rows = [DiffRow(kind="same", before=n + 1, after=b0 + n - a0 + 1, text=old[n]) for n in range(a0, a1)]
    head = 0 if a0 == 0 else _AROUND
    tail = 0 if last else _AROUND
    hidden = len(rows) - head - tail
    if hidden <= 1:
        return rows
    return [*rows[:head], DiffRow(kind="cut", left_out=hidden), *rows[len(rows) - tail :]]
