"""Boards laid by hand: they snap to the framing, are counted, and the verifier of boards judges them."""

import pytest

from setday.actions.houses import demo_text, open_house
from setday.boards import Board, board_problem, board_rules
from setday.learning import CannotLay, LaidBoard, lay, wall_to_lay

IN = 64
BOARD = Board(key="b", kind="regular-1/2", width=54 * IN, length=96 * IN, price_cents=1)


@pytest.fixture(scope="module")
def prepared():
    opened = open_house(demo_text("house"), name="house.yaml")
    rules = board_rules(opened.local)
    return board_problem(opened.built(), choices=opened.boards, rules=rules, boards=(BOARD,))


@pytest.fixture(scope="module")
def wall(prepared):
    return wall_to_lay(prepared, "living/north", board=BOARD)


def covered(wall, *, shift):
    """Lay every row, every other one beginning with a shorter piece."""
    laid = []
    for row in range(wall.rows):
        at = 0
        while at < wall.surface.width:
            reach = wall.board.length - (shift if row % 2 and at == 0 else 0)
            at = max(x for x in wall.snaps if x <= at + reach)
            laid.append(LaidBoard(row=row, end=at))
    return laid


def test_rows_go_from_the_top_down_and_the_lowest_is_cut(wall):
    assert wall.edges[-1] - wall.edges[-2] == BOARD.width
    assert wall.edges[1] - wall.edges[0] < BOARD.width


def test_an_end_snaps_to_the_nearest_member(wall):
    for x in wall.snaps:
        assert wall.snapped(x + 1) == x
    assert wall.snaps[-1] == wall.surface.width


def test_a_covered_wall_has_no_finding_of_missing_or_double_cover(wall):
    done = lay(wall, covered(wall, shift=40 * IN))
    assert done.complete
    assert not [each for each in done.problems if "cover" in each.rule or "cutting" in each.rule]


def test_joints_over_each_other_are_found_by_the_verifier(wall):
    rules = [each.rule for each in lay(wall, covered(wall, shift=0)).problems]
    assert "boards.verify.stagger" in rules


def test_boards_and_waste_add_up(wall):
    done = lay(wall, covered(wall, shift=0))
    area = sum(piece.w * piece.h for piece in done.pieces)
    assert done.boards * BOARD.width * BOARD.length * (1 - done.waste_share) <= area
    assert 0 < done.waste_share < 1


def test_an_offcut_takes_no_new_board(wall):
    short = min(x for x in wall.snaps if x > 30 * IN)
    first = LaidBoard(row=0, end=short)
    again = LaidBoard(row=1, end=short, offcut=True)
    assert lay(wall, [first, again]).boards == 1


REFUSED = [
    ([LaidBoard(row=0, end=7)], "no such place"),
    ([LaidBoard(row=9, end=10816)], "no such place"),
    ([LaidBoard(row=0, end=10816)], "not that long"),
]


@pytest.mark.parametrize(("laid", "said"), REFUSED)
def test_a_piece_that_cannot_lie_is_refused(wall, laid, said):
    with pytest.raises(CannotLay, match=said):
        lay(wall, laid)


def test_no_offcut_is_taken_where_none_is_long_enough(wall):
    with pytest.raises(CannotLay, match="off-cut"):
        lay(wall, [LaidBoard(row=0, end=wall.snaps[2], offcut=True)])


def test_a_wall_under_a_slope_is_not_laid_in_straight_rows(prepared):
    assert wall_to_lay(prepared, "living/east", board=BOARD) is None
