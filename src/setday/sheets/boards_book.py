"""The book of a board run: everything a class takes to the wall."""

from collections.abc import Mapping, Sequence
from datetime import date

from setday.boards import BoardProblem, CutList, Outcome
from setday.needs import Need
from setday.sheets.blocks import Sheet
from setday.sheets.board_sheets import (
    CutBy,
    board_list_sheet,
    cut_list_sheet,
    cutting_sheet,
    overview_sheets,
)
from setday.sheets.book import Book
from setday.sheets.room_sheets import room_board_sheets
from setday.sheets.summary_sheets import Way, comparison_sheet, summary_sheet, workings_sheet
from setday.working import Working

__all__ = ["boards_book"]


def boards_book(
    house_name: str,
    *,
    problem: BoardProblem,
    outcome: Outcome,
    dated: date,
    needs: Sequence[Need] = (),
    ways: Sequence[Way] = (),
    workings: Sequence[Working] = (),
    by: CutBy = CutBy.ROOM,
    crews: Mapping[str, str] | None = None,
    notes: Sequence[str] = (),
    listed: CutList | None = None,
) -> Book:
    """Put the sheets of a board run together; hand the book to `book_pdf` or `page_source`.

    Parameters
    ----------
    house_name : str
    problem : BoardProblem
    outcome : Outcome
        Without a layout the book is its summary, which says why.
    dated : date
    needs : sequence of Need
        Fasteners and finish; those whose place is a room or one of its surfaces are printed with the room.
    ways : sequence of Way
        By area, by layout, "what if" runs, for the comparison.
    workings : sequence of Working
    by : CutBy
        How the cut list is divided.
    crews : mapping or None
        Crew by id of surface.
    notes : sequence of str
        Printed under the summary: weight where boards are stacked, hanging hours.
    listed : CutList or None
        The cuts in words; printed board by board.
    """
    sheets: list[Sheet] = [summary_sheet(problem, outcome, notes=notes)]
    if ways:
        sheets.append(comparison_sheet(ways))
    layout = outcome.layout
    if layout is not None:
        sheets += overview_sheets(problem, layout)
        sheets.append(cut_list_sheet(problem, layout, by=by, crews=crews))
        if listed is not None:
            sheets.append(board_list_sheet(listed))
        sheets.append(cutting_sheet(problem, layout))
        sheets += room_board_sheets(problem.surfaces, layout, boards=problem.boards, needs=needs)
    if workings:
        method = outcome.bound.method
        proof = (f"How the least cost was proven: {method}.",) if layout is not None and method else ()
        sheets.append(workings_sheet(workings, notes=proof))
    return Book(house=house_name, dated=dated, sheets=tuple(sheets))
