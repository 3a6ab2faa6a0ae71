"""The sheet of what is ahead: what has to be ordered, in the yard, booked by when."""

from dataclasses import dataclass

from setday.drawing import Table
from setday.sheets.blocks import Block, Heading, Note, Sheet, TableBlock

__all__ = ["Ahead", "ahead_sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What has to be ordered, booked or got ready, in the order of its day.

    Parameters
    ----------
    until : str
        The last day it looks to.
    rows : tuple of (by, what, for which task, why)
    orders : tuple of (by, how many, sold unit, first needed, for which task)
    notes : tuple of str
        What has no quantity or no day, and what lies in the yard already, in words.
    """

    until: str
    rows: tuple[tuple[str, str, str, str], ...]
    orders: tuple[tuple[str, str, str, str, str], ...] = ()
    notes: tuple[str, ...] = ()


def ahead_sheet(ahead: Ahead) -> Sheet:
    """Return what has to be ordered, booked or got ready."""
    table = Table(
        caption=f"Until {ahead.until}",
        head=("By", "What", "For", "Why then"),
        rows=ahead.rows,
    )
    blocks: list[Block] = [TableBlock(table=table, widths=("auto", "2fr", "2fr", "auto"))]
    if not ahead.rows:
        blocks = [Note(text=f"Nothing has to be ordered or booked until {ahead.until}.")]
    if ahead.orders:
        listed = Table(
            caption="What to order, in sold units; the count of the yard is taken off",
            head=("Order by", "How many", "What", "First needed", "For"),
            rows=ahead.orders,
            figures=(False, True, False, False, False),
        )
        blocks.append(TableBlock(table=listed, widths=("auto", "auto", "3fr", "auto", "2fr")))
    if ahead.notes:
        blocks += [Heading(text="To know"), *(Note(text=note) for note in ahead.notes)]
    return Sheet(title="Ahead", blocks=tuple(blocks))
