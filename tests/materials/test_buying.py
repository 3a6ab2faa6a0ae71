"""The buying list: sums, waste, stock, deliveries, money."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.findings import Severity
from setday.materials import Delivery, PriceList, StockItem, buying_list, waste_rules
from setday.materials.buying import divide_cents
from setday.materials.quantity import exact_quantity
from setday.rules import LocalRules
from tests.materials.cases import BOARD, PRICES, SCREWS, TAPE, need, needs, package

STOCK = st.lists(
    st.builds(
        StockItem,
        item=st.sampled_from(["screw", "tape", "board-48x96", "unlisted"]),
        quantity=st.integers(0, 9000).map(Fraction),
        unit=st.sampled_from(["screws", "ft", "pieces"]),
    ),
    max_size=4,
)


@given(wanted=needs())
def test_the_places_of_a_line_sum_to_what_it_needs(wanted):
    for line in buying_list(wanted, PRICES).lines:
        exact = sum(exact_quantity(n.quantity) for n in wanted if (n.item, n.unit) == (line.item, line.unit))
        assert line.needed == sum(share.quantity for share in line.shares) == exact
        assert line.waste == sum(share.waste for share in line.shares)


@given(wanted=needs(), stock=STOCK)
def test_stock_is_never_used_beyond_the_need_nor_beyond_what_lies_there(wanted, stock):
    for line in buying_list(wanted, PRICES, stock=stock).lines:
        there = sum(s.quantity for s in stock if (s.item, s.unit) == (line.item, line.unit))
        assert 0 <= line.on_hand <= min(there, line.needed + line.waste)
        assert line.on_hand == min(there, line.needed + line.waste)
        assert line.to_buy >= 0


@given(wanted=needs(), stock=STOCK)
def test_what_is_bought_covers_the_need_without_a_package_to_spare(wanted, stock):
    for line in buying_list(wanted, PRICES, stock=stock).lines:
        if line.served:
            assert line.bought - line.to_buy == line.left_over >= 0
            smallest = min(p.content for p in line.sold_units)
            assert line.left_over < smallest or len(line.sold_units) > 1


@given(wanted=needs())
def test_waste_is_added_once_and_only_where_it_is_not_in_yet(wanted):
    # tape 10 percent, boards by area 5 percent: Dagostino and Peterson, Example 16-3, page 203
    rates = {"tape": Fraction(1, 10), "board-48x96": Fraction(1, 20)}
    for line in buying_list(wanted, PRICES).lines:
        bare = [n for n in line.needs if not n.waste_included]
        base = sum((exact_quantity(n.quantity) for n in bare), Fraction(0))
        assert line.waste == base * rates.get(line.item, 0)


@given(wanted=needs(), stock=STOCK)
def test_phases_and_places_share_the_total_to_the_cent(wanted, stock):
    buying = buying_list(wanted, PRICES, stock=stock)
    for division in (buying.by_phase(), buying.by_place(), buying.by_trade()):
        assert sum(cents for _, cents in division) == buying.total_cents


@given(wanted=needs(), stock=STOCK, together=st.booleans())
def test_deliveries_bring_exactly_what_is_bought_and_nothing_late(wanted, stock, together):
    trucks = [Delivery(name="first", phases=("rough", "hang"))] if together else []
    buying = buying_list(wanted, PRICES, stock=stock, deliveries=trucks)
    for line in buying.lines:
        brought: dict[str, int] = {}
        need_so_far, content = -line.on_hand, Fraction(0)
        for delivery in buying.deliveries:
            for drop in delivery.drops:
                if drop.item == line.item and line.unit == drop.package.unit:
                    brought[drop.package.key] = brought.get(drop.package.key, 0) + drop.count
                    content += drop.count * drop.package.content
            need_so_far += sum(s.quantity + s.waste for s in line.shares if s.phase in delivery.phases)
            assert not line.served or content >= need_so_far
        assert brought == {entry.package.key: entry.count for entry in line.packages}


@given(wanted=needs())
@settings(max_examples=40)
def test_the_order_of_needs_changes_no_cost(wanted):
    there, back = buying_list(wanted, PRICES), buying_list(wanted[::-1], PRICES)
    assert [(line.item, line.cost_cents) for line in there.lines] == [
        (line.item, line.cost_cents) for line in back.lines
    ]


@given(cents=st.integers(0, 10**6), weights=st.lists(st.integers(0, 99), min_size=1, max_size=8))
def test_an_amount_is_divided_without_losing_a_cent(cents, weights):
    parts = divide_cents(cents, [Fraction(w) for w in weights])
    assert sum(parts) == cents
    if any(weights):
        exact = [Fraction(cents * w, sum(weights)) for w in weights]
        assert all(abs(part - share) < 1 for part, share in zip(parts, exact, strict=True))


def test_tape_and_screws_of_the_textbook_example():
    # Dagostino and Peterson, Example 16-3, page 203: 2,660 ft of tape, 10 % more, 50-ft rolls: 59;
    # 7,000 screws
    roll = package("tape-50", item="tape", content=50, unit="ft", cents=175, category="tape")
    prices = PriceList(name="p", items=(roll, SCREWS[0]))
    buying = buying_list([need("tape", 2660, "ft"), need("screw", 7000, "screws")], prices)
    counts = {line.item: line.packages[0].count for line in buying.lines}
    assert counts == {"tape": 59, "screw": 7}


def test_a_layouts_boards_get_no_waste_and_a_count_by_area_does():
    laid_out = buying_list([need("board-48x96", 40, "pieces", waste_included=True)], PRICES).lines[0]
    by_area = buying_list([need("board-48x96", 40, "pieces")], PRICES).lines[0]
    assert (laid_out.waste, laid_out.packages[0].count) == (0, 40)
    assert (by_area.waste, by_area.packages[0].count) == (2, 42)


def test_the_price_lists_own_waste_goes_before_the_rule_and_a_local_rule_before_the_book():
    own = package(
        "tape-x", item="tape", content=500, unit="ft", cents=1, category="tape", waste=Fraction(1, 4)
    )
    listed = buying_list([need("tape", 400, "ft")], PriceList(name="p", items=(own,))).lines[0]
    local = waste_rules().with_local(LocalRules(values={"materials.waste_tape": "0.5"}))
    ruled = buying_list([need("tape", 400, "ft")], PRICES, rules=local).lines[0]
    assert (listed.waste, ruled.waste) == (100, 200)


def test_parts_of_a_package_add_up_before_they_are_rounded():
    paste = package("paste", item="paste", content="3/10", unit="gal", cents=100)
    rooms = [need("paste", 0.1, "gal", place=place) for place in ("bath", "hall", "porch")]
    line = buying_list(rooms, PriceList(name="p", items=(paste,))).lines[0]
    assert [entry.count for entry in line.packages] == [1]


def test_an_item_without_a_price_keeps_its_line_and_is_said():
    buying = buying_list([need("glue", 3, "tubes"), need("screw", 10, "screws")], PRICES)
    glue = next(line for line in buying.lines if line.item == "glue")
    assert (glue.packages[0].count, glue.cost_cents) == (3, None)
    assert buying.total_cents == 900
    assert [(f.rule, f.severity) for f in buying.findings] == [("materials.no-price", Severity.ASK)]


@pytest.mark.parametrize(
    ("item", "unit", "rule"), [("nails", "nails", "not-listed"), ("tape", "rolls", "other-unit")]
)
def test_what_the_list_cannot_serve_keeps_its_line_and_is_said(item, unit, rule):
    buying = buying_list([need(item, 3, unit)], PRICES)
    assert [line.served for line in buying.lines] == [False]
    assert [f.rule for f in buying.findings] == [f"materials.{rule}"]


def test_stock_counted_in_whole_sold_units_serves_too():
    stock = [StockItem(item="screw-1000", quantity=Fraction(2), unit="pieces")]
    line = buying_list([need("screw", 2500, "screws")], PRICES, stock=stock).lines[0]
    assert (line.on_hand, line.to_buy, line.packages[0].count) == (2000, 500, 1)


def test_stock_nobody_needs_is_noted():
    stock = [StockItem(item="lantern", quantity=Fraction(2), unit="pieces")]
    buying = buying_list([need("screw", 1, "screws")], PRICES, stock=stock)
    assert [(f.rule, f.severity) for f in buying.findings] == [("materials.stock-not-needed", Severity.NOTE)]


def test_a_need_may_name_one_sold_unit_by_its_key():
    line = buying_list([need("tape-500", 2, "pieces", waste_included=True)], PRICES).lines[0]
    assert (line.packages[0].count, line.cost_cents) == (2, 1520)


def test_the_working_leads_from_the_places_to_the_cost():
    buying = buying_list(
        [need("tape", 2660, "ft"), need("tape", 100, "ft", place="bath", waste_included=True)],
        PRICES,
        stock=[StockItem(item="tape", quantity=Fraction(120), unit="ft")],
    )
    working = buying.lines[0].working
    assert [step.label for step in working.steps] == [
        "bedroom, hang (boards)",
        "bath, hang (boards)",
        "needed together",
        "waste",
        "taken from stock",
        "to buy",
        "sold units: 6 box of 500",
        "cost",
    ]
    assert [step.value for step in working.steps] == [2660, 100, 2760, 266, 120, 2906, 3000, 45.6]
    assert (working.result, working.unit) == ("$45.60", "dollars")
    assert working.sources[0].title == "Estimating in Building Construction"


def test_boards_and_tape_come_with_the_truck_of_their_phase():
    buying = buying_list(
        [need("board-48x96", 5, "pieces", waste_included=True), need("tape", 900, "ft", phase="finish")],
        PRICES,
    )
    loads = {d.name: [(drop.package.key, drop.count) for drop in d.drops] for d in buying.deliveries}
    assert loads == {"hang": [(BOARD.key, 5)], "finish": [(TAPE.key, 2)]}


def test_an_early_truck_brings_what_its_phase_needs_and_no_more():
    wanted = [need("screw", 900, "screws"), need("screw", 5900, "screws", phase="finish")]
    buying = buying_list(wanted, PRICES)
    loads = {d.name: {drop.package.key: drop.count for drop in d.drops} for d in buying.deliveries}
    # 6,800 in all: one 5,000 and two 1,000; the first truck needs only one of the small ones
    assert loads == {"hang": {"screw-1000": 1}, "finish": {"screw-1000": 1, "screw-5000": 1}}


@given(quantity=st.floats(0, 1e6, allow_nan=False))
def test_a_quantity_is_kept_to_the_millionth(quantity):
    assert math.isclose(float(exact_quantity(quantity)), quantity, abs_tol=5.1e-7)
