"""What is ahead: orders, deliveries and bookings, with how much of what the house's own tasks take."""

import time
from collections import Counter
from dataclasses import replace
from datetime import timedelta

import pytest

from setday.actions import demo_text, open_house
from setday.actions.buying import demo_prices, usable_prices
from setday.actions.timetable.ahead import ahead_of, ahead_rows
from setday.actions.timetable.ahead_goods import HouseMaterial
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.solving import solve_timetable, spans
from setday.materials import StockItem, buying_list
from setday.needs import Need
from setday.solving import Limits
from tests.actions.invented_class import FIRST, cable_figured_once, class_plan

ALL = {"since": FIRST, "until": FIRST + timedelta(days=200)}
BOARD, SCREW = "board-regular-1/2-48x144", "screw-coarse-1-1/4"


@pytest.fixture(scope="module")
def found():
    with cable_figured_once():
        house = open_house(demo_text("wired"), name="wired.yaml")
        day = class_day(house, class_plan(), clock=time.perf_counter)
    return solve_timetable(day, limits=Limits(seconds=0.5, clock=time.perf_counter, workers=1))


@pytest.fixture(scope="module")
def prices():
    return usable_prices(demo_prices(), name="demo prices")


def need(item, quantity, place, *, trade="boards", phase="hang", unit="pieces"):
    return Need(trade=trade, item=item, label=item, quantity=quantity, unit=unit, place=place, phase=phase,
                waste_included=True)  # fmt: skip


NEEDS = (
    need(BOARD, 7, "kitchen"),
    need(BOARD, 5, "bath"),
    need(BOARD, 9, "living"),
    need(SCREW, 4901, "house", unit="screws"),
    need("box-1-gang-18", 44, "house", trade="cable", phase="rough"),
    need("cable-14/2-250", 3, "house", trade="cable", phase="rough"),
    need("connector-twist", 55, "house", trade="switching", phase="rough"),
    need("switch-three-way", 10, "house", trade="cable", phase="trim"),
    need("moon rock", 2, "house"),
)


def material(prices, *, stock=(), needs=NEEDS):
    return HouseMaterial(needs=needs, prices=prices, stock=stock)


def begins(found, kind, place=None):
    days = [found.day.meetings[periods[0]].date for work, periods in spans(found)
            if periods and work.kind == kind and place in (None, work.place)]  # fmt: skip
    return min(days)


def orders(looked):
    return [item for item in looked.items if item.sold and item.what.startswith("order ")]


def ordered(looked):
    """Return how many of each sold unit are ordered over all weeks."""
    sums = Counter()
    for each in orders(looked):
        sums[each.item] += each.count
    return sums


def test_without_quantities_material_is_ordered_ahead_of_the_first_task_that_takes_it(found):
    items = ahead_of(found, **ALL).items
    order = next(item for item in items if item.what.startswith("order boards and screws"))
    yard = next(item for item in items if item.what == "boards and screws in the yard")
    assert order.by < yard.by < begins(found, "hang-ceilings")


def test_what_has_no_quantity_is_said_so(found):
    looked = ahead_of(found, **ALL)
    assert any("No quantity is known" in note and "Siding, south side" in note for note in looked.notes)
    assert all(not item.count for item in looked.items)


def test_the_inspector_is_confirmed_in_time(found):
    inspector = next(i for i in ahead_of(found, **ALL).items if "electrical inspector" in i.what)
    assert inspector.by < begins(found, "inspect")


def test_nothing_falls_due_on_a_weekend(found, prices):
    items = ahead_of(found, **ALL, material=material(prices)).items
    assert {item.by.weekday() for item in items} <= set(range(5))


def test_what_is_late_says_so(found):
    looked = ahead_of(found, since=FIRST, until=FIRST + timedelta(days=20))
    listed = ahead_rows(looked, since=FIRST, until=FIRST)
    assert [row for row in listed.rows if row[0].startswith("LATE")]


@pytest.mark.parametrize(
    ("item", "kind"),
    [
        ("box-1-gang-18", "set-boxes"),
        ("cable-14/2-250", "pull"),
        ("connector-twist-100", "make-up"),
        ("switch-three-way", "set-devices"),
        ("screw-coarse-1-1/4-5000", "hang-ceilings"),
    ],
)
def test_goods_are_needed_on_the_first_day_of_the_work_that_takes_them(found, prices, item, kind):
    looked = ahead_of(found, **ALL, material=material(prices))
    order = next(each for each in orders(looked) if each.item == item)
    assert order.needed == begins(found, kind)
    assert order.by < order.needed


def test_boards_of_a_room_come_by_the_week_in_which_its_hanging_begins(found, prices):
    looked = ahead_of(found, **ALL, material=material(prices))
    boards = [each for each in orders(looked) if each.item == BOARD]
    assert sum(each.count for each in boards) == 21
    for each in boards:
        first = min(
            begins(found, "hang-ceilings", place) for place in ("kitchen", "bath", "living and entry")
        )
        assert first <= each.needed


def test_everything_together_is_what_the_buying_list_buys(found, prices):
    """However it is divided over the weeks, sold units add up to those of one list for the whole job."""
    looked = ahead_of(found, **ALL, material=material(prices))
    bought = Counter()
    for line in buying_list(NEEDS, prices).lines:
        for each in line.packages:
            bought[each.package.key] += each.count
    assert ordered(looked) == bought


@pytest.mark.parametrize(("lying", "left"), [(0, 21), (6, 15), (20, 1), (21, 0), (400, 0)])
def test_what_lies_in_the_yard_is_taken_off(found, prices, lying, left):
    stock = (StockItem(item=BOARD, quantity=lying, unit="pieces"),)
    looked = ahead_of(found, **ALL, material=material(prices, stock=stock))
    assert ordered(looked)[BOARD] == left
    told = any("Taken off by the count of the yard" in note for note in looked.notes)
    assert told == bool(lying)


def test_stock_is_used_up_by_the_first_rooms(found, prices):
    first, last = sorted(
        [("kitchen", 7), ("bath", 5)], key=lambda each: begins(found, "hang-ceilings", each[0])
    )
    needs = tuple(each for each in NEEDS if each.item == BOARD and each.place != "living")
    stock = (StockItem(item=BOARD, quantity=first[1], unit="pieces"),)
    looked = ahead_of(found, **ALL, material=material(prices, stock=stock, needs=needs))
    weeks = {each.needed for each in orders(looked)}
    assert (ordered(looked)[BOARD], weeks) == (last[1], {begins(found, "hang-ceilings", last[0])})


def test_what_begun_tasks_take_is_not_ordered_again(found, prices):
    since = begins(found, "set-devices") + timedelta(days=1)
    looked = ahead_of(found, since=since, until=since + timedelta(days=300), material=material(prices))
    assert not orders(looked)


def test_what_no_list_sells_is_said(found, prices):
    looked = ahead_of(found, **ALL, material=material(prices))
    assert any("Not on the price list" in note and "moon rock" in note for note in looked.notes)


def test_what_no_planned_task_takes_is_said(found, prices):
    stray = need(BOARD, 1, "kitchen", trade="piping")
    looked = ahead_of(found, **ALL, material=material(prices, needs=(stray,)))
    assert any("no planned task takes it" in note for note in looked.notes)


def test_the_sheet_lists_every_order_with_its_count(found, prices):
    looked = ahead_of(found, **ALL, material=material(prices))
    listed = ahead_rows(looked, since=FIRST, until=ALL["until"])
    assert len(listed.orders) == len(orders(looked)) > 5
    assert any("kinds, listed below" in what for _by, what, _for, _why in listed.rows)
    from setday.sheets import ahead_sheet

    assert len(ahead_sheet(listed).blocks) > 2
    assert len(ahead_sheet(replace(listed, rows=(), orders=(), notes=())).blocks) == 1
