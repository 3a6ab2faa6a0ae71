"""Hookups drawn by hand, step by step, and stages built piece by piece."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.findings import Severity
from setday.switching import (
    BARE,
    Box,
    Cable,
    Device,
    DeviceKind,
    Path,
    Point,
    Step,
    Want,
    check,
    drawn,
    parted,
    stage_of,
    step_to_join,
    with_box,
    with_cable,
    with_device,
    with_path,
    with_want,
    without_box,
    without_cable,
    without_device,
    without_path,
    without_want,
)
from tests.switching.circuits import STANDARD, standard

HALL = standard("three-way-light-between")


def at(box, holder, part):
    return Point(box=box, holder=holder, part=part)


FEED, COMMON, TRAVELER = at("near", "feed", "black"), at("near", "S1", "common"), at("near", "N1", "black")
BRASS = at("light", "L1", "brass")


def problems(hookup):
    return [found for found in check(hookup) if found.severity is Severity.PROBLEM]


def steps_for(hookup):
    """Return the steps of a hand that draws a hookup join by join."""
    found = [
        Step(act="join", points=(join.points[0], other)) for join in hookup.joins for other in join.points[1:]
    ]
    return [*found, *(Step(act="mark", cable=cable.name) for cable in hookup.cables if cable.remarked)]


def as_sets(hookup):
    return {frozenset(join.points) for join in hookup.joins}


@pytest.mark.parametrize("name", STANDARD)
def test_every_standard_circuit_can_be_drawn_from_nothing(name):
    hookup = standard(name)
    made = drawn(stage_of(hookup), steps_for(hookup))
    assert as_sets(made) == as_sets(hookup)
    assert made.cables == hookup.cables


@pytest.mark.parametrize("name", STANDARD)
def test_a_stage_tells_nothing_of_how_it_was_joined_or_marked(name):
    stage = stage_of(standard(name))
    assert stage.joins == ()
    assert not [cable for cable in stage.cables if cable.remarked]


def test_joining_two_joins_makes_one_of_them():
    steps = [
        Step(act="join", points=(FEED, COMMON)),
        Step(act="join", points=(TRAVELER, at("near", "S1", "traveler 1"))),
        Step(act="join", points=(COMMON, TRAVELER)),
    ]
    assert as_sets(drawn(HALL, steps)) == {
        frozenset({FEED, COMMON, TRAVELER, at("near", "S1", "traveler 1")})
    }


def test_a_point_taken_out_leaves_the_others_joined_and_never_a_join_of_one():
    three = [Step(act="join", points=(FEED, COMMON)), Step(act="join", points=(FEED, TRAVELER))]
    assert as_sets(drawn(HALL, [*three, Step(act="part", points=(FEED,))])) == {frozenset({COMMON, TRAVELER})}
    assert drawn(HALL, [three[0], Step(act="part", points=(FEED,))]).joins == ()


def test_marking_a_white_twice_takes_the_mark_off():
    mark = Step(act="mark", cable="N2")
    assert [c.remarked for c in drawn(HALL, [mark]).cables if c.name == "N2"] == [("white",)]
    assert drawn(HALL, [mark, mark]).cables == stage_of(HALL).cables


def test_ends_of_different_boxes_do_not_join():
    assert step_to_join(stage_of(HALL), FEED, BRASS) is None
    assert drawn(HALL, [Step(act="join", points=(FEED, BRASS))]).joins == ()


def test_what_is_joined_already_needs_no_step():
    assert step_to_join(HALL, FEED, COMMON) is None
    assert step_to_join(HALL, FEED, FEED) is None


def test_a_join_is_taken_apart_by_any_of_its_points():
    join = next(join for join in HALL.joins if FEED in join.points)
    assert parted(HALL, FEED) == Step(act="part", points=join.points)
    assert parted(stage_of(HALL), FEED) is None


def test_points_and_cables_that_are_gone_are_passed_over():
    gone = at("near", "S9", "common")
    steps = [Step(act="join", points=(FEED, gone)), Step(act="mark", cable="N9"), Step(act="nonsense")]
    assert drawn(HALL, steps) == stage_of(HALL)


ALL_POINTS = [p for box in HALL.boxes for p in HALL.points_in(box.name)]
A_STEP = st.one_of(
    st.builds(
        lambda a, b: Step(act="join", points=(a, b)), st.sampled_from(ALL_POINTS), st.sampled_from(ALL_POINTS)
    ),
    st.builds(lambda a: Step(act="part", points=(a,)), st.sampled_from(ALL_POINTS)),
    st.builds(lambda c: Step(act="mark", cable=c), st.sampled_from(["N1", "N2"])),
    st.just(Step(act="clear")),
)


@given(st.lists(A_STEP, max_size=25))
def test_whatever_a_hand_does_can_be_tried(steps):
    assert problems(drawn(HALL, steps)) == []


# ---- the stage


def test_a_stage_is_put_together_from_its_pieces():
    stage = replace(stage_of(HALL), boxes=HALL.boxes[:1], devices=(), cables=(), wants=(), paths=())
    stage = with_box(stage, Box(name="porch"))
    stage = with_device(stage, Device(name="S1", kind=DeviceKind.SINGLE_POLE, box="near"))
    stage = with_device(stage, Device(name="L1", kind=DeviceKind.LAMP, box="porch"))
    stage = with_cable(stage, Cable(name="N1", kind="14/2", a="near", b="porch", length_ft=9))
    stage = with_path(stage, Path(a="near", b="porch", length_ft=9))
    stage = with_want(stage, Want(load="L1"))
    stage = with_want(stage, Want(load="L1", switches=("S1",)))
    assert problems(stage) == []
    assert [str(want) for want in stage.wants] == ["L1 from S1"], "the later want stands"


def test_a_box_of_a_name_that_is_there_is_changed_in_its_place():
    changed = with_box(HALL, Box(name="light", volume_in3=22))
    assert [box.name for box in changed.boxes] == [box.name for box in HALL.boxes]
    assert changed.box("light").volume_in3 == 22


@pytest.mark.parametrize("name", STANDARD)
def test_whatever_is_taken_off_takes_what_hangs_on_it(name):
    hookup = standard(name)
    left = [without_box(hookup, box.name) for box in hookup.boxes if box.name != hookup.feed.box]
    left += [without_cable(hookup, cable.name) for cable in hookup.cables]
    left += [without_device(hookup, device.name) for device in hookup.devices]
    left += [without_path(hookup, place) for place in range(len(hookup.paths))]
    left += [without_want(hookup, want.load) for want in hookup.wants]
    for each in left:
        assert problems(each) == []
        assert each != hookup


def test_a_switch_taken_off_leaves_the_want_to_the_other_switches():
    assert [want.switches for want in without_device(HALL, "S1").wants] == [("S2",)]


def test_the_grounds_of_a_cable_taken_off_leave_their_join():
    left = without_cable(HALL, "N2")
    ground = next(join for join in left.joins if at("light", "N1", BARE) in join.points)
    assert ground.points == (at("light", "N1", BARE), at("light", "L1", "green"))
