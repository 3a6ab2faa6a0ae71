"""Sheets of a hookup: its diagram on one page, then what every lamp does in every position."""

from setday.drawing import hookup_page, hookup_table, position_table
from setday.sheets.blocks import Note, Picture, Sheet, TableBlock
from setday.switching import CAUTIONS, Hookup, try_hookup

__all__ = ["hookup_sheets"]

_MOST_ROWS = 40


def hookup_sheets(hookup: Hookup) -> tuple[Sheet, ...]:
    """Return the diagram of a hookup on one page, and its tables on the next."""
    picture = Picture(svg=hookup_page(hookup), highest_in=9.15, largest=1.35)
    positions = position_table(try_hookup(hookup))
    tables = [TableBlock(table=hookup_table(hookup), widths=("auto", "1fr"))]
    if len(positions.rows) <= _MOST_ROWS:
        tables.append(TableBlock(table=positions))
    notes = tuple(Note(text=caution) for caution in CAUTIONS)
    return (
        Sheet(title="Hookup", blocks=(picture,), person_decides=True),
        Sheet(title="Joins and positions", blocks=(*tables, *notes), person_decides=True),
    )
