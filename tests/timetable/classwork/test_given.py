"""What a solve is given: periods that are over stay, pins are kept or told, a near timetable is followed."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.errors import NoAnswer
from setday.solving import Limits
from setday.timetable.classwork import Fixed, Near, Pin, carried_on, solve, verify
from tests.timetable.classwork.test_solving import after, period, problem, task


def limits(seconds=0.5, workers=1):
    return Limits(seconds=seconds, clock=time.perf_counter, workers=workers)


def changed(rows, other, since):
    return sum(
        a != b
        for row, old in zip(rows[since:], other[since:], strict=False)
        for a, b in zip(row, old, strict=True)
    )


def test_periods_that_are_over_stay_as_they_were():
    class_ = problem(task("a", work=360), task("b", crew_most=1))
    over = (("b", ""), ("", "a"))
    found = solve(class_, limits=limits(), fixed=Fixed(happened=over))
    assert (found.rows[:2], found.finish, found.broken) == (over, 5, ())


def test_a_task_that_took_longer_has_the_work_that_is_left():
    class_ = carried_on(problem(task("a", work=120, crew_most=1)), happened=(("a", ""),), left={"a": 180})
    assert solve(class_, limits=limits(), fixed=Fixed(happened=(("a", ""),))).finish == 4


def test_what_broke_a_rule_before_is_not_held_against_the_rest():
    class_ = problem(task("a", crew_least=2, crew_most=2), after("b", "a"))
    over = (("a", ""), ("a", "b"))
    found = solve(class_, limits=limits(), fixed=Fixed(happened=over))
    assert (found.rows[:2], found.broken, found.finish) == (over, (), 3)


def test_a_pinned_task_runs_with_the_students_named():
    class_ = problem(task("a", crew_most=1), task("b", crew_most=1))
    pins = (Pin(task="b", period=3, students=("ana",)), Pin(task="a", period=4))
    found = solve(class_, limits=limits(), fixed=Fixed(pins=pins))
    assert (found.rows[3][0], "a" in found.rows[4], found.broken, found.finish) == ("b", True, (), 5)


def test_a_pin_that_cannot_be_kept_is_told():
    class_ = problem(task("a"), after("b", "a"))
    found = solve(class_, limits=limits(), fixed=Fixed(pins=(Pin(task="b", period=0),)))
    assert found.broken == ("period 0: b is pinned but does not run",)


@pytest.mark.parametrize(
    ("fixed", "said"),
    [
        (Fixed(pins=(Pin(task="q", period=0),)), "no such task"),
        (Fixed(happened=(("", ""),), pins=(Pin(task="a", period=0),)), "is over or not in the calendar"),
        (Fixed(pins=(Pin(task="a", period=0, students=("zoe",)),)), "zoe is not in the class"),
        (Fixed(pins=(Pin(task="a", period=7, students=("ben",)),)), "ben is away"),
        (Fixed(happened=(("a",),)), "1 places for 2 students"),
        (Fixed(happened=(("q", ""),)), "q is no task"),
    ],
)
def test_what_is_fixed_and_cannot_be_is_told_before_anything_is_solved(fixed, said):
    calendar = (*(period(n, "ana", "ben") for n in range(7)), period(7, "ana"))
    with pytest.raises(NoAnswer) as told:
        solve(problem(task("a"), periods=calendar), limits=limits(), fixed=fixed)
    assert said in str(told.value)


def test_a_solve_told_to_stay_near_gives_the_next_periods_back_when_nothing_happened():
    class_ = class_problem(3, tasks=24, periods=24, students=9)
    old = solve(class_, limits=limits())
    new = solve(class_, limits=limits(0.2), start=Near(rows=old.rows, finish=old.finish))
    assert (new.finish, changed(new.rows[:8], old.rows, 0)) == (old.finish, 0)


@settings(max_examples=5, deadline=None)
@given(st.integers(1, 10_000), st.integers(1, 10))
def test_a_solve_that_goes_on_keeps_what_happened_and_every_rule(seed, over):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    old = solve(class_, limits=limits(0.2))
    happened = old.rows[:over]
    late = next(key for row in happened for key in row if key and not key.startswith("bench"))
    harder = carried_on(class_, happened=happened, left={late: 240})
    new = solve(harder, limits=limits(0.2), fixed=Fixed(happened=happened), start=Near(rows=old.rows))
    assert (new.rows[:over], new.broken, verify(harder, new.rows, since=over)) == (happened, (), [])


def test_the_bound_of_a_solve_that_goes_on_counts_what_happened_as_done():
    class_ = problem(task("a", work=600, begin=2), task("b"))
    over = (("a", "a"), ("a", "a"), ("a", "a"))  # begun before it was due: two periods of both are left
    found = solve(class_, limits=limits(workers=2), fixed=Fixed(happened=over))
    assert (found.finish, found.bound) == (6, 6)
