"""Sheets: results in, pages for the printer out."""

from setday.sheets.blocks import Heading, Note, Picture, Sheet, TableBlock, WorkingBlock
from setday.sheets.book import Book, book_pdf, page_source
from setday.sheets.house_sheets import plan_sheets, surface_sheet, wall_sheet
from setday.sheets.working_text import WorkingLine, source_marks, working_lines

__all__ = [
    "Book",
    "Heading",
    "Note",
    "Picture",
    "Sheet",
    "TableBlock",
    "WorkingBlock",
    "WorkingLine",
    "book_pdf",
    "page_source",
    "plan_sheets",
    "source_marks",
    "surface_sheet",
    "wall_sheet",
    "working_lines",
]
