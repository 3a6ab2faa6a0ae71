"""A working as plain lines, the same in the terminal, on the page and on the sheet."""

from dataclasses import dataclass

from setday.working import Working

__all__ = ["WorkingLine", "source_marks", "working_lines"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingLine:
    """One line of a working: what, the arithmetic with units, the result, and the mark of its source."""

    label: str
    expression: str
    result: str
    source: str


def source_marks(working: Working) -> dict[str, str]:
    """Return the citation behind every mark used in the lines of a working: ``[1]``, ``[2]`` ..."""
    marked = {}
    for i, source in enumerate(working.sources, start=1):
        note = f" {source.note}" if source.note else ""
        marked[f"[{i}]"] = f"{source}.{note}"
    return marked


def working_lines(working: Working) -> tuple[WorkingLine, ...]:
    """Return the steps of a working in the order a person would do them.

    Parameters
    ----------
    working : Working

    Returns
    -------
    tuple of WorkingLine
        `source` is empty for plain arithmetic, otherwise a mark of `source_marks`.
    """
    marks = {source: f"[{i}]" for i, source in enumerate(working.sources, start=1)}
    return tuple(
        WorkingLine(
            label=step.label,
            expression=step.expression,
            result=step.result,
            source=marks[step.source] if step.source else "",
        )
        for step in working.steps
    )
