"""Class timetables: hard rules kept on classes drawn at random, and what the check finds else."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.errors import NoAnswer
from setday.solving import Limits, Status
from setday.timetable.classwork import ClassProblem, Period, Place, Student, Task, Wait, idle, solve, verify


def limits(seconds=1.0):
    return Limits(seconds=seconds, clock=time.perf_counter)


def period(number, *students, **changes):
    return Period(**({"day": number, "minutes": 60, "present": frozenset(students)} | changes))


def task(key, **changes):
    given = {"key": key, "label": key, "trade": "trim", "place": "shop", "work": 120, "crew_least": 1}
    return Task(**(given | changes))


def after(key, before, days=0):
    return task(key, after=(Wait(task=before, days=days),))


def problem(*tasks, periods=None, students=("ana", "ben"), holds=4):
    people = tuple(who if isinstance(who, Student) else Student(key=who) for who in students)
    calendar = periods or tuple(period(n, *(who.key for who in people)) for n in range(8))
    return ClassProblem(
        tasks=tasks,
        students=people,
        periods=calendar,
        places=(Place(key="shop", holds=holds), Place(key="yard", holds=9)),
        set_period=len(calendar),
    )


@pytest.mark.parametrize(
    ("tasks", "finish"),
    [
        ((task("a"),), 1),  # both at once
        ((task("a", crew_most=1),), 2),
        ((task("a"), task("b", after=(Wait(task="a"),))), 2),
        ((task("a"), task("b", after=(Wait(task="a", days=3),))), 4),  # day 0, then day 3
        ((task("a", begin=4),), 5),
        ((task("a", allowed=(2, 6), crew_most=1),), 7),
        ((task("a", attention=6), task("b", attention=6)), 2),  # one pair of eyes
        ((task("a", crew_most=1, clashes=("paint",)), task("b", trade="paint", crew_most=1)), 4),
    ],
)
def test_small_timetables_end_when_reckoned_by_hand(tasks, finish):
    found = solve(problem(*tasks), limits=limits())
    assert (found.finish, found.bound <= finish, verify(problem(*tasks), found.rows)) == (finish, True, [])


def test_a_place_that_holds_one_takes_one_at_a_time():
    crowded = problem(task("a", crew_most=1), task("b", crew_most=1), holds=1)
    assert solve(crowded, limits=limits()).finish == 4


def test_only_those_with_the_sign_off_do_what_needs_it():
    class_ = problem(
        task("a", signoffs=("saw",)),
        students=(Student(key="ana", signoffs=frozenset({"saw"})), Student(key="ben")),
    )
    found = solve(class_, limits=limits())
    assert (found.finish, found.status) == (2, Status.OPTIMAL)
    assert {row[1] for row in found.rows} == {""}


def test_minors_stay_off_what_the_law_bars_them_from():
    class_ = problem(task("a", barred_to_minors=True), students=("ana", Student(key="ben", minor=True)))
    assert all(row[1] == "" for row in solve(class_, limits=limits()).rows)


def test_outdoor_work_waits_for_dry_weather():
    periods = (period(0, "ana", dry=False), period(1, "ana"), period(2, "ana"))
    class_ = problem(task("a", dry=True, place="yard"), periods=periods, students=("ana",))
    assert solve(class_, limits=limits()).finish == 3


def test_whoever_is_left_over_practises_at_the_bench():
    class_ = problem(task("a", crew_most=1), task("bench", place="yard", work=0, filler=True))
    found = solve(class_, limits=limits())
    assert (found.finish, found.idle) == (2, 0)


def test_a_calendar_too_short_says_what_is_left():
    class_ = problem(task("a", work=6000))
    assert solve(class_, limits=limits(0.3)).broken == ("a is not finished",)


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 10_000))
def test_classes_drawn_at_random_keep_every_hard_rule_and_leave_nobody_idle(seed):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    found = solve(class_, limits=limits(0.5))
    assert (verify(class_, found.rows), idle(class_, found.rows), found.bound <= found.finish) == (
        [],
        0,
        True,
    )


@pytest.mark.parametrize(
    ("tasks", "rows", "said"),
    [
        ((task("a", crew_least=2),), (("a", ""),), "period 0: 1 on a, which takes 2 to 4"),
        ((task("a", begin=1),), (("a", "a"),), "period 0: a may not begin before period 1"),
        ((task("a", allowed=(1,)),), (("a", "a"),), "period 0: a is not allowed then"),
        ((task("a", attention=11 - 1), task("b", attention=1)), (("a", "b"),), "11 tenths of an instructor"),
        ((task("a"), after("b", "a")), (("a", "b"), ("a", "b")), "b begins in period 0, before a"),
        ((task("a"), after("b", "a", days=2)), (("a", "a"), ("b", "b")), "2 days too soon"),
        ((task("a", work=600),), (("a", "a"),), "a is not finished"),
        ((task("a"),), (("c", ""),), "c is no task"),
    ],
)  # fmt: skip
def test_the_check_finds_what_is_broken(tasks, rows, said):
    assert any(said in told for told in verify(problem(*tasks), rows))


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: problem(after("a", "b"), after("b", "a")), "a -> b -> a"),
        (lambda: problem(task("a", signoffs=("saw",))), "only 0 may do it (it needs saw)"),
        (lambda: problem(task("a", crew_least=5, crew_most=6), students=tuple("vwxyz")), "shop holds 4"),
        (lambda: problem(task("a"), task("a")), "two tasks are called a"),
        (lambda: problem(task("a", place="roof")), "a is at roof, which is no place"),
        (lambda: problem(task("a", begin=8)), "a may begin in period 8 at the earliest"),
        (lambda: problem(task("a"), students=(), periods=(period(0),)), "the class is empty"),
        (lambda: problem(task("a", after=(Wait(task="q"),))), "a waits for q, which is no task"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_before_anything_is_solved(make, said):
    with pytest.raises(NoAnswer) as told:
        make()
    assert said in str(told.value)
