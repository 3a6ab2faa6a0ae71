"""Where current goes: at every join as much comes in as goes out (Kirchhoff's current law)."""

import pytest

from setday.switching import FEED, PANEL, Point, flows_at, try_hookup
from tests.switching.circuits import STANDARD, standard, touching

HOT = Point(box=PANEL, holder=FEED, part="black")


@pytest.mark.parametrize("name", STANDARD)
def test_at_every_join_as_much_comes_in_as_goes_out(name):
    trial = try_hookup(standard(name))
    for row in range(len(trial.positions)):
        amps = flows_at(trial, row)
        for join in trial.hookup.joins:
            alone = {b for d in trial.hookup.devices for pair in d.tabs for b in pair} & set(join.points)
            if not alone:  # a tab carries current to points outside the join
                assert sum(amps.get(point, 0.0) for point in join.points) == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("name", STANDARD)
def test_what_leaves_the_panel_is_what_the_breaker_carries(name):
    trial = try_hookup(standard(name))
    for row, tried in enumerate(trial.positions):
        assert flows_at(trial, row)[HOT] == pytest.approx(tried.breaker_a, abs=1e-6)


def test_current_goes_into_the_lamp_at_one_end_and_out_of_it_at_the_other():
    trial = try_hookup(standard("single-pole-feed-at-switch"))
    amps = flows_at(trial, 1)
    lamp = trial.hookup.device("L1")
    assert amps[lamp.point("brass")] > 0.4
    assert amps[lamp.point("silver")] == pytest.approx(-amps[lamp.point("brass")])


def test_a_short_is_seen_where_it_is():
    trial = try_hookup(touching(standard("single-pole-feed-at-switch"), "S1 brass 2", "feed white"))
    amps = flows_at(trial, 1)
    switch = trial.hookup.device("S1")
    assert amps[switch.point("brass 1")] > 100
