"""How far a house is: a log read against a timetable."""

import time
from datetime import date

import pytest

from setday.actions import demo_text, open_house
from setday.actions.timetable.odds import class_odds
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.repair import pin_from, repair_timetable
from setday.actions.timetable.solving import solve_timetable
from setday.actions.timetable.standing import saved_of, standing
from setday.errors import NoAnswer
from setday.rules import LocalRules
from setday.solving import Limits
from setday.timetable.classwork import verify
from setday.timetable.tasks import PeriodLog, Worked
from tests.actions.invented_class import FIRST, class_plan


@pytest.fixture(scope="module")
def day():
    house = open_house(demo_text("wired"), name="wired.yaml")
    return class_day(house, class_plan(), clock=time.perf_counter)


@pytest.fixture(scope="module")
def planned(day):
    return solve_timetable(day, limits=Limits(seconds=1, clock=time.perf_counter, workers=1))


def first_task(planned):
    return next(crew for crew in planned.crews[0] if crew.work != "bench")


def log(*worked, on=FIRST, absent=()):
    return [PeriodLog(date=on, worked=worked or None, absent=absent)]


def test_a_period_without_entries_went_as_planned(day, planned):
    assert standing(day, saved_of(planned), log()).happened == planned.rows[:1]


def test_who_was_away_did_nothing(day, planned):
    away = first_task(planned).students[0]
    stand = standing(day, saved_of(planned), log(absent=(day.names[away],)))
    students = [student.key for student in day.problem.students]
    assert stand.happened[0][students.index(away)] == ""


def test_what_the_log_says_is_done_leaves_the_rest_at_the_pace_it_shows(day, planned):
    crew = first_task(planned)
    work = day.works[crew.work]
    stand = standing(day, saved_of(planned), log(Worked(task=crew.work, done=0.1)))
    spent = len(crew.students) * 120
    assert stand.left[crew.work] > work.minutes * 0.9 * (1.05 if spent > 0.1 * work.minutes else 0.5)


def test_what_is_finished_has_nothing_left(day, planned):
    key = first_task(planned).work
    assert standing(day, saved_of(planned), log(Worked(task=key, done=1.0))).left[key] == 0


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        (log(Worked(task="moonwalk", done=0.5)), "'moonwalk' is no task"),
        (log(on=date(2027, 1, 16)), "no class meets then"),
        (log(absent=("Nobody Known",)), "'Nobody Known' is in no class"),
    ],
)
def test_what_cannot_be_in_a_log_is_said(day, planned, entries, said):
    with pytest.raises(NoAnswer, match=said):
        standing(day, saved_of(planned), entries)


def test_a_repair_keeps_every_hard_rule_and_what_happened(day, planned):
    stand = standing(day, saved_of(planned), log(Worked(task=first_task(planned).work, done=0.05)))
    found = repair_timetable(day, stand, limits=None)
    assert verify(stand.problem, found.timetable.rows, since=1) == []
    assert found.timetable.rows[0] == stand.happened[0]


def test_a_repair_says_what_moved_in_three_lines_at_most(day, planned):
    stand = standing(day, saved_of(planned), log(Worked(task=first_task(planned).work, done=0.05)))
    assert 1 <= len(repair_timetable(day, stand, limits=None).said) <= 3


def test_a_pin_is_kept_through_a_repair(day, planned):
    stand = standing(day, saved_of(planned), log())
    pins = pin_from("siding on 2027-02-08 with Student 4, Student 5", day)
    found = repair_timetable(day, stand, limits=None, pins=pins).timetable
    crew = next(c for c in found.crews[day.period_on(date(2027, 2, 8))] if c.work == "siding")
    assert {"s4", "s5"} <= set(crew.students)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("moonwalk on 2027-02-08", "names no task"),
        ("siding on someday", "names no day"),
        ("siding on 2027-02-08 with Zed", "Zed, who is in no class"),
        ("siding on 2027-02-07", "no class of theirs meets"),
    ],
)
def test_a_pin_that_cannot_be_is_said(day, text, said):
    with pytest.raises(NoAnswer, match=said):
        pin_from(text, day)


def test_the_odds_are_a_share_of_plays_and_repeat_with_their_seed(day, planned):
    stand = standing(day, saved_of(planned), log())
    given = {"rows": stand.rows, "local": LocalRules(), "clock": time.perf_counter, "simulations": 500}
    first, again = (class_odds(day, stand, carried=False, **given).odds for _ in range(2))
    assert (first.simulations, first.counts) == (500, again.counts)


def test_absences_in_the_log_move_what_the_odds_take_for_granted(day, planned):
    away = tuple(day.names[f"s{n}"] for n in range(1, 9))
    stand = standing(day, saved_of(planned), log(absent=away))
    found = class_odds(day, stand, rows=stand.rows, local=LocalRules(), clock=time.perf_counter,
                       simulations=100, carried=False)  # fmt: skip
    assert found.chances.absent == pytest.approx((8 + 0.05 * 200) / (16 + 200))
