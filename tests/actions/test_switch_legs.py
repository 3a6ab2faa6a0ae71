"""Switched groups that cannot be planned are said, each with what would help."""

from time import perf_counter

import pytest

from setday.actions import demo_text, open_house
from setday.actions.cable.figured import figure_cable
from setday.actions.switching.switch_legs import NO_PLAN


@pytest.fixture(scope="module")
def shut():
    text = demo_text("house") + "\nwiring: {closed walls: [hall south wall, hall north wall]}\n"
    return figure_cable(open_house(text, name="demo"), clock=perf_counter)


def test_switches_that_no_cable_reaches_are_found_with_what_would_help(shut):
    found = [each for each in shut.figure.findings if each.rule == NO_PLAN]
    assert found
    assert all("No cable can go from" in each.found and "closed walls" in each.do for each in found)


def test_no_hookup_is_planned_over_a_way_that_is_not_there(shut):
    planned = {each.group.name for each in shut.hookups}
    cut_off = {each.about for each in shut.figure.findings if each.rule == NO_PLAN}
    assert not {about for about in cut_off if about.split("'")[1] in planned}
    assert all(leg.length_ft < 1000 for each in shut.hookups for leg in each.hookup.cables)


def test_no_order_is_told_of_boxes_that_are_not_all_reached(shut):
    circuits = {each.name for each in shut.figure.plan.circuits}
    assert set(shut.figure.orders) < circuits
    assert all(order.length.feet < 1000 for order in shut.figure.orders.values())
