"""From a figured house to the order."""

import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.boards import BoardWish, figure_boards
from setday.actions.buying import Buying, buy, demo_prices
from setday.boards import Limits
from setday.materials import PriceList


def bought(wish: BoardWish) -> Buying:
    prices = demo_prices().prices
    assert isinstance(prices, PriceList)
    opened = open_house(demo_text("shed"), name="shed.yaml")
    limits = Limits(seconds=1.0, clock=time.perf_counter)
    figured = figure_boards(opened, prices=prices, limits=limits, wish=wish)
    return buy(figured, prices=prices, clock=time.perf_counter)


@pytest.mark.parametrize("kind", ["screws", "nails"])
def test_fasteners_are_bought_in_their_own_unit(kind: str) -> None:
    result = bought(BoardWish(rules={"boards.fastener": kind}))
    lines = [line for line in result.buying.lines if line.category == "fastener"]
    assert [line.unit for line in lines] == [kind]
    assert all(line.served and line.packages for line in lines)
    assert not result.buying.unpriced


def test_bead_is_cut_from_lengths_by_a_plan() -> None:
    result = bought(BoardWish(rules={"boards.returns": "board"}))
    (plan,) = result.plans
    assert plan.outcome.plan is not None
    asked = sum(demand.length * demand.count for demand in plan.problem.demands)
    cut = sum(piece.length for stick in plan.outcome.plan.sticks for piece in stick.pieces)
    assert cut == asked > 0
    sticks = [line for line in result.buying.lines if line.item.startswith("bead")]
    assert sum(sum(entry.count for entry in line.packages) for line in sticks) == len(
        plan.outcome.plan.sticks
    )
