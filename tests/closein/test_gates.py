"""Two sides of a wall, a house that changes, and laws that hold for any marks in any order."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.closein import (
    GateRefusal,
    GateState,
    ItemState,
    WhyAstray,
    ask,
    check_off,
    close,
    confirm,
    gates_of,
    overrule,
    refuse,
    reopen,
    take_back,
    withdraw,
)
from tests.closein.sketches import (
    ANA,
    HELPER,
    READER,
    TEACHER,
    built,
    entry,
    gate,
    item,
    later,
    partition_faces,
    point,
)

HOUSE = built()
HERE, THERE = partition_faces(HOUSE)


def seen(items, surface, key, marks=(), at=0):
    return confirm(
        gate(HOUSE, items, list(marks), surface), key, entry=entry(), by=TEACHER, at=later(at), now=later(600)
    )


def test_the_two_sides_of_a_partition_close_the_same_wall():
    asked = ask(HOUSE, ())
    assert (asked.other_sides[HERE], asked.other_sides[THERE]) == ((THERE,), (HERE,))


def test_an_outside_wall_has_no_other_side():
    asked = ask(HOUSE, ())
    alone = [surface for surface, others in asked.other_sides.items() if not others]
    assert len(alone) == len(HOUSE.surfaces) - 2


def test_a_run_that_both_sides_ask_for_is_checked_off_once():
    items = [item(HERE, "run here", thing="run 1"), item(THERE, "run there", thing="run 1")]
    items = [items[0], item(THERE, "run there", thing="run 1")]
    labels = {"label": "run 1 is in"}
    items = [type(each)(surface=each.surface, key=each.key, thing=each.thing, **labels) for each in items]
    marks = [seen(items, HERE, "run here")]
    assert gate(HOUSE, items, marks, THERE).state is GateState.READY


def test_what_belongs_to_the_other_side_and_stands_in_the_wall_is_waited_for():
    items = [item(HERE, "box", thing="box", spot=point("2'"))]
    assert gate(HOUSE, items, [], THERE).state is GateState.NOT_READY
    assert [stand.item.key for stand in gate(HOUSE, items, [], THERE).missing] == ["box"]
    assert gate(HOUSE, items, [seen(items, HERE, "box")], THERE).state is GateState.READY


def test_the_instructor_may_set_that_each_side_waits_for_its_own_only():
    items = [item(HERE, "box", thing="box", spot=point("2'"))]
    assert gate(HOUSE, items, [], THERE, other_side=False).state is GateState.READY


def test_what_is_on_the_face_of_the_studs_is_waited_for_on_its_own_side_only():
    items = [item(HERE, "plate", spot=point("2'"))]
    assert gate(HOUSE, items, [], THERE).state is GateState.READY


def test_a_thing_of_the_other_side_is_checked_off_from_either():
    items = [item(HERE, "box", thing="box", spot=point("2'"))]
    mark = seen(items, THERE, "box")
    assert mark.surface == HERE
    assert gate(HOUSE, items, [mark], HERE).state is GateState.READY


def test_an_overruling_holds_for_the_side_it_was_given_for():
    items = [item(HERE, "box", thing="box", spot=point("2'"))]
    mark = overrule(
        gate(HOUSE, items, [], THERE),
        "box",
        entry=entry(),
        by=TEACHER,
        at=later(0),
        now=later(1),
        words="from there",
    )
    assert gate(HOUSE, items, [mark], THERE).state is GateState.OVERRULED
    assert gate(HOUSE, items, [mark], HERE).state is GateState.NOT_READY


def test_closing_one_side_leaves_the_other_open():
    mark = close(gate(HOUSE, [], [], HERE), entry=entry(), by=TEACHER, at=later(0), now=later(1))
    gates = gates_of(ask(HOUSE, ()), [mark])
    assert (gates[HERE].state, gates[THERE].state) == (GateState.CLOSED, GateState.READY)
    assert (gates.may_close(HERE), gates.may_close(THERE), gates.may_close("no such wall")) == (
        False,
        True,
        False,
    )


def test_what_the_house_asks_for_no_longer_is_told_and_kept():
    items = [item(HERE, "box")]
    marks = [seen(items, HERE, "box")]
    astray = gates_of(ask(HOUSE, ()), marks).astray
    assert [(each.mark, each.why) for each in astray] == [(marks[0], WhyAstray.GONE)]
    assert gate(HOUSE, items, marks, HERE).stand("box").state is ItemState.CONFIRMED


def test_another_thing_under_the_same_key_is_open():
    items = [item(HERE, "box")]
    marks = [seen(items, HERE, "box")]
    other = [type(items[0])(surface=HERE, key="box", label="box is in, and its cable")]
    gates = gates_of(ask(HOUSE, other), marks)
    assert gates[HERE].stand("box").state is ItemState.OPEN
    assert [each.why for each in gates.astray] == [WhyAstray.CHANGED]


def test_marks_of_a_surface_that_is_gone_are_told():
    items = [item(HERE, "box")]
    mark = seen(items, HERE, "box")
    gone = type(mark)(**{name: getattr(mark, name) for name in mark.__slots__} | {"surface": "old/north"})
    assert [each.why for each in gates_of(ask(HOUSE, items), [gone]).astray] == [WhyAstray.NO_SURFACE]


def test_items_of_a_surface_the_house_does_not_have_are_left_out():
    assert ask(HOUSE, [item("old/north", "box")]).all_items == ()


MOVES = (check_off, confirm, refuse, overrule, withdraw, take_back, close, reopen)
WITH_WORDS = {refuse, overrule, reopen}
ITEMS = [
    item(HERE, "box", thing="box", spot=point("2'")),
    item(HERE, "plate"),
    item(THERE, "outlet", thing="outlet", spot=point("3'")),
]
STEPS = st.lists(
    st.tuples(
        st.sampled_from(MOVES),
        st.sampled_from((HERE, THERE)),
        st.sampled_from(("box", "plate", "outlet")),
        st.sampled_from((ANA, HELPER, TEACHER, READER)),
        st.integers(min_value=0, max_value=30),
    ),
    max_size=30,
)


def played(steps):
    """Play moves one after another; those refused leave no mark."""
    marks = []
    for what, surface, key, by, at in steps:
        now = gate(HOUSE, ITEMS, marks, surface)
        names = () if what in {close, reopen} else (key,)
        words = {"words": "a reason"} if what in WITH_WORDS else {}
        try:
            marks.append(what(now, *names, entry=entry(), by=by, at=later(at), now=later(20), **words))
        except GateRefusal:
            continue
        yield what, by, at, now, gate(HOUSE, ITEMS, marks, surface)


@settings(max_examples=60, deadline=None)
@given(STEPS)
def test_nothing_is_closed_over_what_is_neither_confirmed_nor_overruled(steps):
    for what, _, _, before, after in played(steps):
        if what is close:
            assert before.state.may_close
            assert all(stand.settled for stand in (*before.items, *before.behind))
            assert after.state is GateState.CLOSED


@settings(max_examples=60, deadline=None)
@given(STEPS)
def test_only_the_instructor_settles_anything_and_nothing_happens_in_the_future(steps):
    for what, by, at, _, _ in played(steps):
        assert at <= 20
        assert by is not READER
        if what in {confirm, overrule, close, reopen, refuse, withdraw}:
            assert by is TEACHER


@settings(max_examples=40, deadline=None)
@given(STEPS)
def test_no_mark_is_ever_lost(steps):
    last = None
    for _, _, _, before, after in played(steps):
        count = {stand.item.key: len(stand.marks) for stand in (*after.items, *after.behind)}
        assert all(count[s.item.key] >= len(s.marks) for s in (*before.items, *before.behind))
        last = after
    assert last is None or last.surface in {HERE, THERE}


@pytest.mark.parametrize("state", list(GateState))
def test_only_a_ready_or_overruled_gate_lets_boards_on(state):
    assert state.may_close == (state in {GateState.READY, GateState.OVERRULED})
