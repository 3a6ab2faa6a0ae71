from setday.sheets import source_marks, working_lines
from tests.sheets.books import WORKING


def test_the_lines_are_the_steps_in_order():
    assert [line.label for line in working_lines(WORKING)] == ["north wall", "with waste", "sheets"]
    assert working_lines(WORKING)[1].expression == "100.0 ft2 x 1.10"
    assert working_lines(WORKING)[1].result == "110.0 ft2"


def test_a_source_is_marked_once_and_plain_arithmetic_not():
    assert [line.source for line in working_lines(WORKING)] == ["", "[1]", "[1]"]
    assert list(source_marks(WORKING)) == ["[1]"]


def test_a_mark_gives_the_citation_its_certainty_and_its_note():
    assert source_marks(WORKING)["[1]"] == "A handbook of areas, 2020, p. 4 (from memory). Prints differ."
