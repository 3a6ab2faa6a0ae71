"""Pictures of a timetable: readable in black and white, told in words, the same facts in a table."""

import re
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.drawing import (
    Paper,
    PlacedTask,
    TaskState,
    place_chart,
    spread_picture,
    spread_table,
    task_chart,
    task_table,
    trade_codes,
)

FIRST, SET_DAY = date(2027, 1, 11), date(2027, 3, 1)


def task(label="Shingle the roof", *, state=TaskState.PLANNED, done=0, days=(0, 1, 2), **changes):
    given = {"place": "roof", "trade": "roof"} | changes
    on = tuple(FIRST + timedelta(days=day) for day in days)
    return PlacedTask(label=label, days=on, state=state, done_days=done, **given)


def chart(*tasks, draw=task_chart):
    return draw(tasks, first=FIRST, last=SET_DAY, set_day=SET_DAY, title="Tasks over time")


@pytest.mark.parametrize("draw", [task_chart, place_chart])
def test_a_picture_says_what_it_is(draw):
    svg = chart(task(), draw=draw)
    assert "<title" in svg
    assert "<desc" in svg


@pytest.mark.parametrize("draw", [task_chart, place_chart])
def test_every_letter_is_at_least_seven_points(draw):
    sizes = [float(size) * 72 / 96 for size in re.findall(r'font-size="([\d.]+)"', chart(task(), draw=draw))]
    assert min(sizes) >= 7


def test_set_day_is_marked():
    assert "SET DAY" in chart(task())


@pytest.mark.parametrize("state", list(TaskState))
def test_a_state_has_its_letter_and_its_words_in_the_key(state):
    svg = chart(task(state=state))
    assert f">{state.value}<" in svg
    assert f">{state.value} {state.name.lower()}<" in svg


def test_nothing_is_told_by_colour():
    svg = chart(task(state=TaskState.RUNNING, done=1), task("b", trade="cable"))
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg)) <= {"none", "currentColor", "#fff"}


def test_days_over_a_weekend_are_one_bar():
    friday = task(days=(4, 7))  # 11 January 2027 is a Monday
    assert chart(friday).count("<rect") == chart(task(days=(0, 1))).count("<rect")


def test_a_place_shows_the_letters_of_its_trade():
    assert ">RO<" in chart(task(days=tuple(range(5))), draw=place_chart)


@given(st.lists(st.sampled_from(["cable", "cabinets", "cab", "carpentry", "roof", "c", "7"]), unique=True))
def test_no_two_trades_have_the_same_letters(trades):
    codes = trade_codes(trades)
    assert len(set(codes.values())) == len(trades)


def test_the_table_has_every_task():
    assert [row[0] for row in task_table([task(), task("b", days=())], caption="x").rows] == [
        "Shingle the roof",
        "b",
    ]


def spread(beyond=0):
    days = [(SET_DAY - timedelta(days=3), 60), (SET_DAY + timedelta(days=4), 40 - beyond)]
    return {"finishes": days, "beyond": beyond, "set_day": SET_DAY}


def test_the_spread_tells_the_chance_of_set_day():
    given = spread()
    svg = spread_picture(given.pop("finishes"), **given, title="x", marks=[("80%", SET_DAY)])
    assert "60% of 100 plays are ready before set day" in svg


def test_plays_beyond_the_calendar_are_said():
    given = spread(beyond=10)
    svg = spread_picture(given.pop("finishes"), **given, title="x")
    assert "10.0% not done within the calendar" in svg


def test_the_spread_in_figures_adds_up():
    given = spread(beyond=10)
    rows = spread_table(given.pop("finishes"), **given, caption="x").rows
    assert [row[1] for row in rows] == ["60.0%", "30.0%", "10.0%"]


@pytest.mark.parametrize("draw", [task_chart, place_chart])
def test_on_a_phone_all_letters_are_of_twelve_units_and_stay_on_the_paper(draw):
    paper = Paper(width=316, height=900, to_scale=False)
    days = [FIRST + timedelta(days=n) for n in range(10)]
    tasks = [task(days=tuple(range(3))), task(days=tuple(range(5, 9)))]
    svg = draw(tasks, first=days[0], last=days[-1], set_day=days[-1], title="T", paper=paper)
    assert {float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)} == {12.0}
    assert 'viewBox="0 0 316 ' in svg
