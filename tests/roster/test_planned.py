"""What is typed for the timetable, checked without a file."""

import itertools
from dataclasses import replace
from datetime import date, time, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.findings import Severity
from setday.roster import (
    After,
    Bell,
    Calendar,
    ClassPlan,
    DayOff,
    EarlyDismissal,
    Guest,
    Pin,
    Rate,
    Stretch,
    TypedTask,
    check_calendar,
    check_plan,
    meetings,
    minute_of_day,
    rate_of,
    student_hours,
)
from tests.roster.people import AUTUMN, adult, group, signed, student

DAY = date(2026, 9, 9)


def task(key="felt", **more):
    """A task of six hours on the roof."""
    return TypedTask(
        **{"key": key, "label": key, "trade": "roof", "place": "roof", "hours": 6.0, "crew_least": 1, **more}
    )


def plan(*tasks, **more):
    """A class of two with tasks."""
    pair = (student("ana"), adult("cy", signoffs=(signed("heights"),)))
    return ClassPlan(
        **{"school": "Elm", "classes": (group(students=pair),), "calendar": AUTUMN, "tasks": tasks, **more}
    )


def rules(made):
    """The rules found."""
    return [each.rule for each in check_plan(made)]


def test_a_plain_task_is_fine():
    assert rules(plan(task())) == []


def test_a_loop_is_told_once_with_all_in_it():
    one, two, three = (
        task("one", after=(After(task="three"),)),
        task("two", after=(After(task="one"),)),
        task("three", after=(After(task="two", days=2),)),
    )
    (found,) = check_plan(plan(one, two, three))
    assert found.rule == "plan.loop"
    assert all(f"'{key}'" in found.found for key in ("one", "two", "three"))


@pytest.mark.parametrize(
    ("more", "rule", "severity"),
    [
        ({"after": (After(task="wiring"),)}, "plan.after", Severity.ASK),
        ({"hours": None}, "plan.hours", Severity.PROBLEM),
        ({"hours": None, "quantity": 20.0, "unit": "ft2"}, "plan.rate", Severity.PROBLEM),
        ({"material_due": date(2026, 10, 5)}, "plan.too-late", Severity.PROBLEM),
        ({"not_before": date(2026, 10, 5)}, "plan.too-late", Severity.PROBLEM),
        ({"on": (date(2026, 9, 10),)}, "plan.day", Severity.ASK),
        ({"guest": "inspector"}, "plan.guest", Severity.PROBLEM),
        ({"crew_least": 3}, "plan.nobody", Severity.ASK),
        ({"crew_least": 2, "exposures": ("roofing",)}, "plan.nobody", Severity.ASK),
        ({"crew_least": 2, "signoffs": ("heights",)}, "plan.nobody", Severity.ASK),
        ({"attention": 11}, "plan.attention", Severity.PROBLEM),
    ],
)
def test_a_task_that_cannot_be_done_is_told(more, rule, severity):
    (found,) = check_plan(plan(task(**more)))
    assert (found.rule, found.severity) == (rule, severity)
    assert found.do


def test_a_place_that_holds_too_few_is_told():
    assert rules(plan(task(crew_least=2), places=(("Roof", 1),))) == ["plan.cramped"]


def test_a_filler_needs_neither_hours_nor_a_place_that_holds_all():
    assert rules(plan(task(hours=None, filler=True, crew_least=2), places=(("roof", 1),))) == []


def test_a_guest_who_comes_to_a_period_will_do():
    calendar = replace(AUTUMN, guests=(Guest(who="Inspector", days=(DAY,)),))
    assert rules(plan(task(guest="inspector"), calendar=calendar)) == []


def test_a_pin_of_a_minor_on_a_roof_is_refused_and_of_an_adult_is_not():
    roof = task(exposures=("roofing",))
    on = Stretch(first=DAY, last=DAY)
    assert rules(plan(roof, pins=(Pin(task="felt", days=on, students=("ana",)),))) == ["limits.order-16"]
    assert rules(plan(roof, pins=(Pin(task="felt", days=on, students=("cy",)),))) == []


@pytest.mark.parametrize(
    ("work", "unit", "expected"),
    [
        ("shingles", "ft2", 0.08),
        ("", "opening", 2.0),
        ("", "openings", 2.0),
        ("", "ft2", None),
        ("felt", "ft", None),
    ],
)
def test_a_rate_is_found_by_trade_work_and_unit_and_never_guessed(work, unit, expected):
    rates = (
        Rate(trade="Roof", work="shingles", hours=0.08, unit="ft2"),
        Rate(trade="roof", work="felt", hours=0.02, unit="ft2"),
        Rate(trade="roof", work="skylight", hours=2.0, unit="opening"),
    )
    found = rate_of(task(hours=None, quantity=10.0, unit=unit, work=work), rates)
    assert (found.hours if found else None) == expected


def test_the_class_factor_of_the_trade_counts_for_hours_and_rates():
    rate = Rate(trade="roof", work="felt", hours=0.02, unit="ft2")
    made = plan(rates=(rate,), factors=(("roof", 1.5),))
    assert student_hours(task(), made) == pytest.approx(9)
    assert student_hours(task(hours=None, quantity=100.0, unit="ft2"), made) == pytest.approx(3)


BELLS = st.builds(
    Bell,
    weekdays=st.sets(st.integers(0, 4), min_size=1).map(lambda days: tuple(sorted(days))),
    begin=st.builds(time, st.integers(7, 15), st.sampled_from([0, 15, 30, 45])),
    minutes=st.integers(30, 180),
)
OFFS = st.lists(st.tuples(st.integers(0, 60), st.integers(0, 5)), max_size=4)


@settings(max_examples=100, deadline=None)
@given(
    bells=st.lists(BELLS, min_size=1, max_size=3),
    offs=OFFS,
    short=st.dictionaries(st.integers(0, 60), st.integers(8, 16), max_size=4),
)
def test_meetings_of_a_calendar_without_problems_keep_every_rule(bells, offs, short):
    """Checked by going through the meetings, without the code that makes them."""
    first = date(2026, 9, 7)
    calendar = Calendar(
        first_day=first,
        set_day=first + timedelta(days=60),
        days_off=tuple(
            DayOff(
                days=Stretch(first=first + timedelta(days=at), last=first + timedelta(days=at + more)),
                why="off",
            )
            for at, more in offs
        ),
        early=tuple(
            EarlyDismissal(day=first + timedelta(days=at), ends=time(hour)) for at, hour in short.items()
        ),
    )
    classes = [group(f"class {n}", meetings=(bell,)) for n, bell in enumerate(bells)]
    if check_calendar(calendar, classes):
        return
    found = meetings(calendar, classes)
    assert [each.number for each in found] == list(range(len(found)))
    ends = {early.day: minute_of_day(early.ends) for early in calendar.early}
    for one, other in itertools.pairwise(found):
        begin = minute_of_day(other.begin)
        assert one.date < other.date or minute_of_day(one.begin) + one.minutes <= begin
    for each in found:
        assert calendar.first_day <= each.date < calendar.set_day
        assert not [off for off in calendar.days_off if off.days.first <= each.date <= off.days.last]
        assert each.minutes > 0
        assert minute_of_day(each.begin) + each.minutes <= ends.get(each.date, 24 * 60)
