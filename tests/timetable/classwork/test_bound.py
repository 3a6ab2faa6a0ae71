"""The bound is never passed by any timetable, and is as reckoned by hand where one thing is scarce."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import Fixed, Student, solve
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import given_of
from setday.timetable.classwork.highs import FlowBound
from tests.timetable.classwork.test_solving import after, problem, task


def flow_of(class_):
    return FlowBound(arrays_of(class_), work_of(class_), given_of(class_, Fixed(), None))


@pytest.mark.parametrize(
    ("tasks", "bound"),
    [
        ((task("a", attention=6), task("b", attention=6)), 2),  # one pair of eyes
        ((task("a", work=240, crew_most=1), task("b", work=240, crew_most=1)), 4),
        ((task("a", work=480), task("b", work=480)), 8),  # 16 student-periods, two students
        ((task("a", attention=10), after("b", "a", days=4), task("c", attention=10)), 5),
        ((task("a", begin=3), task("b", begin=3)), 5),  # 4 student-periods from period 3 on
    ],
)
def test_what_is_scarce_bounds_the_finish_as_reckoned_by_hand(tasks, bound):
    assert flow_of(problem(*tasks)).quick(8) == bound


def test_few_with_a_sign_off_bound_the_finish():
    people = (Student(key="ana", signoffs=frozenset({"saw"})), Student(key="ben"), Student(key="cai"))
    class_ = problem(
        task("a", work=180, crew_most=3, signoffs=("saw",)), task("b", signoffs=("saw",)), students=people
    )
    assert flow_of(class_).quick(8) == 5


@settings(max_examples=5, deadline=None)
@given(st.integers(1, 10_000))
def test_no_timetable_is_ready_before_the_bound_and_the_flow_proves_no_less(seed):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    found = solve(class_, limits=Limits(seconds=0.4, clock=time.perf_counter, workers=1))
    flow = flow_of(class_)
    quick = flow.quick(len(class_.periods))
    assert quick <= found.finish
    assert flow.possible(found.finish)
    assert flow.possible(found.finish, whole=True)
    assert not flow.possible(quick - 1)


def test_whole_students_prove_more_than_parts_of_students():
    class_ = problem(task("a", work=90, crew_most=1), task("b", work=90, crew_most=1), students=("ana",))
    flow = flow_of(class_)  # an hour and a half twice: three hours, but four periods
    assert (flow.possible(3), flow.possible(3, whole=True), flow.possible(4, whole=True)) == (
        True,
        False,
        True,
    )
