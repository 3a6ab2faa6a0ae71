"""Odds: the play of names and the play of bits agree, published rows come out, more time never hurts."""

import dataclasses
import math
import time

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.errors import NoAnswer
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Period, Place, Student, Task, Wait, solve
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import Fixed, given_of
from setday.timetable.classwork.policy import play
from setday.timetable.odds import (
    Chances,
    Delivery,
    Plan,
    Simulations,
    ThreePoint,
    carriers,
    odds,
    plan_of,
)


def project(activities, *, periods=60, minutes=60, a_day=1):
    """Return a class problem with a student for every task, so that only the waits bind."""
    students = tuple(Student(key=f"s{n}") for n in range(len(activities)))
    present = frozenset(student.key for student in students)
    return ClassProblem(
        tasks=tuple(
            Task(key=key, label=key, trade="trim", place="yard", work=length * a_day * minutes, crew_most=1,
                 after=tuple(Wait(task=before) for before in after))
            for key, (length, after) in activities.items()
        ),
        students=students,
        periods=tuple(
            Period(day=n // a_day, minutes=minutes, present=present) for n in range(a_day * periods)
        ),
        places=(Place(key="yard", holds=len(students)),),
        set_period=a_day * periods,
    )  # fmt: skip


def rows_of(problem, seconds=0.2):
    return solve(problem, limits=Limits(seconds=seconds, clock=time.perf_counter, workers=1)).rows


# J. Dalbey, CSC 308 "How to do CPM", California Polytechnic State University: 12 days, B-D-F, the others
# with one day of slack.
FIRST = {"A": (5, ""), "B": (4, ""), "C": (3, "A"), "D": (7, "B"), "E": (2, "C"), "F": (1, "DE")}
# "Project Management", figure 7-12: 46 weeks; C has a slack of 6, D of 2 (arrows as its figures imply).
SECOND = {"A": (8, ""), "B": (14, "A"), "C": (8, "A"), "D": (10, "BC"), "E": (12, "BC"), "F": (12, "DE")}


@pytest.mark.parametrize(("activities", "finish", "critical"), [(FIRST, 12, "BDF"), (SECOND, 46, "ABEF")])
def test_published_critical_paths_come_out(activities, finish, critical):
    problem = project(activities, a_day=2)
    rows = rows_of(problem)
    found = odds(problem, rows, Chances.none(), simulations=20)
    ready = Simulations(problem, Chances.none(), plan_of(problem, rows))
    worth = carriers(ready, simulations=5, close=0)
    assert (found.counts, found.as_planned) == (((2 * finish, 20),), 2 * finish)
    assert "".join(sorted(one.task for one in worth if one.carries)) == critical


@pytest.mark.parametrize(("task", "slack"), [("C", 6), ("D", 2)])
def test_published_slack_is_what_a_task_may_take_longer(task, slack):
    for more, finish in ((slack, 46), (slack + 1, 47)):
        length, after = SECOND[task]
        problem = project(SECOND | {task: (length + more, after)})
        assert odds(problem, rows_of(problem), Chances.none(), simulations=1).counts == ((finish, 1),)


def test_the_mean_of_a_chain_is_the_sum_of_the_published_three_point_means():
    # Programme evaluation and review technique: 2, 4, 12 has the mean 5, deviation 1.667, variance 2.778.
    chain = {"A": (400, ""), "B": (400, "A"), "C": (400, "B")}
    problem = project(chain, periods=3600, minutes=1)
    chances = Chances(otherwise=ThreePoint(least=0.5, likely=1, most=3), absent=0)
    plan = Plan(order=(0, 1, 2), wish=(1, 1, 1), crews=(1.0, 1.0, 1.0))
    finishes = Simulations(problem, chances, plan).finishes(0, 4000)
    deviation = math.sqrt(3 * 2.778) * 100
    assert finishes.mean() == pytest.approx(3 * 500, abs=4 * deviation / math.sqrt(4000))
    assert finishes.std() == pytest.approx(deviation, rel=0.05)


def by_name(problem, plan):
    """Return the finish of the play that makes timetables."""
    spans = np.empty((len(problem.tasks), 2), dtype=np.int32)
    on = np.empty((len(problem.periods), len(problem.students)), dtype=np.int32)
    order, wish = np.array(plan.order, dtype=np.int32), np.array(plan.wish, dtype=np.int32)
    given_ = given_of(problem, Fixed(), None)
    return play(order, wish, 0, arrays_of(problem), given_, work_of(problem), spans, on)[0]


def invented(seed, **size):
    """Return an invented class, students who may do little first, a few to be kept apart."""
    problem = class_problem(seed, **size)
    keys = [student.key for student in problem.students]
    students = tuple(
        dataclasses.replace(student, apart=frozenset({keys[n - 1]}) if n % 5 == 4 else frozenset())
        for n, student in enumerate(problem.students)
    )
    few = sorted(students, key=lambda s: sum(problem.may(s, task) for task in problem.tasks))
    return dataclasses.replace(problem, students=tuple(few))


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 10_000), st.randoms(use_true_random=False))
def test_the_play_of_bits_ends_when_the_play_of_names_does(seed, chance):
    try:
        problem = invented(seed, tasks=40, periods=30, students=chance.choice((7, 11, 70)))
    except NoAnswer:  # nobody has the sign-off
        assume(False)
    order = list(range(len(problem.tasks)))
    chance.shuffle(order)
    wish = [chance.randint(task.crew_least, task.crew_most) for task in problem.tasks]
    plan = Plan(order=tuple(order), wish=tuple(wish), crews=())
    bits = Simulations(problem, Chances.none(), plan, workers=1).finishes(0, 1)[0]
    assert bits == by_name(problem, plan)


CHANCES = Chances(
    wet=(0.2,) * 60,
    deliveries=(Delivery(label="boards", tasks=("task 30",), chance=0.5, least=2, most=9),),
)


@pytest.fixture(scope="module")
def played():
    problem = class_problem(3, tasks=40, periods=30, students=9)
    return problem, rows_of(problem)


def test_the_odds_are_the_same_with_any_number_of_threads(played):
    problem, rows = played
    runs = [odds(problem, rows, CHANCES, simulations=2500, workers=n) for n in (1, 2, 3)]
    assert runs[0] == runs[1] == runs[2]


def test_another_seed_draws_other_chance(played):
    problem, rows = played
    one, other = (odds(problem, rows, CHANCES, simulations=1000, seed=n) for n in (1, 2))
    assert one.counts != other.counts
    assert one.mean == pytest.approx(other.mean, abs=1)


@settings(max_examples=15, deadline=None)
@given(st.integers(12, 59))
def test_a_later_set_day_never_lowers_the_chance(played, set_period):
    problem, rows = played
    chances = [
        odds(dataclasses.replace(problem, set_period=by), rows, CHANCES, simulations=300).chance
        for by in (set_period, set_period + 1)
    ]
    assert chances[0] <= chances[1]


def test_periods_added_after_the_last_change_nothing_before(played):
    problem, rows = played
    last = problem.periods[-1]
    longer = dataclasses.replace(
        problem, periods=(*problem.periods, dataclasses.replace(last, day=last.day + 1))
    )
    chances = dataclasses.replace(CHANCES, wet=(*CHANCES.wet, 0.2))
    short = Simulations(problem, CHANCES, plan_of(problem, rows)).finishes(0, 300)
    more = Simulations(longer, chances, plan_of(problem, rows)).finishes(0, 300)
    inside = short <= len(problem.periods)
    assert (short[inside] == more[inside]).all()
    assert (more <= short).all()


@pytest.mark.parametrize(
    "worse",
    [
        {"otherwise": ThreePoint(least=1, likely=1.5, most=2)},
        {"absent": 0.3},
        {"wet": (0.9,) * 60},
        {"deliveries": (Delivery(label="all", tasks=("task 1", "task 2"), chance=1.0, least=20, most=20),)},
    ],
)
def test_what_goes_worse_ends_later_on_the_whole(played, worse):
    problem, rows = played
    calm = Chances(absent=0, wet=(0.0,) * 60, otherwise=ThreePoint(least=1, likely=1, most=1))
    usual = odds(problem, rows, calm, simulations=300)
    assert odds(problem, rows, dataclasses.replace(calm, **worse), simulations=300).mean > usual.mean


def test_shares_that_are_ready_are_read_off_the_counts(played):
    problem, rows = played
    found = odds(problem, rows, CHANCES, simulations=2000)
    for share in (0.05, 0.8, 0.95):
        finish = found.ready(share)
        assert sum(many for end, many in found.counts if end <= finish) >= share * 2000
        assert sum(many for end, many in found.counts if end < finish) < share * 2000


def test_the_interval_of_the_chance_is_wilsons(played):
    problem, rows = played
    found = odds(problem, rows, Chances.none(), simulations=10)
    sure = dataclasses.replace(found, counts=((5, 10),), set_period=5)
    # 10 of 10: z^2 / (n + z^2) below 1, by hand.
    assert sure.between == pytest.approx((10 / (10 + 1.959964**2), 1.0))


def test_a_run_that_is_stopped_keeps_what_it_has(played):
    problem, rows = played
    found = odds(problem, rows, CHANCES, simulations=5000, on_progress=lambda done, _: done < 2000)
    assert found.simulations == 2000


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"absent": 1.2}, "the chance that a student is away is 1.2, not between 0 and 1"),
        ({"wet": (0.1,)}, "1 chances of a wet day for 60 periods"),
        ({"absent_by_student": (("zoe", 0.1),)}, "zoe is away at times but not in the class"),
        ({"tasks": (("roof", ThreePoint(least=1, likely=1, most=2)),)}, "roof has its own estimates"),
        ({"deliveries": (Delivery(label="boards", tasks=("x",), chance=2),)}, "waited for by x"),
        ({"deliveries": (Delivery(label="boards", tasks=(), chance=2),)}, "that boards is late is 2"),
        ({"deliveries": (Delivery(label="doors", tasks=(), chance=0, least=3, most=1),)}, "3 to 1 days"),
    ],
)  # fmt: skip
def test_chances_that_do_not_fit_are_told(played, changes, said):
    problem, rows = played
    with pytest.raises(NoAnswer) as told:
        odds(problem, rows, dataclasses.replace(CHANCES, **changes), simulations=1)
    assert said in str(told.value)


@pytest.mark.parametrize("points", [(0, 1, 2), (1, 0.5, 2), (1, 2, 1.5)])
def test_three_estimates_out_of_order_are_refused(points):
    least, likely, most = points
    with pytest.raises(NoAnswer, match="not in order"):
        ThreePoint(least=least, likely=likely, most=most)


@pytest.mark.parametrize("points", [(2, 4, 12), (1, 1, 4), (1, 4, 4), (3, 3, 3)])
def test_the_beta_distribution_has_the_mean_and_the_deviation_of_three_points(points):
    least, likely, most = points
    spread = ThreePoint(least=least, likely=likely, most=most)
    chances = (np.arange(200_000) + 0.5) / 200_000
    values = spread.quantiles(chances)
    assert (values.mean(), values.std()) == pytest.approx((spread.mean, spread.deviation), rel=1e-3)
