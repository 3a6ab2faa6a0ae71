"""The record of a period, and the hours of a class, for the printer."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.drawing import Table
from setday.sheets.blocks import Note, Sheet, TableBlock

__all__ = ["PeriodRecord", "hours_sheet", "period_sheet"]

RATES = "Hours are for the school's record and for planning, not for hurrying people."


@dataclass(frozen=True, slots=True, kw_only=True)
class PeriodRecord:
    """What is printed of a period.

    Parameters
    ----------
    title : str
        Class and time: "Morning, 6 October 2026, 08:00 to 09:30".
    here, late, away : tuple of str
        Names.
    crews : tuple of (str, str, str)
        Crew, members, tasks with how far they are.
    lines : tuple of (str, str, str)
        Time, what was entered, by whom.
    fixes : tuple of (str, str, str, str, str)
        What, where, who noticed, what was learned, what it cost.
    words : str
        The instructor's word on it.
    """

    title: str
    here: tuple[str, ...] = ()
    late: tuple[str, ...] = ()
    away: tuple[str, ...] = ()
    crews: tuple[tuple[str, str, str], ...] = ()
    lines: tuple[tuple[str, str, str], ...] = ()
    fixes: tuple[tuple[str, str, str, str, str], ...] = ()
    words: str = ""


def period_sheet(record: PeriodRecord) -> Sheet:
    """Return the record of a period.

    Parameters
    ----------
    record : PeriodRecord
    """
    people = tuple(
        (word, str(len(names)), ", ".join(names) or "–")
        for word, names in (("here", record.here), ("late", record.late), ("away", record.away))
    )
    blocks: list[Note | TableBlock] = []
    if record.words:
        blocks.append(Note(text=record.words))
    blocks.append(
        _table(
            "Who was here",
            ("", "", "Names"),
            people,
            widths=("auto", "auto", "1fr"),
            figures=(False, True, False),
        )
    )
    if record.crews:
        heads = ("Crew", "Members", "Tasks")
        blocks.append(_table("Crews", heads, record.crews, widths=("auto", "1fr", "2fr")))
    if record.lines:
        heads = ("Time", "What", "By")
        blocks.append(_table("What was entered", heads, record.lines, widths=("auto", "1fr", "auto")))
    if record.fixes:
        five = ("Put right", "Where", "Noticed by", "Learned", "Cost")
        widths = ("2fr", "1fr", "1fr", "2fr", "auto")
        blocks.append(_table("Fixes: what this period taught", five, record.fixes, widths=widths))
    return Sheet(title=record.title, blocks=tuple(blocks))


def _table(
    caption: str,
    head: tuple[str, ...],
    rows: tuple[tuple[str, ...], ...],
    *,
    widths: tuple[str, ...],
    figures: tuple[bool, ...] = (),
) -> TableBlock:
    table = Table(caption=caption, head=head, rows=rows, figures=figures or (False,) * len(head))
    return TableBlock(table=table, widths=widths)


def hours_sheet(title: str, rows: Sequence[tuple[str, ...]]) -> Sheet:
    """Return the hours of a class: heads first, then a row a student.

    Parameters
    ----------
    title : str
    rows : sequence of tuple of str
    """
    head, *students = rows
    table = _table(
        "Hours by trade",
        head,
        tuple(students),
        widths=("1fr", *("auto",) * (len(head) - 1)),
        figures=(False, *(True,) * (len(head) - 1)),
    )
    return Sheet(title=title, blocks=(table, Note(text=RATES)), flipped=len(head) > 7)
