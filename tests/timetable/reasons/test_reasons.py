"""Why set day cannot be made: the demands told clash, each of them is needed, and nothing else is claimed."""

import time
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.errors import NoAnswer
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Period, Place, Student, Task, Wait, solve
from setday.timetable.odds import Chances, ThreePoint
from setday.timetable.reasons import Demand, DemandKind, clash_of, demands_of, helps
from setday.timetable.reasons.clash import Proof, disproved
from setday.timetable.reasons.demands import only, without


def limits(seconds=20.0):
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def name(period):
    return f"day {period}"


LIFTED = ("ana", "ben")
PEOPLE = tuple(
    Student(key=key, signoffs=frozenset({"lift"} if key in LIFTED else ()), minor=key != "dia")
    for key in ("ana", "ben", "cam", "dia")
)


def task(key, work=120, **changes):
    given_ = {"key": key, "label": key, "trade": "boards", "place": "room", "work": work, "crew_most": 2}
    return Task(**(given_ | changes))


def class_(*tasks, set_period=4, holds=9, attention=10, wet=()):
    return ClassProblem(
        tasks=tasks,
        students=PEOPLE,
        periods=tuple(
            Period(day=n, minutes=60, present=frozenset(s.key for s in PEOPLE), attention=attention,
                   dry=n not in wet)
            for n in range(12)
        ),
        places=(Place(key="room", holds=holds), Place(key="yard", holds=9)),
        set_period=set_period,
    )  # fmt: skip


def after(key, before, *, work=120, days=0, **changes):
    return task(key, work, after=(Wait(task=before, days=days),), **changes)


@pytest.mark.parametrize(
    ("problem", "tasks", "kinds"),
    [
        # 1 period, then from period 3 on 2 more: 5 with the material, 3 without
        (class_(task("a"), after("b", "a", work=240, begin=3)), {"b"}, {("material", "b")}),
        (class_(task("a"), after("b", "a", work=240, days=3)), {"a", "b"}, {("lag", "b")}),
        (class_(task("a", allowed=(5,))), {"a"}, {("guest", "a")}),
        (class_(task("a", 600)), {"a"}, {("crew", "boards")}),
        (class_(task("a", 300, signoffs=("lift",)), task("b", 300, signoffs=("lift",))),
         {"a", "b"}, {("sign-off", "lift")}),
        (class_(task("a", 300, attention=8), task("b", 300, attention=8)), {"a", "b"}, {("attention", "")}),
        (class_(task("a", 300), task("b", 300), holds=2), {"a", "b"}, {("place", "room")}),
        (class_(task("a", 300, barred_to_minors=True)), {"a"}, {("minors", "")}),
        (class_(task("a", 300, dry=True), wet=(0, 1)), {"a"}, {("weather", "")}),
        # 961 of 960 student-minutes
        (class_(task("a", 480, crew_most=4), task("b", 481, crew_most=4)), {"a", "b"}, set()),
    ],
)  # fmt: skip
def test_the_demands_that_clash_are_found(problem, tasks, kinds):
    found = clash_of(problem, limits=limits(), name=name)
    assert (found.proven, found.smallest, set(found.tasks)) == (True, True, tasks)
    told = {(str(demand.kind), demand.about) for demand in found.demands}
    assert kinds <= told
    assert told - kinds <= {("crew", "boards")}  # a crew of any size would be done sooner


def test_it_is_told_in_the_words_of_the_trade_with_dates():
    hanging = after("hanging", "seen", work=240, signoffs=("lift",))
    problem = class_(task("seen", 60, begin=2), hanging)
    assert clash_of(problem, limits=limits(), name=name).said == (
        "seen and hanging cannot all be done by day 3, because seen cannot begin before day 2;"
        " a crew of boards has at most 2 students; they take 3 periods one after another with the largest"
        " crews."
    )


def test_where_only_the_search_could_fail_nothing_is_claimed():
    found = clash_of(class_(task("a")), limits=limits(), name=name)
    assert (found.proven, found.demands) == (False, ())
    assert found.said == "It is not proven that the work cannot be done by day 3."


@settings(max_examples=6, deadline=None)
@given(st.integers(1, 5000), st.integers(12, 20))
def test_what_clashes_still_clashes_alone_and_no_demand_of_it_can_be_left_out(seed, set_period):
    try:
        problem = replace(class_problem(seed, tasks=16, periods=24, students=7), set_period=set_period)
    except NoAnswer:  # nobody has the sign-off
        assume(False)
    found = clash_of(problem, limits=limits())
    assume(found.proven and found.smallest)
    every = demands_of(problem)

    def clash(demands):
        left_out = [demand for demand in every if demand not in demands]
        alone = only(without(problem, left_out), found.tasks)
        return any(disproved(alone, set_period, proof) for proof in Proof)

    assert clash(found.demands)
    proof = next(proof for proof in Proof if disproved(problem, set_period, proof))
    for demand in found.demands:
        fewer = [other for other in every if other == demand or other not in found.demands]
        assert not disproved(only(without(problem, fewer), found.tasks), set_period, proof)


@settings(max_examples=5, deadline=None)
@given(st.integers(1, 5000))
def test_what_is_proven_impossible_no_search_finds(seed):
    try:
        problem = class_problem(seed, tasks=16, periods=24, students=7)
    except NoAnswer:  # nobody has the sign-off
        assume(False)
    finish = solve(problem, limits=limits(0.5)).finish
    assume(11 < finish <= len(problem.periods))
    assert not any(disproved(problem, finish, proof) for proof in Proof)


def test_a_problem_with_every_demand_left_out_has_none_but_lost_hours():
    problem = class_(task("a", begin=2, signoffs=("lift",), attention=5, dry=True), wet=(1,), holds=2)
    kinds = {demand.kind for demand in demands_of(without(problem, demands_of(problem)))}
    assert kinds <= {DemandKind.ATTENTION}


def test_what_waits_for_a_task_left_out_waits_for_what_that_waits_for():
    problem = class_(task("a"), after("b", "a", days=2), after("c", "b"))
    (_, last) = only(problem, ("a", "c")).tasks
    assert last.after == (Wait(task="a", days=2),)


def helped(problem, **changes):
    rows = solve(problem, limits=limits(0.3)).rows
    chances = Chances(otherwise=ThreePoint(least=0.9, likely=1, most=1.3), absent=0, **changes)
    return {one.label: one for one in helps(problem, rows, chances, limits=limits(2.0), name=name)}


def test_what_helps_is_computed():
    found = helped(class_(task("a", 300, signoffs=("lift",)), task("b", 300, signoffs=("lift",))))
    assert found["the lift sign-off for dia"].periods > 0
    assert (
        found["one hired adult with every sign-off"].chance
        >= found["the lift sign-off for dia"].chance_without
    )
    assert (
        found["every period 15 minutes longer"].finish
        < found["every period 15 minutes longer"].finish_without
    )


def test_a_second_pair_of_eyes_lets_two_crews_work_at_once():
    found = helped(class_(task("a", 240, attention=6), task("b", 240, attention=6)))
    eyes = found["a second pair of eyes in every period"]
    assert (eyes.finish, eyes.finish_without) == (2, 4)
    assert eyes.periods > 1


def test_material_that_comes_earlier_is_worth_what_it_gains():
    found = helped(class_(task("a", begin=3), set_period=4))
    assert found["what a waits for on day 0 already"].periods == pytest.approx(3, abs=0.5)


def test_a_saturday_counts_in_the_calendar_as_it_was():
    calendar = class_(task("a", 960, crew_most=4), set_period=12)
    periods = tuple(replace(p, day=p.day + 2 * (n > 1)) for n, p in enumerate(calendar.periods))
    found = helped(replace(calendar, periods=periods))
    saturday = found["a Saturday of 4 hours after day 1"]
    assert (saturday.finish, saturday.finish_without) == (2, 4)


def test_a_demand_is_a_value():
    assert Demand(kind=DemandKind.ABSENCE) == Demand(kind=DemandKind.ABSENCE)


def test_a_guest_who_comes_too_late_is_told_by_the_first_day():
    seen = class_(task("look", 60, allowed=(5, 6, 7, 8, 9)), set_period=3)
    said = clash_of(seen, limits=limits(), name=name).said
    assert said == (
        "look cannot be done by day 2, because look waits for its guest or its date, day 5 at the earliest;"
        " it takes 1 period with the largest crew."
    )
