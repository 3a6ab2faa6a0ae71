"""The compiled knapsacks against the plain ones: the same worth, and patterns worth what is claimed."""

import random
import sys

import numpy as np
import pytest

from setday.boards.layout import proving
from setday.boards.layout.pricing import Pricer
from setday.boards.layout.quick import QuickPricer
from tests.boards.layout.cases import INCH, board

BOARDS = tuple(board(w, ft, cents) for w, ft, cents in ((48, 8, 1180), (48, 12, 1725), (54, 16, 2695)))


def some_items(seed: int):
    dice = random.Random(seed)
    whole = [(w * INCH, 2, dice.randrange(16, 190) * INCH) for w in (48, 54) for _ in range(6)]
    ripped = [
        (dice.randrange(8, 48) * INCH, dice.randrange(2), dice.randrange(17, 190) * INCH) for _ in range(14)
    ]
    return sorted(set(whole + ripped))


def priced(seed: int, trim: int, *, up: bool = True):
    items = some_items(seed)
    rng = np.random.default_rng(seed)
    values = np.array([h * length for h, _, length in items]) / (48 * 96 * INCH * INCH) * 1180.0
    values *= rng.uniform(0.8, 1.2, len(items))
    values[rng.random(len(items)) < 0.1] = 0.0
    both = [p(items, BOARDS, trim=trim, up=up) for p in (Pricer, QuickPricer)]
    return values, *both


CASES = [(seed, trim) for seed in range(6) for trim in (0, 8)]


@pytest.mark.parametrize(("seed", "trim"), CASES)
@pytest.mark.parametrize("up", [True, False])
def test_the_best_values_are_the_same(seed, trim, up):
    values, plain, quick = priced(seed, trim, up=up)
    assert quick.best_values(values) == pytest.approx(plain.best_values(values))


@pytest.mark.parametrize(("seed", "trim"), CASES)
def test_every_item_is_held_by_a_pattern_worth_as_much(seed, trim):
    values, plain, quick = priced(seed, trim)
    for a, b in zip(plain.covering(values), quick.covering(values), strict=True):
        price = [BOARDS[p.pattern.board].price_cents for p in (a, b)]
        assert b.pattern.slots[0].item == a.pattern.slots[0].item
        assert b.value / price[1] == pytest.approx(a.value / price[0])


@pytest.mark.parametrize(("seed", "trim"), CASES)
def test_a_pattern_is_worth_its_slots_which_lie_on_the_board_apart(seed, trim):
    values, _, quick = priced(seed, trim)
    for p in [*quick.covering(values), *quick.best(values)]:
        assert sum(values[s.item] for s in p.pattern.slots) == pytest.approx(p.value)
        cut_from = BOARDS[p.pattern.board]
        boxes = [(s.x, s.y, *(quick.items[s.item][k] for k in (2, 0))) for s in p.pattern.slots]
        assert all(x + w <= cut_from.length and y + h <= cut_from.width for x, y, w, h in boxes)
        for i, (x, y, w, h) in enumerate(boxes):
            for a, b, c, d in boxes[:i]:
                assert x + w <= a or a + c <= x or y + h <= b or b + d <= y


@pytest.mark.parametrize("width", [48 * INCH, 54 * INCH])
def test_the_tables_of_worth_are_the_same(width):
    values, plain, quick = priced(3, 0)
    a, b = plain.tables(width, values), quick.tables(width, values)
    assert b.board == pytest.approx(a.board)
    lanes = dict(b.edged)
    assert all(lanes[h] == pytest.approx(table) for h, table in a.edged)


def test_where_nothing_can_be_compiled_the_plain_pricing_serves(monkeypatch):
    assert proving._pricing() is QuickPricer
    monkeypatch.setitem(sys.modules, "setday.boards.layout.quick", None)
    assert proving._pricing() is Pricer
