"""The boards of a room on few pages: narrow drawings side by side, one list of pieces."""

from dataclasses import replace

import pytest

from setday.boards import BoughtBoard, Layout, Piece, Rows, Surface, SurfaceRows
from setday.needs import Need
from setday.sheets import Book, PictureRow, TableBlock, book_pdf, room_board_sheet, room_board_sheets
from tests.drawing.laid import one_layout, one_surface, price_list, sixty
from tests.sheets.books import DATED, screws
from tests.sheets.printed import words_of

SIDES = ("north", "east", "south", "west")


def bare_wall(room: str, side: str, width: float, height: float = 96) -> Surface:
    """Return a wall without openings, two rows of one piece each."""
    w, h = sixty(width), sixty(height)
    outline = ((0, 0), (w, 0), (w, h), (0, h))
    named = replace(one_surface(), id=f"{room}/{side}", label=f"{room}, {side} wall", room=room)
    return replace(named, outline=outline, voids=(), members=())


def hung(*surfaces: Surface) -> Layout:
    """Return a layout of bare walls, two pieces each from a board of their own."""
    pieces = []
    for number, surface in enumerate(surfaces, start=1):
        half = surface.height // 2
        for row, y in enumerate((0, half)):
            pieces.append(
                Piece(surface=surface.id, row=row, x=0, y=y, w=surface.width, h=half, board=number,
                      board_x=row * surface.width, board_y=0)
            )  # fmt: skip
    return Layout(
        surfaces=tuple(
            SurfaceRows(surface=s.id, rows=Rows.ALONG, edges=(0, s.height // 2, s.height)) for s in surfaces
        ),
        boards=tuple(
            BoughtBoard(number=n, key="board-regular-1/2-48x144") for n in range(1, len(surfaces) + 1)
        ),
        pieces=tuple(pieces),
    )


def closet(room: str = "closet", width: float = 48) -> tuple[Surface, ...]:
    return tuple(bare_wall(room, side, width) for side in SIDES)


def rows_of(sheet) -> list[PictureRow]:
    return [block for block in sheet.blocks if isinstance(block, PictureRow)]


def test_narrow_walls_stand_side_by_side():
    sheet = room_board_sheet(closet(), hung(*closet()), boards=price_list())
    assert [len(row.pictures) for row in rows_of(sheet)] == [2, 2]


def test_a_wide_wall_stands_alone():
    wide = bare_wall("hall", "north", 16 * 12)
    sheet = room_board_sheet((wide,), hung(wide), boards=price_list())
    assert [len(row.pictures) for row in rows_of(sheet)] == [1]


def test_a_narrow_wall_waits_for_the_next_narrow_one():
    walls = (bare_wall("hall", "north", 40), bare_wall("hall", "east", 192), bare_wall("hall", "south", 40))
    sheet = room_board_sheet(walls, hung(*walls), boards=price_list())
    assert [[p.title for p in row.pictures] for row in rows_of(sheet)] == [
        ["Boards of hall, east wall"],
        ["Boards of hall, north wall", "Boards of hall, south wall"],
    ]


@pytest.mark.parametrize(
    ("width", "height"), [(30, 96), (120, 96), (192, 96), (300, 96), (170, 160), (13, 134)]
)
def test_every_drawing_is_to_a_scale_that_reads(width, height):
    wall = bare_wall("hall", "north", width, height)
    picture = rows_of(room_board_sheet((wall,), hung(wall), boards=price_list()))[0].pictures[0]
    words = picture.svg.split("Scale ")[1].split(" = ")[0].replace("&quot;", '"')
    assert words in {'1/4"', '3/8"', '1/2"', '3/4"', '1"', '1 1/2"', '3"'}
    assert picture.shrunk == 1.0


def test_all_walls_of_a_closet_stand_on_one_page():
    sheet = room_board_sheet(closet(), hung(*closet()), boards=price_list())
    pdf = book_pdf(Book(house="x", dated=DATED, sheets=(sheet,)))
    words = words_of(pdf, page=1)
    assert all(f"Boards of closet, {side} wall" in words for side in SIDES)


def test_rooms_come_in_the_order_in_which_they_are_begun():
    walls = (bare_wall("b", "north", 40), bare_wall("a", "north", 40), bare_wall("b", "south", 40))
    sheets = list(room_board_sheets(walls, hung(*walls), boards=price_list()))
    assert [sheet.title for sheet in sheets] == ["Boards: b", "Boards: a"]


def test_every_piece_of_the_room_is_listed_with_its_wall():
    sheet = room_board_sheet(closet(), hung(*closet()), boards=price_list())
    table = next(block.table for block in sheet.blocks if isinstance(block, TableBlock))
    assert table.head[:2] == ("On", "Piece")
    assert [row[:2] for row in table.rows][:3] == [
        ("north wall", "1a"),
        ("north wall", "1b"),
        ("east wall", "2a"),
    ]
    assert len(table.rows) == 8


def test_what_a_room_takes_is_listed_once_for_all_its_walls():
    def screw(place: str, many: float) -> Need:
        return replace(screws(), place=place, quantity=many)

    needs = (
        screw("bedroom/north", 60),
        screw("bedroom, north wall", 30),
        screw("bedroom", 6),
        screw("hall", 99),
    )
    (sheet,) = room_board_sheets((one_surface(),), one_layout(), boards=price_list(), needs=needs)
    table = [block.table for block in sheet.blocks if isinstance(block, TableBlock)][-1]
    assert table.rows == (("screws, 1-1/4 in", "96.0 screws", "hang"),)
