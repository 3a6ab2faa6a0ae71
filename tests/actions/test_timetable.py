"""House, classes and calendar as one problem and back: dates, permissions, bad input, the document."""

import json
import time
from dataclasses import replace
from datetime import date

import pytest

from setday.actions import demo_text, open_house
from setday.actions.timetable.document import timetable_document
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.solving import solve_timetable, spans
from setday.actions.timetable.standing import planned_rows, saved_of
from setday.errors import NoAnswer
from setday.files import read_timetable
from setday.roster import After, Guest, LimitRules, SignOff, Stretch, TypedTask
from setday.roster import Pin as TypedPin
from setday.solving import Limits
from tests.actions.invented_class import FIRST, SET_DAY, cable_figured_once, class_plan, student, typed_tasks


@pytest.fixture(scope="module")
def opened():
    with cable_figured_once():
        yield open_house(demo_text("wired"), name="wired.yaml")


def day_of(opened, **changes):
    return class_day(opened, class_plan(**changes), clock=time.perf_counter)


@pytest.fixture(scope="module")
def day(opened):
    return day_of(opened)


@pytest.fixture(scope="module")
def solved(day):
    return solve_timetable(day, limits=Limits(seconds=1, clock=time.perf_counter, workers=1))


def typed(key, **changes):
    return TypedTask(**({"key": key, "label": key, "trade": "trim", "place": "house", "hours": 4} | changes))


def test_periods_and_dates_lead_to_each_other(day):
    assert [day.period_on(day.date_of(n)) for n in (0, 7, 40)] == [0, 7, 40]


def test_no_period_before_set_day_is_on_it_or_after(day):
    assert day.date_of(day.set_period - 1) < SET_DAY <= day.date_of(day.set_period)


def test_a_task_begins_once_its_material_is_there(day):
    task = day.problem.tasks[day.problem.number["siding"]]
    assert day.date_of(task.begin) == date(2027, 2, 1)


def test_a_guest_limits_when_a_task_can_be(day):
    inspection = day.problem.tasks[day.problem.number["inspect/rough electrical"]]
    assert day.date_of(inspection.allowed[0]) == date(2027, 2, 2)


def test_a_guest_who_is_missed_comes_again_a_week_later(day):
    inspection = day.problem.tasks[day.problem.number["inspect/rough electrical"]]
    dates = [day.date_of(period) for period in inspection.allowed]
    assert min(on for on in dates if on > date(2027, 4, 23)) == date(2027, 4, 30)


def test_a_visit_nobody_booked_is_told(opened):
    plan = class_plan()
    once = replace(plan.calendar, guests=(Guest(who="electrical inspector", days=(FIRST,)),))
    found = solve_timetable(
        class_day(opened, replace(plan, calendar=once), clock=time.perf_counter),
        limits=Limits(seconds=0.5, clock=time.perf_counter, workers=1),
    )
    assert ["book electrical inspector for" in said for said in found.to_book] == [True]


def able(day, key):
    task = day.problem.tasks[day.problem.number[key]]
    return {s.key for s in day.problem.students if day.problem.may(s, task)}


def with_students(*people):
    plan = class_plan()
    return {"classes": (replace(plan.classes[0], students=(*plan.classes[0].students[:6], *people)),)}


def test_who_lacks_a_sign_off_is_never_put_on_the_work(opened):
    found = day_of(opened, **with_students(student(50, signed=("drill",))))
    assert "s50" not in able(found, "boards/hang/bath/ceilings")


def test_a_minor_without_agreement_stays_off_what_the_law_bars(opened):
    """29 CFR 570.67, Order 16: roofing, under 18; exempt are student-learners."""
    roof = typed("roof", trade="roof", place="roof", exposures=("roofing",))
    young = student(50, student_learner=False)
    found = day_of(opened, tasks=(roof,), **with_students(young))
    assert able(found, "roof") == {f"s{n}" for n in range(1, 7)}


def test_a_limit_that_was_set_aside_with_a_reason_bars_nobody(opened):
    roof = typed("roof", trade="roof", place="roof", exposures=("roofing",))
    aside = LimitRules(set_aside=(("order-16", "no employment, so the district says"),))
    young = student(50, student_learner=False)
    found = day_of(opened, tasks=(roof,), limits=aside, **with_students(young))
    assert "s50" in able(found, "roof")


def test_work_waits_for_the_day_on_which_enough_are_signed_off(opened):
    people = [student(n, signed=("drill", "lift", "electrical")) for n in range(1, 7)]
    later = SignOff(what="respirator", on=date(2027, 2, 15), by="the instructor")
    people = [replace(each, signoffs=(*each.signoffs, later)) for each in people]
    plan = class_plan()
    found = day_of(opened, classes=(replace(plan.classes[0], students=tuple(people)),))
    sanding = found.problem.tasks[found.problem.number["sand/bath"]]
    assert found.date_of(sanding.begin) == date(2027, 2, 15)


def test_pins_name_every_period_of_their_days(opened):
    pin = TypedPin(task="siding", days=Stretch(first=date(2027, 2, 8), last=date(2027, 2, 9)))
    found = day_of(opened, pins=(pin,))
    assert [found.date_of(each.period) for each in found.pins] == [date(2027, 2, 8), date(2027, 2, 9)]


def test_a_solved_timetable_keeps_every_hard_rule_and_leaves_nobody_idle(solved):
    assert (solved.broken(), solved.idle) == ([], 0)


def test_the_document_reads_back_as_the_same_timetable(day, solved):
    text = json.dumps(timetable_document(solved))
    assert planned_rows(day, read_timetable(text.encode(), name="plan.json")) == solved.rows
    assert read_timetable(text.encode(), name="plan.json").periods == saved_of(solved).periods


def test_a_crew_that_goes_on_keeps_its_number(solved):
    kept = changed = 0
    for row, after in zip(solved.crews, solved.crews[1:], strict=False):
        numbers = {crew.work: crew.number for crew in row}
        for crew in after:
            if crew.work in numbers and numbers[crew.work] <= len(after):
                kept += numbers[crew.work] == crew.number
                changed += numbers[crew.work] != crew.number
    assert (kept > 50, changed) == (True, 0)


def test_tasks_are_listed_in_the_order_in_which_they_begin(solved):
    begins = [periods[0] for _, periods in spans(solved) if periods]
    assert begins == sorted(begins)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"tasks": (typed("a", after=(After(task="b"),)), typed("b", after=(After(task="a"),)))},
            ["these wait for each other", "'a' -> 'b' -> 'a'"],
        ),
        (
            {"tasks": (*typed_tasks(), typed("x", needs_gates=("devices",), opens_gates=("rough-in",)))},
            ["these wait for each other", "'Set boxes"],
        ),
        ({"tasks": (typed("x", crew_least=2, place="attic"),), "places": (("attic", 1),)}, ["attic holds 1"]),
        ({"students": 0}, ["nobody is in it"]),
        ({"set_day": FIRST}, ["set day", "not after the first day"]),
        ({"tasks": (typed("x", material_due=date(2027, 6, 10)),)}, ["its material is due 10 June 2027"]),
        ({"tasks": (typed("x", guest="engineer"),)}, ["'engineer' comes to no period"]),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said(opened, changes, said):
    with pytest.raises(NoAnswer) as error:
        day_of(opened, **changes)
    assert [words for words in said if words not in str(error.value)] == []


def test_a_work_nobody_may_do_is_said_with_what_bars_them(opened):
    people = tuple(student(n, signed=("drill",)) for n in range(1, 5))
    plan = class_plan()
    with pytest.raises(NoAnswer, match=r"the sign-off 'electrical' is missing \(students: 4\)"):
        day_of(opened, classes=(replace(plan.classes[0], students=people),))


def test_set_day_in_the_past_is_said(opened):
    with pytest.raises(NoAnswer, match="today is 1 July 2027"):
        class_day(opened, class_plan(), clock=time.perf_counter, today=date(2027, 7, 1))


def test_everything_that_cannot_be_is_said_at_once(opened):
    tasks = (typed("x", guest="engineer"), typed("y", material_due=date(2027, 7, 1)))
    with pytest.raises(NoAnswer) as error:
        day_of(opened, tasks=tasks, rates=())
    assert str(error.value).count("\n") >= 6
