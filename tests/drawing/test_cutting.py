from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.boards import Piece, Rows
from setday.drawing import (
    LETTER,
    cutting_diagram,
    cutting_table,
    house_boards_overview,
    overview_height,
    shaped_pieces,
)
from setday.drawing.cutting import corners_on_board
from tests.drawing.laid import one_layout, one_surface, price_list
from tests.drawing.reading import collisions, outside_paper, root_of, size_of, texts_of

SIZES = st.integers(64, 9000)


def area(corners) -> float:
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


@given(SIZES, SIZES, SIZES, SIZES, st.sampled_from(Rows), st.booleans())
def test_a_piece_lies_where_its_board_gives_it(w, h, x, y, rows, flipped):
    """A right triangle keeps its area and is never mirrored, which would put its face to the wall."""
    triangle = ((x, y), (x + w, y), (x, y + h))
    box = {"x": x, "y": y, "w": w, "h": h}
    at = {"row": 0, "board": 1, "board_x": 100, "board_y": 7}
    piece = Piece(surface="s", **box, **at, flipped=flipped, outline=triangle)
    corners = corners_on_board(piece, rows)
    assert area(corners) == pytest.approx(w * h / 2)
    long, across = (w, h) if rows is Rows.ALONG else (h, w)
    assert (min(px for px, _ in corners), min(py for _, py in corners)) == (100, 7)
    assert (max(px for px, _ in corners), max(py for _, py in corners)) == (100 + long, 7 + across)


def test_the_cuts_of_a_board_add_up_to_its_length():
    """38 in, 54 in and the rest of 4 in make the 8-ft board."""
    texts = texts_of(cutting_diagram(one_layout(), number=2, boards=price_list(), surfaces=[one_surface()]))
    assert {"3'-2\"", "4'-6\"", '4"', "8'-0\""} <= set(texts)


def test_pieces_name_their_size_and_their_wall():
    texts = texts_of(cutting_diagram(one_layout(), number=2, boards=price_list(), surfaces=[one_surface()]))
    assert texts.count("bedroom, north wall") == 2
    assert {"2a", "2b"} <= set(texts)


def test_only_the_pieces_of_that_board_are_drawn():
    for number, count in ((1, 1), (2, 2), (3, 1)):
        svg = cutting_diagram(one_layout(), number=number, boards=price_list(), surfaces=[one_surface()])
        assert sum(e.get("data-kind") == "piece" for e in root_of(svg).iter()) == count


def test_the_cut_list_has_every_piece_of_every_board():
    rows = cutting_table(one_layout(), boards=price_list(), surfaces=[one_surface()]).rows
    assert [row[0] for row in rows] == ["1", "2a", "2b", "3"]
    assert [row[4] for row in rows] == ['0"', '0"', "3'-2\"", '0"']


def test_an_overview_shows_every_surface_with_its_numbers():
    surfaces = [
        one_surface(),
        replace(one_surface(), id="bedroom/east", label="bedroom, east wall", voids=()),
    ]
    svg = house_boards_overview(surfaces, one_layout(), boards=price_list())
    shown = [e.get("data-id") for e in root_of(svg).iter() if e.get("data-kind") == "surface"]
    assert shown == ["bedroom/north", "bedroom/east"]
    assert {"1", "2a", "2b", "3", "bedroom, east wall"} <= set(texts_of(svg))


@pytest.mark.parametrize("count", [1, 3, 7, 20])
def test_the_height_of_an_overview_is_known_before_it_is_drawn(count):
    surfaces = [one_surface()] * count
    drawn = size_of(house_boards_overview(surfaces, one_layout(), boards=price_list()))[1]
    assert drawn <= overview_height(surfaces, paper=LETTER) <= drawn + 40


@pytest.mark.parametrize(
    ("number", "figures"),
    [
        # 9'-4" long over the window from 4'-4" to 7'-8", 2'-8" up.
        (1, {"4'-4\"", "7'-8\"", "9'-4\"", "2'-8\"", "4'-0\""}),
        # 8 ft long under it: the sill is 2'-10" up.
        (3, {"4'-4\"", "7'-8\"", "8'-0\"", "2'-10\"", "4'-0\""}),
    ],
)
def test_every_corner_of_a_cut_out_has_its_place_on_the_piece(number, figures):
    (svg,) = shaped_pieces(one_layout(), number=number, surfaces=[one_surface()], width=345)
    texts = [text for text in texts_of(svg) if text.endswith('"') and "," not in text]
    assert set(texts) == figures | {'0"'}
    assert collisions(svg) == []
    assert outside_paper(svg) == []


def test_a_shaped_piece_is_drawn_beneath_its_board_and_the_side_it_is_seen_from_is_said():
    svg = cutting_diagram(one_layout(), number=1, boards=price_list(), surfaces=[one_surface()])
    assert sum(e.get("data-kind") == "detail" for e in root_of(svg).iter()) == 1
    assert any("seen from the room" in text for text in texts_of(svg))
    assert collisions(svg) == []
    assert outside_paper(svg) == []


def test_a_slope_has_its_height_at_both_ends():
    """A piece of 4 ft under a slope from 5'-0 1/2" down to 2'-3"."""
    corners = ((0, 0), (48 * 64, 0), (48 * 64, 27 * 64), (0, round(60.5 * 64)))
    wall = replace(one_surface(), outline=corners, voids=())
    piece = replace(one_layout().pieces[0], x=0, y=0, w=48 * 64, h=round(60.5 * 64), outline=corners)
    layout = replace(one_layout(), pieces=(piece,))
    (svg,) = shaped_pieces(layout, number=1, surfaces=[wall], width=345)
    assert {"5'-0 1/2\"", "2'-3\"", "4'-0\""} <= set(texts_of(svg))


def test_a_cut_out_of_a_piece_turned_end_for_end_lies_turned_on_its_board():
    """A piece of 96 by 48, an opening from 10 to 30 and 0 to 20: turned, from 66 to 86 and 28 to 48."""
    piece = Piece(surface="s", row=0, x=0, y=0, w=96, h=48, board=1, board_x=0, board_y=0, flipped=True)
    corners = ((10, 0), (30, 0), (30, 20), (10, 20))
    assert set(corners_on_board(piece, Rows.ALONG, corners)) == {(86, 48), (66, 48), (66, 28), (86, 28)}
