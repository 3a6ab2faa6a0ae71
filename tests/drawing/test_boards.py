"""Boards as drawn, against the layout and against the verifier's own count."""

from dataclasses import replace

import pytest

from setday.boards import BoardProblem, BoardRules, Layout, Piece, Rows, SurfaceRows, Void, totals
from setday.drawing import board_layout, piece_marks, piece_table
from setday.drawing.board_joints import JointKind, joints, widths_of
from tests.drawing.laid import one_layout, one_surface, price_list, sixty
from tests.drawing.reading import root_of, texts_of


def found_joints(surface=None, layout=None):
    surface, layout = surface or one_surface(), layout or one_layout()
    rows = layout.surfaces[0].rows
    return joints(surface, layout.pieces, rows=rows, widths=widths_of(layout, price_list()))


def feet(kind: JointKind, **given) -> float:
    return sum(joint.length for joint in found_joints(**given) if joint.kind is kind) / 768


def test_every_piece_of_the_layout_is_drawn():
    root = root_of(board_layout(one_surface(), one_layout(), boards=price_list()))
    drawn = [e.get("data-board") for e in root.iter() if e.get("data-kind") == "piece"]
    assert drawn == [str(piece.board) for piece in one_layout().pieces]


def test_pieces_of_another_surface_are_not_drawn():
    layout = one_layout()
    elsewhere = replace(layout.pieces[0], surface="bedroom/east")
    svg = board_layout(
        one_surface(), replace(layout, pieces=(elsewhere, *layout.pieces[1:])), boards=price_list()
    )
    assert sum(e.get("data-kind") == "piece" for e in root_of(svg).iter()) == 3


def test_marks_and_sizes_stand_on_the_pieces():
    texts = texts_of(board_layout(one_surface(), one_layout(), boards=price_list()))
    assert {"1", "2a", "2b", "3"} <= set(texts)
    assert {"9'-4\" x 4'-0\"", "3'-2\" x 4'-0\"", "8'-0\" x 4'-0\"", "4'-6\" x 4'-0\""} <= set(texts)


def test_a_board_that_gives_one_piece_is_marked_with_its_number_only():
    marks = piece_marks(one_layout())
    assert [marks[piece] for piece in one_layout().pieces] == ["1", "2a", "3", "2b"]


def test_butt_joints_are_as_long_as_the_verifier_counts_them():
    problem = BoardProblem(surfaces=(one_surface(),), boards=price_list(), rules=BoardRules())
    assert feet(JointKind.BUTT) * 768 == totals(problem, one_layout()).butt_joint


def test_the_joint_between_rows_stops_at_the_window():
    """The row joint is 150 in long; the window of 40 in stands across it."""
    assert feet(JointKind.TAPERED) * 12 == 110


def test_a_butt_joint_over_an_opening_is_only_as_long_as_the_board_there():
    """The window's head is at 80 in, so 16 in of the upper row are left above it."""
    layout = one_layout()
    upper = (replace(layout.pieces[0], w=sixty(64)), replace(layout.pieces[1], x=sixty(64), w=sixty(86)))
    moved = replace(layout, pieces=(*upper, *layout.pieces[2:]))
    assert feet(JointKind.BUTT, layout=moved) * 12 == 16 + 48


def test_a_ripped_edge_between_rows_is_a_cut_edge():
    layout = one_layout()
    ripped = replace(layout.pieces[2], board_y=sixty(10), h=sixty(30), y=sixty(18))
    assert (
        feet(JointKind.CUT, layout=replace(layout, pieces=(*layout.pieces[:2], ripped, layout.pieces[3]))) > 0
    )


def test_a_ripped_piece_with_its_factory_edge_makes_a_tapered_joint():
    layout = one_layout()
    ripped = replace(layout.pieces[2], board_y=0, h=sixty(30), y=sixty(18))
    changed = replace(layout, pieces=(*layout.pieces[:2], ripped, layout.pieces[3]))
    assert feet(JointKind.CUT, layout=changed) == 0


def test_rows_up_the_surface_have_level_butt_joints():
    surface = replace(
        one_surface(), outline=((0, 0), (sixty(96), 0), (sixty(96), sixty(150)), (0, sixty(150))), voids=()
    )
    pieces = tuple(
        Piece(
            surface=surface.id, row=row, x=sixty(48 * row), y=sixty(y), w=sixty(48), h=sixty(h), board=board,
            board_x=0, board_y=0,
        )
        for row, y, h, board in ((0, 0, 96, 2), (0, 96, 54, 3), (1, 0, 144, 1), (1, 144, 6, 3))
    )  # fmt: skip
    divided = SurfaceRows(surface=surface.id, rows=Rows.ACROSS, edges=(0, sixty(48), sixty(96)))
    layout = Layout(surfaces=(divided,), boards=one_layout().boards, pieces=pieces)
    assert feet(JointKind.BUTT, surface=surface, layout=layout) == 8
    assert feet(JointKind.TAPERED, surface=surface, layout=layout) * 12 == 150


def test_a_joint_under_a_slope_ends_at_the_slope():
    gable = ((0, 0), (sixty(150), 0), (sixty(150), sixty(48)), (sixty(112), sixty(90)), (0, sixty(48)))
    surface = replace(one_surface(), outline=gable, voids=())
    upper = [
        joint
        for joint in found_joints(surface=surface)
        if joint.kind is JointKind.BUTT and joint.x1 == sixty(112)
    ]
    assert max(joint.y2 for joint in upper) == pytest.approx(sixty(90))


def test_rules_that_gave_way_are_marked():
    texts = texts_of(board_layout(one_surface(), one_layout(), boards=price_list()))
    assert any(text.startswith("\N{BLACK UP-POINTING TRIANGLE} Rule that gave way") for text in texts)


def test_line_styles_are_explained():
    texts = texts_of(board_layout(one_surface(), one_layout(), boards=price_list()))
    assert {"butt joint", "tapered joint"} <= set(texts)
    assert "cut edge" not in texts


def test_an_opening_whose_name_finds_no_room_is_still_drawn():
    narrow = replace(
        one_surface(), voids=(Void(x=sixty(60), y=sixty(60), w=sixty(2), h=sixty(2), name="flue"),)
    )
    assert board_layout(narrow, one_layout(), boards=price_list())


def test_the_table_has_every_piece_in_hanging_order():
    rows = piece_table(one_surface(), one_layout()).rows
    assert [row[0] for row in rows] == ["1", "2a", "3", "2b"]
    assert rows[3] == ("2b", "board-regular-1/2-48x96", "1", "4'-6\" x 4'-0\"", "8'-0\"", '0"', "")
    assert rows[0][-1] == (
        "north window cut out 4'-4\" from the left, 3'-4\" wide, 2'-8\" high from the lower edge"
    )


def test_an_opening_has_its_place_on_the_surface():
    """The window stands 4'-4" from the left, is 3'-4" wide, 2'-10" up and 3'-10" high."""
    texts = texts_of(board_layout(one_surface(), one_layout(), boards=price_list()))
    assert {"4'-4\"", "3'-4\"", "2'-10\"", "3'-10\""} <= set(texts)
