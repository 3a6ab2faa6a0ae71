"""Cutting plans: laws, tiny cases solved by trying everything, and the rules of the kerf."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.boards import Status
from setday.materials import (
    LengthDemand,
    LengthProblem,
    StockLength,
    check_bound,
    cutting_plan,
    first_fit_plan,
    plan_cost,
    verify,
)
from tests.materials.cases import length_problems, limits

FOOT = 768


def weigh(problem, plan):
    stocks = {stock.key: stock for stock in problem.stocks}
    return sum(problem.weight(stocks[stick.stock]) for stick in plan.sticks)


def least_by_trying(problem: LengthProblem) -> int | None:
    """Return the least total over all ways to divide the pieces among sticks; None when there is none."""
    pieces = [d.length for d in problem.demands for _ in range(d.count)]
    stocks = problem.stocks

    @cache
    def least(left: int, numbers: tuple[int | None, ...]) -> float:
        if not left:
            return 0
        first = left & -left
        best = float("inf")
        others = left ^ first
        part = others
        while True:
            group = part | first
            used = sum(pieces[i] + problem.kerf for i in range(len(pieces)) if group >> i & 1)
            for place, stock in enumerate(stocks):
                if used <= stock.length + problem.kerf and numbers[place] != 0:
                    number = numbers[place]
                    rest = (*numbers[:place], None if number is None else number - 1, *numbers[place + 1 :])
                    best = min(best, problem.weight(stock) + least(left ^ group, rest))
            if not part:
                return best
            part = (part - 1) & others

    total = least((1 << len(pieces)) - 1, tuple(stock.available for stock in stocks))
    return None if total == float("inf") else int(total)


def plans_by_trying(problem: LengthProblem) -> Iterator[tuple[int, int]]:
    """Yield total and longest remnant of every way to divide the pieces among endless sticks."""
    pieces = [d.length for d in problem.demands for _ in range(d.count)]

    def divide(place: int, groups: list[int]) -> Iterator[list[int]]:
        if place == len(pieces):
            yield groups
            return
        size = pieces[place] + problem.kerf
        for i, used in enumerate(groups):
            yield from divide(place + 1, [*groups[:i], used + size, *groups[i + 1 :]])
        yield from divide(place + 1, [*groups, size])

    def on_stocks(groups: list[int], total: int, longest: int) -> Iterator[tuple[int, int]]:
        if not groups:
            yield total, longest
            return
        for stock in problem.stocks:
            if groups[0] <= stock.length + problem.kerf:
                left = max(stock.length - groups[0], 0)
                yield from on_stocks(groups[1:], total + problem.weight(stock), max(longest, left))

    for groups in divide(0, []):
        yield from on_stocks(groups, 0, 0)


@given(problem=length_problems())
@settings(max_examples=60)
def test_a_plan_cuts_exactly_what_is_asked_for_and_fits_its_sticks(problem):
    plan = cutting_plan(problem, limits()).plan
    asked = Counter((d.length, d.label) for d in problem.demands for _ in range(d.count))
    assert Counter((p.length, p.label) for stick in plan.sticks for p in stick.pieces) == asked
    stocks = {stock.key: stock for stock in problem.stocks}
    for stick in plan.sticks:
        cuts = len(stick.pieces) - 1
        assert sum(p.length for p in stick.pieces) + cuts * problem.kerf <= stocks[stick.stock].length


@given(problem=length_problems())
@settings(max_examples=60)
def test_a_plan_never_counts_for_less_than_its_bound_nor_more_than_first_fit(problem):
    outcome = cutting_plan(problem, limits())
    assert outcome.bound.linear <= outcome.bound.value <= outcome.objective == weigh(problem, outcome.plan)
    assert outcome.bound.material <= outcome.objective
    assert outcome.objective <= weigh(problem, first_fit_plan(problem))
    assert outcome.cost_cents == plan_cost(problem, outcome.plan)


@given(problem=length_problems())
@settings(max_examples=60)
def test_the_certificate_proves_the_linear_bound_without_the_solver(problem):
    bound = cutting_plan(problem, limits()).bound
    assert check_bound(problem, bound.certificate) == bound.linear


@given(problem=length_problems(most=7))
@settings(max_examples=60)
def test_no_other_division_of_a_few_pieces_counts_for_less(problem):
    outcome = cutting_plan(problem, limits())
    assert outcome.status is Status.OPTIMAL
    assert outcome.objective == outcome.bound.value == least_by_trying(problem)


@given(problem=length_problems(most=6, limited=True))
@settings(max_examples=60)
def test_remnants_on_hand_are_used_as_far_as_they_go(problem):
    outcome = cutting_plan(problem, limits())
    assert outcome.objective == least_by_trying(problem)
    assert verify(problem, outcome.plan) == ()


@given(problem=length_problems(most=6), numbers=st.lists(st.integers(0, 2), min_size=3, max_size=3))
@settings(max_examples=60)
def test_where_all_stock_is_limited_a_plan_is_found_exactly_when_there_is_one(problem, numbers):
    stocks = tuple(replace(s, available=n) for s, n in zip(problem.stocks, numbers, strict=False))
    limited = replace(problem, stocks=stocks)
    outcome = cutting_plan(limited, limits())
    least = least_by_trying(limited)
    assert (outcome.plan is None) == (least is None)
    assert outcome.plan is None or outcome.objective == least
    assert (outcome.status is Status.NONE) == bool(outcome.why_none)


@given(problem=length_problems(most=5))
@settings(max_examples=60)
def test_a_remnant_called_longest_is_the_longest_any_plan_of_that_total_leaves(problem):
    outcome = cutting_plan(problem, limits())
    longest = max(left for total, left in plans_by_trying(problem) if total == outcome.objective)
    assert outcome.plan.longest_remnant <= longest
    assert not outcome.remnant_proven or outcome.plan.longest_remnant == longest


@given(problem=length_problems(), length=st.integers(20, 60), cost=st.integers(1, 60))
@settings(max_examples=40)
def test_one_more_stock_length_never_costs_more(problem, length, cost):
    more = (*problem.stocks, StockLength(key="more", length=length, cost_cents=cost))
    before = cutting_plan(problem, limits())
    after = cutting_plan(replace(problem, stocks=more), limits())
    assert before.status is after.status is Status.OPTIMAL
    assert after.objective <= before.objective


@given(problem=length_problems())
@settings(max_examples=30)
def test_the_same_problem_gives_the_same_plan(problem):
    assert cutting_plan(problem, limits()).plan == cutting_plan(problem, limits()).plan


def test_the_last_piece_of_a_stick_needs_no_cut():
    stock = StockLength(key="8", length=8 * FOOT, cost_cents=400)
    halves = (LengthDemand(length=4 * FOOT, count=2),)
    exact = LengthProblem(demands=halves, stocks=(stock,), kerf=0)
    with_kerf = replace(exact, kerf=8)
    just = replace(with_kerf, demands=(LengthDemand(length=4 * FOOT - 4, count=2),))
    counts = [len(cutting_plan(p, limits()).plan.sticks) for p in (exact, with_kerf, just)]
    assert counts == [1, 2, 1]


def test_the_shorter_cheaper_sticks_are_taken_where_they_serve():
    stocks = (
        StockLength(key="8", length=8 * FOOT, cost_cents=400),
        StockLength(key="12", length=12 * FOOT, cost_cents=650),
        StockLength(key="16", length=16 * FOOT, cost_cents=880),
    )
    demands = (LengthDemand(length=6 * FOOT, count=2), LengthDemand(length=8 * FOOT, count=1))
    outcome = cutting_plan(LengthProblem(demands=demands, stocks=stocks), limits())
    # two 6-ft pieces fill a 12 (650), two 8s would cost 800; the 8-ft piece fills an 8
    assert dict(outcome.plan.counts) == {"8": 1, "12": 1}
    assert outcome.cost_cents == 1050


def test_offal_is_gathered_into_one_long_remnant():
    stock = StockLength(key="10", length=100, cost_cents=5)
    demands = tuple(LengthDemand(length=n, count=1) for n in (60, 50, 30, 40))
    outcome = cutting_plan(LengthProblem(demands=demands, stocks=(stock,)), limits())
    # 180 of 200: 60 + 40 fill one stick, 50 + 30 leave 20 on the other; 60 + 30 and 50 + 40 leave 10 twice
    assert (outcome.objective, outcome.plan.longest_remnant, outcome.remnant_proven) == (10, 20, True)


def test_nothing_asked_for_needs_nothing():
    outcome = cutting_plan(LengthProblem(demands=(), stocks=()), limits())
    assert (outcome.status, outcome.plan.sticks, outcome.cost_cents) == (Status.OPTIMAL, (), 0)


@pytest.mark.parametrize("stocks", [(), (StockLength(key="8", length=8 * FOOT, cost_cents=400),)])
def test_a_piece_longer_than_every_stick_is_named(stocks):
    demand = LengthDemand(length=9 * FOOT, count=1, label="ridge")
    outcome = cutting_plan(LengthProblem(demands=(demand,), stocks=stocks), limits())
    assert outcome.plan is None
    assert "9'-0\"" in outcome.why_none[0]
    assert "ridge" in outcome.why_none[0]


def test_stock_that_runs_out_is_said_with_what_is_left_uncut():
    stock = StockLength(key="8", length=8 * FOOT, cost_cents=0, available=1)
    demand = LengthDemand(length=5 * FOOT, count=2)
    outcome = cutting_plan(LengthProblem(demands=(demand,), stocks=(stock,)), limits())
    assert outcome.plan is None
    assert outcome.why_none[0].startswith("No cutting plan exists")
    assert "5'-0\"" in outcome.why_none[0]


def test_two_hundred_pieces_are_within_one_stick_of_the_bound():
    from bench.lengths import mixed

    for seed in (1, 2, 3):
        problem = mixed(200, seed=seed)
        outcome = cutting_plan(problem, limits(10))  # how fast is for the bench to say
        above = float(outcome.objective - outcome.bound.value)
        assert above <= min(s.cost_cents for s in problem.stocks)


def test_sticks_too_long_for_a_table_are_still_cut():
    stock = StockLength(key="coil", length=10_000 * FOOT, cost_cents=90_000)
    demands = tuple(LengthDemand(length=FOOT * 100 + i, count=1) for i in range(20))
    outcome = cutting_plan(LengthProblem(demands=demands, stocks=(stock,)), limits())
    assert (outcome.objective, outcome.status) == (90_000, Status.OPTIMAL)
