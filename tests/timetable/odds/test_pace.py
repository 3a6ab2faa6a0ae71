"""What is learned from the log: nothing logged is the plan, much logged is itself, little leans on all."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.errors import NoAnswer
from setday.timetable.odds import Logged, learn


def logged(trade, *shares):
    return [Logged(trade=trade, planned=100, actual=100 * share) for share in shares]


def pace(log, trade=""):
    return next(one for one in learn(log, trades=("roof",)) if one.trade == trade)


def test_before_anything_is_logged_the_plan_is_right():
    assert (pace([]).middle, pace([]).own) == (1.0, 0.0)


def test_a_trade_that_has_logged_much_counts_for_itself():
    log = logged("boards", *[1.4, 1.6] * 200) + logged("trim", *[0.9, 1.1] * 200)
    assert pace(log, "boards").middle == pytest.approx(math.sqrt(1.4 * 1.6), rel=0.01)
    assert pace(log, "boards").doubt < 0.05


def test_a_trade_with_nothing_logged_takes_what_all_take_and_is_doubted_most():
    log = logged("boards", 1.4, 1.5) + logged("trim", 1.3, 1.3, 1.2)
    assert pace(log, "roof").middle == pytest.approx(pace(log).middle)
    assert pace(log, "roof").doubt > pace(log, "trim").doubt


def test_the_numbers_of_one_way_random_effects():
    # By hand: both means 0.0 and 0.4 on the logarithmic scale, two tasks each, all alike within:
    # variance within = 4 * 0.0625 / (2 + 4); weights 2 / within each; between by the moments.
    log = logged("a", 1, 1) + logged("b", math.exp(0.4), math.exp(0.4))
    within = 4 * 0.25**2 / 6
    weight = 2 / within
    between = (2 * weight * 0.2**2 - 1) / (2 * weight - weight)
    own = between / (between + within / 2)
    found = pace(log, "b")
    assert found.own == pytest.approx(own)
    assert found.spread == pytest.approx(math.sqrt(within))


@given(st.lists(st.floats(0.3, 3), min_size=1, max_size=9), st.lists(st.floats(0.3, 3), max_size=9))
def test_a_trades_pace_lies_between_its_own_and_that_of_all(own, others):
    log = logged("boards", *own) + logged("trim", *others)
    mine = math.exp(sum(map(math.log, own)) / len(own))
    low, high = sorted((mine, pace(log).middle))
    assert low - 1e-9 <= pace(log, "boards").middle <= high + 1e-9


@given(st.lists(st.floats(0.3, 3), min_size=1, max_size=9))
def test_more_of_the_same_log_makes_it_surer(shares):
    once, thrice = (pace(logged("boards", *shares * n), "boards") for n in (1, 3))
    assert thrice.doubt < once.doubt


def test_the_mean_is_that_of_the_shares_and_the_doubt_drawn_together():
    found = pace(logged("boards", 1.2, 0.9, 1.7, 1.1), "boards")
    chances = (np.arange(100_000) + 0.5) / 100_000
    assert found.quantiles(chances).mean() == pytest.approx(found.mean, rel=0.005)


def test_the_working_shows_how_much_is_the_trades_own():
    working = pace(logged("boards", 1.2, 1.3), "boards").working
    assert [step.label for step in working.steps] == [
        "all trades together",
        "boards, 2 logged",
        "how much boards counts for itself",
        "counted",
    ]
    assert working.steps[-1].value == pytest.approx(working.value)


def test_a_log_of_nothing_done_is_refused_all_at_once():
    with pytest.raises(NoAnswer) as told:
        learn([*logged("boards", 0), Logged(trade="trim", planned=0, actual=5)])
    assert len(str(told.value).splitlines()) == 2
