"""The knapsacks of one board against plain search, and patterns that can really be cut."""

import random
from itertools import combinations_with_replacement

import numpy as np
import pytest

from setday.boards.cutting import cut_straight_through
from setday.boards.layout.patterns import fits
from setday.boards.layout.pricing import Pricer
from tests.boards.layout.cases import INCH, board

BOARDS = (board(48, 8, 1180), board(48, 12, 1725), board(54, 10, 1700))


def items(seed: int, *, count: int = 14) -> list[tuple[int, int, int]]:
    dice = random.Random(seed)
    kinds = [(48, 2), (54, 2), (48, 1), (30, 1), (24, 1), (18, 1), (10, 0), (12, 0)]
    found = {(h * INCH, e, dice.randrange(16, 120) * INCH) for h, e in dice.choices(kinds, k=count)}
    return sorted(found)


def values(seed: int, some: list[tuple[int, int, int]]) -> np.ndarray:
    dice = random.Random(seed)
    return np.array([h * n / INCH**2 * dice.uniform(0.2, 0.35) for h, _, n in some])


@pytest.mark.parametrize("seed", range(12))
def test_the_best_pattern_is_worth_what_the_tables_say_and_can_be_cut(seed):
    some = items(seed)
    pricer = Pricer(some, BOARDS)
    worth = values(seed, some)
    for priced, b in zip(pricer.best(worth), BOARDS, strict=True):
        check(priced, b, some, worth)


@pytest.mark.parametrize("seed", range(12))
def test_every_item_has_a_pattern_that_holds_it_and_can_be_cut(seed):
    some = items(seed)
    pricer = Pricer(some, BOARDS)
    worth = values(seed, some)
    found = pricer.covering(worth)
    held = {s.item for p in found for s in p.pattern.slots}
    assert held >= {i for i, item in enumerate(some) if any(fits(item, b) for b in BOARDS)}
    for p in found:
        check(p, BOARDS[p.pattern.board], some, worth)


def check(priced, b, some, worth):
    boxes = []
    for s in priced.pattern.slots:
        height, edges, length = some[s.item]
        boxes.append((s.x, s.y, s.x + length, s.y + height))
        assert s.x + length <= b.length
        assert s.y + height <= b.width
        if edges == 2:
            assert height == b.width
        if edges == 1:
            assert s.y == 0 or s.y + height == b.width
    assert cut_straight_through(boxes)
    assert sum(worth[s.item] for s in priced.pattern.slots) == pytest.approx(priced.value)


@pytest.mark.parametrize("seed", range(8))
def test_full_width_pieces_are_worth_what_plain_search_finds(seed):
    dice = random.Random(seed)
    some = sorted({(48 * INCH, 2, dice.randrange(20, 90) * INCH) for _ in range(7)})
    worth = values(seed, some)
    priced = Pricer(some, BOARDS).best(worth)[1]
    best = max(
        sum(worth[i] for i in pick)
        for n in range(8)
        for pick in combinations_with_replacement(range(len(some)), n)
        if sum(some[i][2] for i in pick) <= BOARDS[1].length
    )
    assert priced.value == pytest.approx(best)


@pytest.mark.parametrize("seed", range(8))
def test_a_ripped_section_is_worth_what_plain_search_finds(seed):
    dice = random.Random(seed)
    some = [(h * INCH, e, dice.randrange(50, 96) * INCH) for h, e in ((30, 1), (18, 1), (10, 0))]
    some = sorted(some)
    worth = values(seed, some)
    priced = Pricer(some, BOARDS[:1]).best(worth)[0]
    one_long = max(
        sum(worth[i] for i in pick)
        for n in range(6)
        for pick in combinations_with_replacement(range(3), n)
        if sum(some[i][0] for i in pick) <= 48 * INCH and sum(some[i][1] for i in pick) <= 2
    )
    assert priced.value == pytest.approx(one_long)


def test_rounding_down_is_worth_no_less_than_rounding_up():
    some = [(48 * INCH, 2, 16 * INCH * 5 // 2 + n) for n in range(1, 2000, 37)]
    worth = values(1, some)
    up, down = Pricer(some, BOARDS), Pricer(some, BOARDS, up=False)
    assert not up.exact
    assert (down.best_values(worth) >= up.best_values(worth) - 1e-9).all()
