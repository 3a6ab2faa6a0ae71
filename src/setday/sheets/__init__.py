"""Sheets: results in, pages for the printer out."""

from setday.sheets.ahead_sheets import Ahead, ahead_sheet
from setday.sheets.behind_sheets import behind_sheets
from setday.sheets.bell_sheets import (
    BellPeriod,
    CrewCard,
    crew_sheet,
    overview_sheet,
    wall_sheet_of,
)
from setday.sheets.blocks import (
    Heading,
    Note,
    Picture,
    PictureGrid,
    PictureRow,
    Sheet,
    TableBlock,
    WorkingBlock,
)
from setday.sheets.board_sheets import (
    CutBy,
    board_list_sheet,
    cut_list_sheet,
    cutting_sheet,
    overview_sheets,
)
from setday.sheets.boards_book import boards_book
from setday.sheets.book import Book, book_pdf, page_source
from setday.sheets.cable_sheets import (
    CABLE_CAUTIONS,
    cable_sheets,
    coil_sheet,
    home_run_sheets,
    label_sheet,
    panel_sheet,
    pull_sheet,
    wiring_sheets,
)
from setday.sheets.card_sheets import SignInCard, card_source, cards_pdf
from setday.sheets.hookup_sheets import hookup_sheets
from setday.sheets.house_sheets import (
    plan_sheets,
    surface_sheet,
    surface_sheets,
    wall_sheet,
    wall_sheets,
)
from setday.sheets.period_sheets import PeriodRecord, hours_sheet, period_sheet
from setday.sheets.room_sheets import room_board_sheet, room_board_sheets
from setday.sheets.summary_sheets import Way, buying_sheet, comparison_sheet, summary_sheet, workings_sheet
from setday.sheets.working_text import WorkingLine, source_marks, working_lines

__all__ = [
    "CABLE_CAUTIONS",
    "Ahead",
    "BellPeriod",
    "Book",
    "CrewCard",
    "CutBy",
    "Heading",
    "Note",
    "PeriodRecord",
    "Picture",
    "PictureGrid",
    "PictureRow",
    "Sheet",
    "SignInCard",
    "TableBlock",
    "Way",
    "WorkingBlock",
    "WorkingLine",
    "ahead_sheet",
    "behind_sheets",
    "board_list_sheet",
    "boards_book",
    "book_pdf",
    "buying_sheet",
    "cable_sheets",
    "card_source",
    "cards_pdf",
    "coil_sheet",
    "comparison_sheet",
    "crew_sheet",
    "cut_list_sheet",
    "cutting_sheet",
    "home_run_sheets",
    "hookup_sheets",
    "hours_sheet",
    "label_sheet",
    "overview_sheet",
    "overview_sheets",
    "page_source",
    "panel_sheet",
    "period_sheet",
    "plan_sheets",
    "pull_sheet",
    "room_board_sheet",
    "room_board_sheets",
    "source_marks",
    "summary_sheet",
    "surface_sheet",
    "surface_sheets",
    "wall_sheet",
    "wall_sheet_of",
    "wall_sheets",
    "wiring_sheets",
    "working_lines",
    "workings_sheet",
]
