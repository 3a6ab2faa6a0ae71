"""Crews nearer to the old ones: rules kept, the least moved where that can be counted, names that fit."""

import time
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from bench.repair import slip
from setday.errors import NoAnswer
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Period, Place, Student, Task, Wait, carried_on, verify
from setday.timetable.repair.cpsat import nearer
from setday.timetable.repair.naming import crews_of, named, trimmed
from setday.timetable.repair.nearing import Nearing
from setday.timetable.repair.plans import Plans
from setday.timetable.repair.prices import Prices

LIMITS = Limits(seconds=2.0, clock=time.perf_counter, workers=1)
NAMES = ("ana", "ben", "cam", "dia")


def class_(*tasks, apart=(), periods=10):
    bench = Task(key="bench", label="bench", trade="trim", place="shop", work=0, crew_most=9, filler=True)
    students = [
        Student(key=key, apart=frozenset(apart) - {key} if key in apart else frozenset()) for key in NAMES
    ]
    return ClassProblem(
        tasks=(*tasks, bench),
        students=tuple(students),
        periods=tuple(Period(day=n, minutes=60, present=frozenset(NAMES)) for n in range(periods)),
        places=(Place(key="shop", holds=9),),
        set_period=periods,
    )


def task(key, work=240, *, after=(), most=4, **changes):
    waits = tuple(Wait(task=one) for one in after)
    given_ = {"key": key, "label": key, "trade": "trim", "place": "shop", "crew_least": 2, "crew_most": most}
    return Task(**(given_ | {"work": work, "after": waits} | changes))


OLD = (
    ("a", "a", "b", "b"),
    ("a", "a", "b", "b"),
    ("c", "c", "d", "d"),
    ("c", "c", "d", "d"),
    ("e", "e", "bench", "bench"),
    ("e", "e", "bench", "bench"),
)
TASKS = (
    task("a"),
    task("b"),
    task("c", after=("a",)),
    task("d", after=("b",)),
    task("e", after=("c", "d")),
)


def from_late_to_near(problem, happened, late, *, allowed, near=10):
    """Begin from the work done one task after the other, and return the crews brought near the old ones."""
    plans = Plans(problem, happened, OLD, (), near, None)
    plans.allow(allowed - 1)
    number = plans.rest.number
    hint = np.zeros((len(plans.rest.periods), len(plans.rest.tasks)), dtype=np.int32)
    for period, crew in enumerate(late):
        for key in crew:
            hint[period, number[key]] = 2
    crews = nearer(
        plans.crews, hint, len(late), prices=Prices(allowed=allowed), limits=LIMITS, on_better=lambda _: None
    )
    begins = {key: int(np.flatnonzero(crews[:, n])[0]) for key, n in number.items() if crews[:, n].any()}
    return begins, crews, plans


def test_nothing_moves_where_the_old_timetable_still_can_be():
    begins, _, _ = from_late_to_near(class_(*TASKS), OLD[:1], [(k,) for k in "abccddee"], allowed=5)
    assert begins == {"a": 0, "b": 0, "c": 1, "d": 1, "e": 3}


def test_only_what_has_to_move_moves():
    """A takes a period more, so C begins one later, and E after it; D does not wait for A."""
    late = carried_on(class_(*TASKS), happened=OLD[:1], left={"a": 240})
    row = [(k,) for k in ("a", "a", "b", "c", "c", "d", "d", "e", "e")]
    begins, _, _ = from_late_to_near(late, OLD[:1], row, allowed=6)
    assert (begins["c"], begins["d"]) == (2, 1)
    assert begins["e"] == 4  # after c, which at two more takes periods 2 and 3


def test_a_larger_crew_keeps_the_begin_of_what_waits():
    """A's overrun is made up by two from the bench: nothing moves."""
    old_like = carried_on(
        class_(*TASKS[:1], *TASKS[2:3]), happened=[("a", "a", "bench", "bench")], left={"a": 240}
    )
    plans = Plans(
        old_like,
        [("a", "a", "bench", "bench")],
        [
            ("a", "a", "bench", "bench"),
            ("a", "a", "bench", "bench"),
            ("c", "c", "bench", "bench"),
            ("c", "c", "bench", "bench"),
        ],
        (),
        10,
        None,
    )
    hint = np.zeros((len(plans.rest.periods), len(plans.rest.tasks)), dtype=np.int32)
    hint[:2, plans.rest.number["a"]] = 2
    hint[2:4, plans.rest.number["c"]] = 2
    crews = nearer(plans.crews, hint, 4, prices=Prices(allowed=4), limits=LIMITS, on_better=lambda _: None)
    assert crews[0, plans.rest.number["a"]] == 4
    assert crews[1, plans.rest.number["c"]] >= 2


def test_one_task_cannot_begin_when_planned_and_is_counted():
    late = carried_on(class_(*TASKS), happened=OLD[:1], left={"a": 480})
    plans = Plans(late, OLD[:1], OLD, (), 10, None)
    assert plans.crews.forced() == 1  # four on a take two periods more, so c begins one later; e can be kept


def test_those_kept_apart_are_not_on_one_crew():
    plans = Plans(class_(*TASKS, apart=("ana", "ben")), OLD[:1], OLD, (), 10, None)
    crews = np.zeros((len(plans.rest.periods), len(plans.rest.tasks)), dtype=np.int32)
    crews[0, [plans.rest.number["a"], plans.rest.number["b"]]] = 2
    on = named(crews, plans.arrays, plans.kept, 10)
    assert on is not None
    assert on[0, 0] != on[0, 1]
    assert crews_of(on, len(plans.rest.tasks))[0, :4].sum() == 4


def test_a_crew_of_all_has_no_names_where_two_are_kept_apart():
    plans = Plans(class_(*TASKS, apart=("ana", "ben")), OLD[:1], OLD, (), 10, None)
    crews = np.zeros((len(plans.rest.periods), len(plans.rest.tasks)), dtype=np.int32)
    crews[0, plans.rest.number["a"]] = 4
    assert named(crews, plans.arrays, plans.kept, 10) is None


def test_names_stay_where_they_were_planned():
    plans = Plans(class_(*TASKS), OLD[:1], OLD, (), 10, None)
    crews = crews_of(plans.kept.old, len(plans.rest.tasks))
    on = named(trimmed(crews, plans.arrays, plans.work, plans.kept), plans.arrays, plans.kept, 10)
    assert np.array_equal(on[:5], plans.kept.old[:5])


@pytest.mark.parametrize(
    ("finish", "moves", "places", "waiting", "costs"),
    [
        (4, [], 0, 0, 3 + 3 + 3 + 8),
        (5, [], 0, 0, 25),
        (6, [], 0, 0, 175),
        (4, [2, 12, None], 5, 0, 17 + 10 + 8 + 8 + 5),
        (4, [2, 12, None], 5, 7, 17 + 10 + 8 + 8 + 5 + 7),
    ],
)
def test_what_a_repair_costs(finish, moves, places, waiting, costs):
    found = Prices(allowed=5).of(finish=finish, moves=moves, near=10, places=places, waiting=waiting)
    assert found == costs


@pytest.mark.parametrize(
    ("rows", "waiting"),
    [
        (OLD[1:], 0),
        ((OLD[1], OLD[2], OLD[5], OLD[4], OLD[3]), 2 + 2),  # c and d wait twice, e never
        ((OLD[4], OLD[1], OLD[2], OLD[3], OLD[5]), 1 + 1 + 3),  # a and b run and wait once, e waits
    ],
)
def test_a_task_waits_in_periods_in_which_it_could_go_on(rows, waiting):
    assert Plans(class_(*TASKS), OLD[:1], OLD, (), 10, None).waiting(rows) == waiting


@settings(max_examples=6, deadline=None)
@given(st.integers(1, 5000), st.integers(0, 3))
def test_crews_brought_nearer_and_named_keep_every_rule(seed, kept_apart):
    try:
        problem = class_problem(seed, tasks=16, periods=24, students=8)
    except NoAnswer:  # nobody has the sign-off
        assume(False)
    foes = [student.key for student in problem.students[: 2 * kept_apart]]
    apart = dict(zip(foes[::2], foes[1::2], strict=True))
    students = [replace(s, apart=frozenset(filter(None, [apart.get(s.key)]))) for s in problem.students]
    problem = replace(problem, students=tuple(students))
    rows = repaired(problem, (), ())
    assume(rows.finish <= len(problem.periods))
    try:
        now, happened = slip(problem, rows.rows, since=3, seed=seed)
    except IndexError:  # nothing was under way
        assume(False)
    plans = Plans(now, happened, rows.rows, (), 10, None)
    first = plans.at_once()
    assume(not first.broken)
    near = Nearing(plans, replace(LIMITS, seconds=0.5), None)
    found = near._nearer(first)
    assert verify(now, found.rows, since=3) == []
    assert plans.price(found) <= plans.price(first)
    assert found.rows[:3] == tuple(happened)


def repaired(problem, happened, old):
    return Plans(problem, happened, old, (), 10, None).at_once()
