"""Repair: hard rules kept, what is done stays, pins are kept, little moves, and the reasons are true."""

import time
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from bench.repair import bad_day, slip
from setday.errors import NoAnswer
from setday.solving import Limits
from setday.timetable.classwork import (
    ClassProblem,
    Period,
    Pin,
    Place,
    Student,
    Task,
    Wait,
    carried_on,
    idle,
    solve,
    unkept,
    verify,
)
from setday.timetable.odds import ends_of, rest_of
from setday.timetable.repair import repair, repair_at_once


def limits(seconds=0.5):
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def planned(seed):
    try:
        problem = class_problem(seed, tasks=24, periods=24, students=9)
    except NoAnswer:  # nobody has the sign-off
        assume(False)
    return problem, solve(problem, limits=limits(0.3)).rows


def slipped(problem, rows, *, since, seed):
    try:
        return slip(problem, rows, since=since, seed=seed)
    except IndexError:  # nothing was under way
        assume(False)


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 5000), st.integers(1, 9))
def test_a_repaired_timetable_keeps_every_hard_rule_and_all_that_is_done(seed, since):
    problem, rows = planned(seed)
    try:
        now, happened = bad_day(problem, rows, since=since, seed=seed)
    except (NoAnswer, IndexError):  # nothing to be late
        assume(False)
    found = repair_at_once(now, happened=happened, old=rows)
    assert verify(now, found.rows, since=since) == list(found.broken)
    assert (found.rows[:since], found.before) == (tuple(happened), rows)
    assert idle(now, found.rows) == idle(now, found.rows[:since])


@settings(max_examples=5, deadline=None)
@given(st.integers(1, 5000))
def test_when_nothing_went_wrong_nothing_changes(seed):
    problem, rows = planned(seed)
    found = repair_at_once(problem, happened=rows[:4], old=rows)
    assert (found.moves, found.places_changed, found.finish) == ((), 0, found.finish_before)
    assert found.rows == rows


@settings(max_examples=4, deadline=None)
@given(st.integers(1, 5000))
def test_a_search_never_makes_more_of_a_repair_than_the_one_at_once(seed):
    problem, rows = planned(seed)
    now, happened = slipped(problem, rows, since=5, seed=seed)
    first = repair_at_once(now, happened=happened, old=rows)
    found = repair(now, happened=happened, old=rows, limits=limits())
    assert verify(now, found.rows, since=5) == list(found.broken)
    assert found.finish <= max(first.finish, found.possible + 1)
    assert found.possible <= found.finish


PEOPLE = tuple(Student(key=key) for key in ("ana", "ben", "cam", "dia"))


def class_(*tasks, away=(), wet=(), periods=12):
    everybody = frozenset(student.key for student in PEOPLE)
    bench = Task(key="bench", label="bench", trade="trim", place="shop", work=0, crew_most=9, filler=True)
    return ClassProblem(
        tasks=(*tasks, bench),
        students=PEOPLE,
        periods=tuple(
            Period(day=n, minutes=60, dry=n not in wet,
                   present=everybody - {key for key, number in away if number == n})
            for n in range(periods)
        ),
        places=(Place(key="shop", holds=9), Place(key="attic", holds=2)),
        set_period=periods,
    )  # fmt: skip


def task(key, work=120, **changes):
    given_ = {"key": key, "label": key, "trade": "trim", "place": "shop", "work": work, "crew_least": 2}
    return Task(**(given_ | {"crew_most": 2} | changes))


OLD = (
    ("a", "a", "b", "b"),
    ("c", "c", "b", "b"),
    ("c", "c", "d", "d"),
    ("bench", "bench", "d", "d"),
)
TASKS = (
    task("a"),
    task("b", 240),
    task("c", 240, after=(Wait(task="a"),)),
    task("d", 240, after=(Wait(task="b"),)),
)


def repaired(problem, happened=OLD[:1], **changes):
    return repair_at_once(problem, happened=happened, old=OLD, **changes)


def test_what_runs_goes_on_with_its_crew():
    late = carried_on(class_(*TASKS), happened=OLD[:2], left={"b": 120})
    found = repaired(late, OLD[:2])
    assert found.rows[2][2:] == ("b", "b")
    assert found.rows[2][:2] == ("c", "c")


def test_what_waits_for_it_moves_and_says_so():
    late = carried_on(class_(*TASKS), happened=OLD[:2], left={"b": 120})
    (move,) = repaired(late, OLD[:2]).moves
    assert (move.task, move.was, move.now) == ("d", 2, 3)
    assert move.reason == "it waits for b, which is finished on period 3"


def test_a_task_whose_material_is_late_says_so():
    tasks = (*TASKS[:3], replace(TASKS[3], begin=4))
    (move,) = repaired(class_(*tasks), name=lambda n: f"day {n}").moves
    assert (move.now, move.reason) == (4, "its material or date is not before day 4")


def test_a_crew_that_is_too_small_is_the_reason():
    away = (("ana", 1), ("ben", 1), ("cam", 1))
    moves = {move.task: move.reason for move in repaired(class_(*TASKS, away=away)).moves}
    assert moves["c"] == "only 1 who may do it are there on period 2"


def test_wet_weather_is_the_reason():
    tasks = (*TASKS[:3], replace(TASKS[3], dry=True))
    moves = {move.task: move.reason for move in repaired(class_(*tasks, wet=(2,))).moves}
    assert moves["d"] == "period 3 is wet"


def test_one_who_is_away_is_replaced_from_the_bench_and_nobody_else_moves():
    found = repaired(class_(*TASKS, away=(("cam", 3),)))
    assert found.moves == ()
    assert sorted(found.rows[3]) == ["", "bench", "d", "d"]
    assert found.places_changed == 1


def test_what_moved_is_said_in_three_lines():
    late = carried_on(class_(*TASKS), happened=OLD[:2], left={"b": 120})
    found = repaired(late, OLD[:2])
    assert found.said == (
        "All work is done on period 5, 1 period later.",
        "1 of 1 tasks move: d to period 4 (it waits for b, which is finished on period 3).",
        "In the near periods 2 of 8 students' places change.",
    )


def test_a_pin_is_kept_and_is_the_reason():
    pins = (Pin(task="d", period=5, students=("ana", "ben")),)
    problem = class_(*TASKS[:3], replace(TASKS[3], begin=4))
    found = repaired(problem, pins=pins)
    assert unkept(found.rows, pins=pins, students=[s.key for s in PEOPLE]) == []
    assert found.rows[5][:2] == ("d", "d")


def test_a_pin_that_cannot_be_kept_is_told():
    found = repaired(class_(*TASKS), pins=(Pin(task="d", period=1),))
    assert found.broken == ("period 1: d is pinned but does not run",)


@settings(max_examples=5, deadline=None)
@given(st.integers(1, 5000))
def test_pins_of_what_the_timetable_does_anyway_are_kept_through_a_repair(seed):
    problem, rows = planned(seed)
    now, happened = slipped(problem, rows, since=3, seed=seed)
    loose = [t for t in problem.tasks if not t.after and t.work and rows[4].count(t.key)]
    assume(loose)
    present = [s.key for s, key in zip(problem.students, rows[4], strict=True) if key == loose[0].key]
    pins = (Pin(task=loose[0].key, period=4, students=tuple(present)),)
    found = repair_at_once(now, happened=happened, old=rows, pins=pins)
    assert [said for said in found.broken if "pinned" in said] == []


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"pins": (Pin(task="z", period=2),)}, "pin of z: no such task"),
        ({"pins": (Pin(task="d", period=0),)}, "the period is over or not in the calendar"),
        ({"pins": (Pin(task="d", period=3, students=("zoe",)),)}, "zoe is not in the class"),
        ({"old": (("a",),)}, "a row of the old timetable has 1 places for 4 students"),
        ({"old": (("z", "a", "a", "a"),)}, "z is in the old timetable"),
    ],
)
def test_what_does_not_fit_together_is_told(changes, said):
    with pytest.raises(NoAnswer) as told:
        repair_at_once(class_(*TASKS), **({"happened": OLD[:1], "old": OLD} | changes))
    assert said in str(told.value)


def test_a_calendar_that_is_over_is_told():
    with pytest.raises(NoAnswer, match="the calendar is over"):
        repair_at_once(class_(*TASKS, periods=1), happened=OLD[:1], old=OLD)


def test_what_is_left_is_a_problem_of_its_own():
    mark = task("seen", 0, after=(Wait(task="a", days=1),))
    left = rest_of(class_(*TASKS, mark, task("e", after=(Wait(task="seen", days=2),))), OLD[:2])
    works = {one.key: (one.work, one.begin, one.after) for one in left.tasks if not one.filler}
    assert works == {
        "c": (120, 0, ()),
        "d": (240, 0, ()),
        "e": (120, 1, ()),  # seen in period 1, the day after a; then two days
    }


def test_marks_are_over_when_their_waits_and_dates_allow():
    mark = task("seen", 0, after=(Wait(task="a"),), allowed=(2,))
    assert ends_of(class_(*TASKS, mark), OLD)["seen"] == 2
