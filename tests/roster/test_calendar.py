"""The calendar, meeting by meeting."""

import calendar as python_calendar
from dataclasses import replace
from datetime import date, time, timedelta

import pytest
from dateutil.rrule import WEEKLY, rrule
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.errors import NoAnswer
from setday.findings import Severity
from setday.roster import (
    Absence,
    Bell,
    Calendar,
    DayOff,
    EarlyDismissal,
    Guest,
    Help,
    SchoolClass,
    Stretch,
    check_calendar,
    meetings,
    set_period,
)
from tests.roster.people import AUTUMN, MORNING, group, student

AFTERNOON = Bell(weekdays=(1, 3), begin=time(12, 40), minutes=60)
TWO = (group("am"), group("pm", meetings=(AFTERNOON,)))


def days(listed):
    """The dates of meetings."""
    return [each.date for each in listed]


@settings(max_examples=150)
@given(
    weekdays=st.sets(st.integers(0, 6), min_size=1),
    first=st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    length=st.integers(7, 400),
    every=st.integers(1, 3),
    data=st.data(),
)
def test_weekdays_are_those_of_dateutil(weekdays, first, length, every, data):
    """Outside check: dateutil's recurrence rule with the same weekdays and interval."""
    week = data.draw(st.integers(0, every - 1))
    bell = Bell(weekdays=tuple(sorted(weekdays)), begin=time(8), minutes=50, every_weeks=every, week=week)
    set_day = first + timedelta(days=length)
    monday = first - timedelta(days=first.weekday()) + timedelta(weeks=week)
    rule = rrule(
        WEEKLY, interval=every, byweekday=sorted(weekdays), dtstart=monday, until=set_day - timedelta(days=1)
    )
    expected = [at.date() for at in rule if at.date() >= first]
    if expected:
        assert (
            days(meetings(Calendar(first_day=first, set_day=set_day), [group(meetings=(bell,))])) == expected
        )


@pytest.mark.parametrize("month", range(1, 13))
def test_a_month_of_mondays_is_that_of_python(month):
    """Outside check: Python's own calendar."""
    expected = [week[0] for week in python_calendar.monthcalendar(2027, month) if week[0]]
    last = date(2027, month, python_calendar.monthrange(2027, month)[1]) + timedelta(days=1)
    monday = group(meetings=(Bell(weekdays=(0,), begin=time(9), minutes=60),))
    found = meetings(Calendar(first_day=date(2027, month, 1), set_day=last), [monday])
    assert [each.date.day for each in found] == expected


def test_meetings_are_numbered_in_order_over_all_classes():
    found = meetings(AUTUMN, TWO)
    assert [each.number for each in found] == list(range(len(found)))
    assert sorted(found, key=lambda each: (each.date, each.begin)) == list(found)
    assert {each.school_class for each in found} == {"am", "pm"}


def test_set_day_is_no_day_of_work_and_days_beyond_are_listed_when_asked_for():
    assert max(days(meetings(AUTUMN, TWO))) < AUTUMN.set_day
    longer = meetings(AUTUMN, TWO, beyond_days=14)
    assert max(days(longer)) > AUTUMN.set_day
    assert longer[set_period(AUTUMN, longer)].date >= AUTUMN.set_day
    assert set_period(AUTUMN, longer) == len(meetings(AUTUMN, TWO))


def test_a_day_off_falls_out_for_all_or_for_the_classes_it_names():
    week = Stretch(first=date(2026, 9, 14), last=date(2026, 9, 18))
    everybody = replace(AUTUMN, days_off=(DayOff(days=week, why="fall break"),))
    assert not [day for day in days(meetings(everybody, TWO)) if day in week]
    some = replace(AUTUMN, days_off=(DayOff(days=week, why="tests", classes=frozenset({"am"})),))
    assert {each.school_class for each in meetings(some, TWO) if each.date in week} == {"pm"}


@pytest.mark.parametrize(
    ("early", "minutes"),
    [
        (EarlyDismissal(day=date(2026, 9, 9), ends=time(9, 5)), 60),
        (EarlyDismissal(day=date(2026, 9, 9), ends=time(15)), 90),
        (EarlyDismissal(day=date(2026, 9, 9), minutes=45), 45),
        (EarlyDismissal(day=date(2026, 9, 9), minutes=120), 90),
    ],
)
def test_an_early_dismissal_cuts_a_period_and_never_lengthens_one(early, minutes):
    found = meetings(replace(AUTUMN, early=(early,)), [group()])
    assert [each.minutes for each in found if each.date == early.day] == [minutes]
    assert {each.minutes for each in found if each.date != early.day} == {90}


def test_a_period_after_an_early_dismissal_falls_out():
    early = EarlyDismissal(day=date(2026, 9, 9), ends=time(8, 5))
    assert early.day not in days(meetings(replace(AUTUMN, early=(early,)), [group()]))


def test_absences_are_of_the_class_that_meets():
    away = Absence(student="am one", days=Stretch(first=date(2026, 9, 9), last=date(2026, 9, 11)))
    found = meetings(replace(AUTUMN, absences=(away,)), TWO)
    assert [(each.date.day, each.school_class) for each in found if each.absent] == [(9, "am"), (11, "am")]


def test_a_guest_is_in_the_period_running_then():
    inspector = Guest(who="inspector", days=(date(2026, 9, 10),), at=time(13))
    engineer = Guest(who="engineer", days=(date(2026, 9, 9),))
    found = meetings(replace(AUTUMN, guests=(inspector, engineer)), TWO)
    assert [(each.date.day, each.guests) for each in found if each.guests] == [
        (9, ("engineer",)),
        (10, ("inspector",)),
    ]


def test_a_helper_adds_attention_on_their_days():
    month = Stretch(first=date(2026, 9, 7), last=date(2026, 9, 30))
    helped = replace(AUTUMN, help=(Help(who="aide", days=month, weekdays=(1,)),))
    found = meetings(helped, TWO)
    assert {each.attention for each in found if each.date.weekday() == 1 and each.date in month} == {20}
    assert {each.attention for each in found if each.date.weekday() != 1} == {10}


def test_wet_days_are_wet_and_months_give_the_odds():
    wet = replace(AUTUMN, wet_days=frozenset({date(2026, 9, 9)}), wet_share=((9, 0.25),))
    by_day = {each.date: each for each in meetings(wet, TWO)}
    assert (by_day[date(2026, 9, 9)].dry, by_day[date(2026, 9, 9)].wet_chance) == (False, 1.0)
    assert (by_day[date(2026, 9, 11)].dry, by_day[date(2026, 9, 11)].wet_chance) == (True, 0.25)
    assert by_day[date(2026, 10, 2)].wet_chance == 0.0


@pytest.mark.parametrize("begin", [time(7), time(8, 50), time(9, 34)])
def test_overlapping_periods_are_refused_with_both_named(begin):
    other = group("pm", meetings=(Bell(weekdays=(4,), begin=begin, minutes=70),))
    (found,) = check_calendar(AUTUMN, [group("am"), other])
    assert found.rule == "calendar.overlap"
    assert "am class" in found.found
    assert "pm class" in found.found
    assert "Friday 11 September 2026" in found.found


def test_a_long_period_overlaps_one_that_is_not_its_next():
    long = group("am", meetings=(Bell(weekdays=(0,), begin=time(8), minutes=240),))
    short = group("pm", meetings=(Bell(weekdays=(0,), begin=time(9), minutes=30),))
    late = group("ev", meetings=(Bell(weekdays=(0,), begin=time(11), minutes=30),))
    assert len(check_calendar(AUTUMN, [long, short, late])) == 2


def test_periods_that_touch_do_not_overlap():
    next_one = group("pm", meetings=(Bell(weekdays=(4,), begin=time(9, 35), minutes=60),))
    assert check_calendar(AUTUMN, [group("am"), next_one]) == ()


def test_one_class_overlapping_itself_is_refused():
    twice = group(meetings=(MORNING, replace(MORNING, begin=time(9))))
    assert [each.rule for each in check_calendar(AUTUMN, [twice])] == ["calendar.overlap"]


def test_everything_impossible_is_told_at_once():
    empty = SchoolClass(key="e", name="Empty", meetings=(MORNING,))
    never = group("n", meetings=(), students=(student("n one"), student("n one")))
    wrong = replace(
        AUTUMN,
        absences=(Absence(student="nobody", days=Stretch(first=date(2026, 9, 9), last=date(2026, 9, 9))),),
    )
    with pytest.raises(NoAnswer) as told:
        meetings(wrong, [empty, never], today=date(2027, 1, 1))
    for words in ("set day", "Empty", "never meets", "two are called n one", "no class has that student"):
        assert words in told.value.message


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"set_day": date(2026, 9, 7)}, "calendar.set-day"),
        ({"set_day": date(2036, 9, 7)}, "calendar.set-day"),
        (
            {"days_off": (DayOff(days=Stretch(first=date(2026, 9, 1), last=date(2026, 10, 9)), why="x"),)},
            "calendar.no-period",
        ),
    ],
)
def test_a_calendar_without_days_of_work_is_a_problem(change, rule):
    assert [each.rule for each in check_calendar(replace(AUTUMN, **change), [group()])] == [rule]


def test_no_class_is_a_problem():
    assert [each.rule for each in check_calendar(AUTUMN, [])] == ["calendar.no-class"]


def test_set_day_today_or_before_is_past():
    assert check_calendar(AUTUMN, TWO, today=date(2026, 10, 4)) == ()
    assert [each.rule for each in check_calendar(AUTUMN, TWO, today=date(2026, 10, 5))] == [
        "calendar.set-day-over"
    ]


def test_a_guest_on_a_day_without_a_period_is_doubted():
    sunday = Guest(who="inspector", days=(date(2026, 9, 13),))
    (found,) = check_calendar(replace(AUTUMN, guests=(sunday,)), TWO)
    assert (found.rule, found.severity) == ("calendar.guest", Severity.ASK)
    assert "Sunday 13 September 2026" in found.found


@given(off=st.sets(st.integers(0, 27)), more=st.integers(0, 27))
def test_one_more_day_off_never_adds_a_meeting(off, more):
    def count(numbers):
        listed = tuple(
            DayOff(
                days=Stretch(
                    first=AUTUMN.first_day + timedelta(days=n), last=AUTUMN.first_day + timedelta(days=n)
                ),
                why="off",
            )
            for n in numbers
        )
        try:
            return len(meetings(replace(AUTUMN, days_off=listed), TWO))
        except NoAnswer:
            return 0

    assert count(off | {more}) <= count(off)


@pytest.mark.parametrize(
    "wrong",
    [
        {"weekdays": (7,)},
        {"minutes": 0},
        {"every_weeks": 2, "week": 2},
    ],
)
def test_a_bell_that_cannot_ring_is_a_mistake_of_the_caller(wrong):
    with pytest.raises(ValueError, match=r"weekdays run|a period of"):
        Bell(**{"weekdays": (0,), "begin": time(8), "minutes": 50, **wrong})
