from dataclasses import replace

import pytest

from setday.drawing import Table, wall_table
from setday.sheets import (
    Book,
    CutBy,
    Picture,
    Sheet,
    TableBlock,
    board_list_sheet,
    boards_book,
    book_pdf,
    buying_sheet,
    comparison_sheet,
    cut_list_sheet,
    cutting_sheet,
    overview_sheets,
    page_source,
    plan_sheets,
    surface_sheet,
    surface_sheets,
    wall_sheet,
    wall_sheets,
    workings_sheet,
)
from setday.sheets.fitting import with_tables
from tests.drawing.houses import tiny_house
from tests.drawing.laid import one_layout
from tests.sheets.books import DATED, WORKING, buying, no_outcome, problem, ways, whole_book
from tests.sheets.printed import page_count, words_of


def printed(*sheets: Sheet) -> bytes:
    return book_pdf(Book(house="Practice cottage", dated=DATED, sheets=sheets))


def test_a_board_run_is_printed_whole():
    titles = [sheet.title for sheet in whole_book().sheets]
    assert titles == [
        "Boards: summary",
        "Area count and layout, side by side",
        "Boards at a glance",
        "Cut list, by room",
        "How each board is cut",
        "Boards: bedroom",
        "Workings",
    ]
    assert page_count(book_pdf(whole_book())) == 7


def test_the_summary_gives_cost_bound_and_gap():
    words = words_of(book_pdf(whole_book()), page=1)
    for figure in ("$42.00", "$40.00", "5.00%", "8.0 ft", "Rules that gave way", "Hanging takes 3.2 hours."):
        assert figure in words


def test_without_a_layout_the_book_says_why():
    book = boards_book("x", problem=problem(), outcome=no_outcome(), dated=DATED)
    assert len(book.sheets) == 1
    assert "No board on the price list is long enough." in page_source(book)


@pytest.mark.parametrize(
    ("by", "part"),
    [(CutBy.HOUSE, "All boards"), (CutBy.ROOM, "bedroom"), (CutBy.DAY, "Day 1"), (CutBy.CREW, "Ada and Bo")],
)
def test_the_cut_list_is_divided_as_asked(by, part):
    sheet = cut_list_sheet(problem(), one_layout(), by=by, crews={"bedroom/north": "Ada and Bo"})
    table = sheet.blocks[1].table
    assert table.caption == part
    assert [row[0] for row in table.rows] == ["1", "2a", "3", "2b"]


def test_surfaces_of_no_crew_are_not_lost():
    sheet = cut_list_sheet(problem(), one_layout(), by=CutBy.CREW)
    assert sheet.blocks[1].table.caption == "no crew yet"


def test_boards_hung_whole_are_named_and_the_others_drawn():
    """Without its window the wall asks for no cut-out: board 3 is hung whole, boards 1 and 2 are cut."""
    plain = replace(problem(), surfaces=tuple(replace(s, voids=()) for s in problem().surfaces))
    note, _, grid = cutting_sheet(plain, one_layout()).blocks
    assert note.text == "Hung whole: 3."
    assert [picture.title.partition(":")[0] for picture in grid.pictures] == ["Board 1", "Board 2"]


def test_a_shaped_piece_is_drawn_by_itself_after_its_board():
    """The window stands from 52 to 92 in: in the pieces of board 1 and of board 3."""
    grid = cutting_sheet(problem(), one_layout()).blocks[-1]
    titles = [picture.title.partition(",")[0].partition(":")[0] for picture in grid.pictures]
    assert titles == ["Board 1", "1", "Board 2", "Board 3", "3"]


def test_the_cut_list_says_what_is_cut_out():
    row = cut_list_sheet(problem(), one_layout()).blocks[1].table.rows[0]
    assert "north window cut out 4'-4\" from the left, 3'-4\" wide, 2'-8\" high from the lower edge" in row[4]


def test_the_sheet_of_a_surface_lists_what_else_it_takes():
    words = words_of(book_pdf(whole_book()), page=6)
    assert "screws, 1-1/4 in" in words
    assert "96.0 screws" in words


def test_the_cut_list_in_words_has_every_board():
    from setday.boards import LaidOut
    from setday.boards.cutlist import cut_list

    listed = cut_list(LaidOut(problem=problem(), layout=one_layout()))
    rows = board_list_sheet(listed).blocks[0].table.rows
    assert [row[0].partition(",")[0] for row in rows] == ["board 1", "board 2", "board 3"]


def test_an_overview_never_runs_over_its_sheet():
    many = problem().surfaces * 40
    sheets = overview_sheets(replace(problem(), surfaces=many), one_layout())
    assert page_count(printed(*sheets)) == len(sheets)
    assert len(sheets) > 1


def test_the_plan_is_printed_with_its_tables():
    sheets = plan_sheets(tiny_house())
    pdf = printed(*sheets)
    assert page_count(pdf) == 2
    words = words_of(pdf)
    for text in ("Floor plan", "bedroom", "101.0 ft2", "Rooms and openings", "wide window", "26'-0\""):
        assert text in words


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_wall_is_printed_with_every_member(side):
    wall = tiny_house().wall("bath south")
    sheet = wall_sheet(wall, side=side)
    assert len(sheet.blocks[1].table.rows) == len(wall.members)
    assert f"{side} side" in words_of(printed(sheet))


def test_a_surface_is_printed_with_what_stands_on_it():
    words = words_of(printed(surface_sheet(tiny_house().surfaces[0])))
    assert "bedroom, south wall" in words
    assert "no board" in words


def test_a_working_is_printed_with_units_and_sources():
    words = words_of(printed(workings_sheet([WORKING])))
    for text in (
        "12'-6\" x 8'-0\"",
        "110.0 ft2",
        "Result",
        "4 sheets",
        "[1] A handbook of areas",
        "from memory",
    ):
        assert text in words
    assert "Taken for granted: Openings are not taken off." in words


def test_the_buying_list_is_printed_with_what_has_no_price():
    words = words_of(printed(buying_sheet(buying())))
    for text in (
        "joint compound",
        "2 x pail",
        "$39.98",
        "no price",
        "Without a price",
        "paper tape",
        "first truck",
    ):
        assert text in words


def test_ways_are_compared_by_area_bought_and_by_money():
    """Four sheets and three boards are of different sizes, so a bar of counts would mislead."""
    pictures = [block for block in comparison_sheet(ways()).blocks if isinstance(block, Picture)]
    assert [picture.title for picture in pictures] == ["Board bought, square feet", "Money"]
    assert "128 ft2" in pictures[0].svg
    assert "112 ft2" in pictures[0].svg
    assert "$42.00" in pictures[1].svg


def test_the_first_page_says_the_bound_plainly_and_the_workings_how_it_was_proven():
    book = whole_book()
    first, last = (page_source(replace(book, sheets=(book.sheets[n],))) for n in (0, -1))
    assert "No layout that keeps the rules can cost less than $40.00" in first
    assert "by hand" not in first
    assert "How the least cost was proven: by hand." in last


def test_a_table_that_finds_no_room_is_printed_with_the_others_and_no_page_holds_a_few_rows():
    """Every wall from both sides, each on one page, then the long member lists, each once."""
    house = tiny_house()
    sheets = wall_sheets(house)
    drawn = [sheet for sheet in sheets if isinstance(sheet.blocks[0], Picture)]
    assert len(drawn) == 2 * len(house.walls)
    assert page_count(printed(*drawn)) == len(drawn)
    together = [block.table for sheet in sheets for block in sheet.blocks if isinstance(block, TableBlock)]
    assert {table.caption for table in together} == {wall_table(wall).caption for wall in house.walls}


def test_every_surface_and_its_table_stand_on_one_page_or_the_table_comes_after():
    sheets = surface_sheets(tiny_house())
    drawn = [sheet for sheet in sheets if isinstance(sheet.blocks[0], Picture)]
    assert page_count(printed(*drawn)) == len(drawn) == len(tiny_house().surfaces)


def test_a_long_table_goes_to_the_end_once():
    long = Table(caption="long", head=("a",), rows=tuple((str(n),) for n in range(200)))
    sheet = surface_sheet(tiny_house().surfaces[0])
    later: list[TableBlock] = []
    kept = with_tables(sheet, (TableBlock(table=long),), later=later)
    with_tables(sheet, (TableBlock(table=long),), later=later)
    assert [block.table.caption for block in later] == ["long"]
    assert len(kept.blocks) == 1
