"""Rows made by rounding hold for all whole students, tried one by one, and say more than fractions did."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.timetable.classwork.rounding import wholes


@given(st.integers(1, 400), st.sets(st.sampled_from((40, 45, 50, 60, 90)), min_size=1, max_size=3))
def test_whatever_whole_students_do_the_work_count_at_least_as_much(work, minutes):
    lengths = sorted(minutes)
    for heads in product(*(range(-(-work // m) + 1) for m in lengths)):
        if sum(m * many for m, many in zip(lengths, heads, strict=True)) >= work:
            for weights, least in wholes(work, lengths):
                assert sum(weights[m] * n for m, n in zip(lengths, heads, strict=True)) >= least - 1e-9


@pytest.mark.parametrize(
    ("work", "minutes", "row"),
    [
        (61, (60,), ({60: 1.0}, 2)),  # a minute too much for one
        (75, (60, 30), ({60: 1.0, 30: 1.0}, 2)),  # two at least, short periods or long
        (100, (60, 30), ({60: 1.0, 30: 0.75}, 2)),  # a long and a short one are not enough
    ],
)
def test_whole_students_as_reckoned_by_hand(work, minutes, row):
    assert row in wholes(work, minutes)
