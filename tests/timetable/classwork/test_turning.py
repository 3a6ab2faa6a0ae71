"""Played from the end, a list still keeps every rule of the class; turned twice, all is as it was."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.timetable.classwork import Fixed, verify
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import given_of
from setday.timetable.classwork.policy import play
from setday.timetable.classwork.turning import turned


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 10_000))
def test_a_list_played_from_the_end_keeps_every_rule_read_from_the_beginning(seed):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    periods = len(class_.periods)
    a, g = turned(arrays_of(class_), given_of(class_, Fixed(), None), periods)
    order = np.random.default_rng(seed).permutation(len(class_.tasks)).astype(np.int32)
    spans, on = np.empty((len(order), 2), np.int32), np.empty(g.present.shape, np.int32)
    finish = play(order, a.tasks[:, 0].copy(), 0, a, g, work_of(class_), spans, on)[0]
    assert finish <= periods
    keys = [task.key for task in class_.tasks]
    rows = [tuple(keys[n] if n >= 0 else "" for n in row) for row in on[::-1].tolist()]
    assert verify(class_, rows) == []


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 10_000), st.integers(5, 48))
def test_turned_twice_who_is_there_and_when_who_may_begin_are_as_they_were(seed, finish):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    a, g = arrays_of(class_), given_of(class_, Fixed(), None)
    again, given_again = turned(*turned(a, g, finish), finish)
    assert (given_again.present == g.present[:finish]).all()
    assert (again.open_in == a.open_in[:, :finish]).all()
    assert (again.waiting == a.waiting).all()
    assert (again.ready_from == np.minimum(a.ready_from[:, :finish], finish)).all()
