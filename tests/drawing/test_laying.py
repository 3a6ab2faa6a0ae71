"""A wall that boards are laid on: places to touch stand about the members the next board reaches."""

import re

import pytest

from setday.actions.houses import demo_text, open_house
from setday.boards import Board, board_problem, board_rules
from setday.drawing import laying_picture
from setday.learning import LaidBoard, lay, wall_to_lay

BOARD = Board(key="b", kind="regular-1/2", width=54 * 64, length=96 * 64, price_cents=1)


@pytest.fixture(scope="module")
def wall():
    opened = open_house(demo_text("shed"), name="shed.yaml")
    rules = board_rules(opened.local)
    prepared = board_problem(opened.built(), choices=opened.boards, rules=rules, boards=(BOARD,))
    return wall_to_lay(prepared, "workroom/north", board=BOARD)


def touched(picture):
    return [(int(row), int(end)) for row, end in re.findall(r'data-row="(\d+)" data-end="(\d+)"', picture)]


def test_what_can_be_touched_is_what_can_be_laid_row_by_row_until_the_wall_is_covered(wall):
    laid = []
    while places := touched(laying_picture(wall, lay(wall, laid))):
        for row, end in places:
            lay(wall, [*laid, LaidBoard(row=row, end=end)])
        row, end = places[-1]
        laid.append(LaidBoard(row=row, end=end))
    assert lay(wall, laid).complete


def test_a_drawing_that_is_only_looked_at_takes_no_finger(wall):
    assert touched(laying_picture(wall, lay(wall, []), touch=False)) == []


def test_each_board_that_lies_has_its_number(wall):
    done = lay(wall, [LaidBoard(row=0, end=wall.snaps[4]), LaidBoard(row=0, end=wall.snaps[8])])
    picture = laying_picture(wall, done, touch=False)
    assert "2 boards taken; 2 pieces lie." in picture
