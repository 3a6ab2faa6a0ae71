"""The answers of a class as dots."""

import pytest

from setday.drawing import dot_plot, dot_table

ANSWERS = [("Al", 176.0), ("Bo", 176.0), ("Cy", 160.0), ("Di", 22000.0)]


def test_every_answer_is_a_dot_and_equal_ones_stand_on_each_other():
    picture = dot_plot(ANSWERS, right=176.0, unit="ft2")
    assert picture.count("<circle") == 4
    heights = {part.split('"')[0] for part in picture.split(' cy="')[1:]}
    assert len(heights) == 2


def test_an_answer_far_off_stands_at_the_edge_and_is_counted():
    assert "1 further off" in dot_plot(ANSWERS, right=176.0, unit="ft2")
    assert "further off" not in dot_plot(ANSWERS[:3], right=176.0, unit="ft2")


def test_the_table_says_who_is_right_and_how_far_the_others_are_off():
    rows = {row[0]: row[2] for row in dot_table(ANSWERS, right=176.0, unit="ft2").rows}
    assert rows == {"Al": "right", "Bo": "right", "Cy": "-16", "Di": "+21,824"}


@pytest.mark.parametrize("answers", [[("Al", 1.0)], [("Al", 0.0), ("Bo", 5.0)]])
def test_few_answers_and_small_numbers_are_drawn(answers):
    assert dot_plot(answers, right=5.0, unit="boards").startswith("<svg")
