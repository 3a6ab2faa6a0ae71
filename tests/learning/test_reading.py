"""Answers as students write them, and what is said to those that cannot be read."""

import pytest

from setday.errors import MeasureError
from setday.learning import WrongUnit, read_answer
from setday.learning.sums import worked_again

READ = [
    ("384", "ft2", 384.0),
    ("1,080.5 sq ft", "ft2", 1080.5),
    ("384 ft²", "ft2", 384.0),
    ("14'-6\"", "ft", 14.5),
    ("174 in", "ft", 14.5),
    ("14'-6\"", "in", 174.0),
    ("12 1/2", "ft", 12.5),
    ("12 boards", "boards", 12.0),
    ("1 board", "boards", 1.0),
]


@pytest.mark.parametrize(("text", "unit", "value"), READ)
def test_an_answer_is_read_in_the_unit_that_was_asked(text, unit, value):
    assert read_answer(text, unit=unit).value == pytest.approx(value)


NOT_NUMBERS = ["twelve-ish", "", "12ish", "about 12", "12 or 13", "1/0", "12,5,3", "9" * 60, "½½", "--3"]


@pytest.mark.parametrize("text", NOT_NUMBERS)
def test_what_is_no_number_is_refused_with_a_sentence(text):
    with pytest.raises(MeasureError) as refused:
        read_answer(text, unit="boards")
    assert refused.value.do


def test_twelve_ish_is_told_to_be_written_in_digits():
    with pytest.raises(MeasureError, match="twelve-ish") as refused:
        read_answer("twelve-ish", unit="boards")
    assert "12" in refused.value.do


OFFERS = [
    ("576 in2", "ft2", "4 ft2"),
    ("12 boards", "ft2", "12 ft2"),
    ("14'-6\"", "ft2", ""),
    ("3 yd2", "ft2", "27 ft2"),
]


@pytest.mark.parametrize(("text", "unit", "offer"), OFFERS)
def test_a_wrong_unit_is_told_and_the_right_reading_offered(text, unit, offer):
    with pytest.raises(WrongUnit, match=unit) as refused:
        read_answer(text, unit=unit)
    assert refused.value.offer == offer


@pytest.mark.parametrize("text", ["102", "8.5"])
def test_a_measure_without_a_unit_is_asked_for_one(text):
    with pytest.raises(MeasureError, match="no unit"):
        read_answer(text, unit="in")


SUMS = [
    ("14'-6\" x 8' - 20", False, 96.0),
    ('48" x 48" / 144', False, 16.0),
    ("(2 + 3) * 4", False, 20.0),
    ("4 × 8 ÷ 2", False, 16.0),
    ("12' + 6\"", True, 150.0),
    ("1,000 - 1", False, 999.0),
    ("the north wall", False, None),
    ("4 x", False, None),
    ("(4", False, None),
    ("4 / 0", False, None),
    ("(" * 50, False, None),
]


@pytest.mark.parametrize(("text", "inches", "value"), SUMS)
def test_the_arithmetic_on_a_line_is_done_again(text, inches, value):
    assert worked_again(text, inches=inches) == value
