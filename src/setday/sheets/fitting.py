"""Whether a table still fits under a picture on the same page; those that do not are printed together."""

from collections.abc import Sequence
from math import ceil

from setday.sheets.blocks import Block, Picture, Sheet, TableBlock

__all__ = ["fits_below", "tables_together", "with_tables"]

PAGE_HIGH_IN = 9.25
FLIPPED_HIGH_IN = 6.75
_ROW_IN = 0.185
_LINE_IN = 0.15
_HEAD_IN = 0.62
_WIDE_CELL = 40
"""Letters of a cell before it is folded, at the least."""


def fits_below(picture: Picture, tables: Sequence[TableBlock], *, flipped: bool = False) -> bool:
    """Say whether tables fit under a picture on its page, figured with a little to spare."""
    high = picture.size_in[1] * picture.shrunk + 0.1
    high += sum(_height_in(block) for block in tables)
    return high <= (FLIPPED_HIGH_IN if flipped else PAGE_HIGH_IN)


def _height_in(block: TableBlock) -> float:
    lines = [max(1, *(ceil(len(cell) / _WIDE_CELL) for cell in row)) for row in block.table.rows]
    rows = sum(_ROW_IN + (count - 1) * _LINE_IN for count in lines)
    return _HEAD_IN + rows / block.columns


def with_tables(
    sheet: Sheet, tables: Sequence[TableBlock], *, later: list[TableBlock], above: Sequence[Block] = ()
) -> Sheet:
    """Return a sheet of one picture with its tables, or without them and the tables put to `later`.

    Parameters
    ----------
    sheet : Sheet
        Its first block is the picture.
    tables : sequence of TableBlock
    later : list of TableBlock
        Tables that found no room are added.
    above : sequence of Block
        Between picture and tables.
    """
    picture = sheet.blocks[0]
    if not isinstance(picture, Picture):
        raise TypeError("the first block of the sheet is its picture")
    kept: list[Block] = [picture, *above]
    if fits_below(picture, tables, flipped=sheet.flipped):
        kept += tables
    else:
        later += [block for block in tables if block.table not in [other.table for other in later]]
    return Sheet(
        title=sheet.title, blocks=tuple(kept), flipped=sheet.flipped, person_decides=sheet.person_decides
    )


def tables_together(title: str, tables: Sequence[TableBlock]) -> tuple[Sheet, ...]:
    """Return one sheet with the tables that found no room under their pictures; none without tables."""
    return (Sheet(title=title, blocks=tuple(tables)),) if tables else ()
