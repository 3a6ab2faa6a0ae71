"""What the price list offers to the board layout and to cutting plans."""

from pathlib import Path

import setday.demo
from setday.files.prices import read_prices
from setday.materials import (
    LengthDemand,
    LengthProblem,
    PriceList,
    StockLength,
    boards_offered,
    buying_list,
    cutting_plan,
    lengths_offered,
    plan_needs,
)
from setday.measure import Length, parse_length
from tests.materials.cases import limits, package

BEAD = (
    package("bead-8", item="bead", content=8, unit="ft", cents=335, length=parse_length("8'")),
    package("bead-10", item="bead", content=10, unit="ft", cents=435, length=parse_length("10'")),
)


def demo_prices() -> PriceList:
    data = (Path(setday.demo.__path__[0]) / "prices.csv").read_bytes()
    return read_prices(data, name="prices.csv").prices


def test_the_demo_offers_boards_of_two_widths_from_8_to_16_ft():
    boards = boards_offered(demo_prices())
    sizes = {(b.width // 64, b.length // 768) for b in boards if b.kind == "regular-1/2"}
    assert sizes >= {(48, 8), (48, 10), (48, 12), (48, 14), (48, 16), (54, 12)}
    assert {b.kind for b in boards} == {"regular-1/2", "regular-5/8", "sag-resistant-1/2", "wet-area-1/2"}


def test_the_demos_price_per_area_differs_a_little_by_length():
    rates = {
        b.price_cents / (b.width * b.length) for b in boards_offered(demo_prices()) if b.kind == "regular-1/2"
    }
    assert len(rates) > 3
    assert max(rates) / min(rates) < 1.1


def test_a_board_without_a_size_or_a_price_is_not_offered():
    whole = package(
        "b", item="b", content=1, unit="pieces", cents=100,
        board_kind="regular-1/2", width=Length.of(inches=48), length=Length.of(feet=8),
    )  # fmt: skip
    sizeless = package("c", item="c", content=1, unit="pieces", cents=100, board_kind="regular-1/2")
    unpriced = package(
        "d", item="d", content=1, unit="pieces", cents=None,
        board_kind="regular-1/2", width=Length.of(inches=48), length=Length.of(feet=8),
    )  # fmt: skip
    offered = boards_offered(PriceList(name="p", items=(whole, sizeless, unpriced)))
    assert [(b.key, b.width, b.length) for b in offered] == [("b", 48 * 64, 96 * 64)]


def test_a_plan_becomes_a_line_of_the_buying_list_without_further_waste():
    prices = PriceList(name="p", items=BEAD)
    on_hand = StockLength(key="on hand, line 6", length=5 * 768, cost_cents=0, available=1)
    problem = LengthProblem(
        demands=(LengthDemand(length=5 * 768, count=3, label="window"),),
        stocks=lengths_offered(prices, "bead", on_hand=[on_hand]),
    )
    plan = cutting_plan(problem, limits()).plan
    # one piece is the stick on hand; a 10-ft length gives the other two for 4.35, two 8-ft ones cost 6.70
    wanted = plan_needs(plan, prices, trade="boards", phase="finish")
    assert [(n.item, n.quantity, n.unit, n.waste_included) for n in wanted] == [
        ("bead-10", 1, "pieces", True)
    ]
    assert wanted[0].working.steps[0].expression == '60" + 60"'
    line = buying_list(wanted, prices).lines[0]
    assert (line.waste, line.packages[0].count, line.cost_cents) == (0, 1, 435)
