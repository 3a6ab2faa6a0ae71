"""Labor figures against the published rows, and the factor a class learns from its log."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.timetable.tasks import (
    Spent,
    capability,
    delay_factor,
    duration_days,
    learned_factors,
    man_days,
)


@pytest.mark.parametrize(
    ("figure", "published"),
    [
        # NAVEDTRA 14045 ch. 2 quoting P-405: 16,000 ft2 at 33 man-hours per 1,000 ft2, 8-hour days
        (man_days(16_000, hours_per_1000=33), 66.0),
        # NAVFAC P-405: delay factor 67 / production efficiency (formula from memory)
        (delay_factor(67), 1.0),
        (delay_factor(50), 1.34),
        # NAVEDTRA 14233: 10 people, 20 days, 9-hour days, 75 % available
        (capability(10, days=20, hours_per_day=9, available=0.75), 168.75),
        # NAVEDTRA 14045 p. 2-28: 66 man-days, crew of 6, 75 %, 9-hour days
        (duration_days(66, crew=6, available=0.75, hours_per_day=9), 13.04),
    ],
)
def test_labor_figures_are_those_published(figure, published):
    assert figure == pytest.approx(published, abs=0.005)


@pytest.mark.parametrize("percent", [24.9, 100.1])
def test_an_efficiency_nobody_gave_figures_for_is_refused(percent):
    with pytest.raises(ValueError, match="25 to 100"):
        delay_factor(percent)


def test_a_class_that_takes_twice_as_long_is_planned_for_longer():
    factors = learned_factors([Spent(trade="boards", minutes=6000, planned=3000)], trust_minutes=0)
    assert factors["boards"].factor == 2.0


def test_a_trade_that_is_not_in_the_log_has_no_factor():
    assert learned_factors([], trust_minutes=600) == {}


@given(st.integers(0, 10_000), st.integers(0, 10_000))
def test_a_short_log_moves_the_factor_towards_what_it_says_and_no_further(spent, planned):
    factor = learned_factors([Spent(trade="a", minutes=spent, planned=planned)], trust_minutes=600)[
        "a"
    ].factor
    said = spent / planned if planned else float("inf") if spent else 1.0
    assert min(1.0, said) <= factor <= max(1.0, said)
