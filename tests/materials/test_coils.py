"""Coil plans: fewest coils bought, with the bound, part coils first."""

import time
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from setday.cable import Pull
from setday.materials import PriceItem, PriceList, StockLength, coil_plans, verify
from setday.measure import Length
from setday.solving import Limits

FOOT = 768


def coil(kind: str, feet: int) -> PriceItem:
    return PriceItem(
        key=f"cable-{kind}-{feet}",
        item=f"cable-{kind}",
        label=f"cable {kind}, {feet}-ft coil",
        category="cable",
        sold_as=f"{feet}-ft coil",
        content=Fraction(1),
        unit="pieces",
        price_cents=9900,
        length=Length(feet * FOOT),
    )


PRICES = PriceList(
    name="test prices",
    items=(coil("14/2", 250), coil("14/2", 1000), coil("12/2", 250), coil("10/2", 125)),
)


def pull(number: str, feet: float, kind: str = "14/2") -> Pull:
    return Pull(
        number=number,
        circuit="general 1",
        kind=kind,
        start="a",
        end="b",
        cut=Length(round(feet * FOOT)),
        passes=(),
        staples=2,
        label=number,
        start_label=number,
        end_label=number,
        home=False,
    )


def limits(seconds: float = 1.0) -> Limits:
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def many(seed: int, count: int = 60) -> list[Pull]:
    """Invented runs of 6 to 60 ft, one in six a home run of up to 90 ft."""
    draw = Random(seed)
    return [
        pull(str(n), draw.randrange(6 * 12, 60 * 12) / 12 if n % 6 else draw.randrange(40 * 12, 90 * 12) / 12)
        for n in range(count)
    ]


def test_sixty_runs_come_within_one_coil_of_the_bound_and_mostly_to_it():
    plans = [coil_plans(many(seed), PRICES, limits=limits()).plans[0] for seed in range(6)]
    assert all(plan.bought - plan.bound <= 1 for plan in plans)
    assert sum(plan.proven for plan in plans) > len(plans) / 2


@pytest.mark.parametrize("seed", [11, 12])
def test_every_run_is_cut_once_and_no_coil_is_overdrawn(seed):
    pulls = many(seed)
    (plan,) = coil_plans(pulls, PRICES, limits=limits()).plans
    cut = {each.number: each.cut for each in pulls}
    assert sorted(number for c in plan.coils for number in c.runs) == sorted(cut)
    for c in plan.coils:
        assert sum(cut[n].sixtyfourths for n in c.runs) + c.left.sixtyfourths <= c.length.sixtyfourths
    assert plan.outcome.plan is not None
    assert verify(plan.problem, plan.outcome.plan) == ()


def test_no_plan_buys_less_than_the_cable_itself_fills():
    pulls = many(3)
    (plan,) = coil_plans(pulls, PRICES, limits=limits()).plans
    total = sum(each.cut.sixtyfourths for each in pulls)
    assert plan.bound >= -(-total // (250 * FOOT))


def test_an_exact_fit_is_found():
    pulls = [pull("1", 150), pull("2", 100), pull("3", 125), pull("4", 125)]
    (plan,) = coil_plans(pulls, PRICES, limits=limits()).plans
    assert (plan.bought, plan.proven, plan.left) == (2, True, Length(0))


def test_part_coils_from_the_yard_are_used_before_one_is_bought():
    part = StockLength(key="on hand, line 7", length=80 * FOOT, cost_cents=0, available=1, label="part coil")
    pulls = [pull("1", 200), pull("2", 75)]
    without = coil_plans(pulls, PRICES, limits=limits()).plans[0]
    (plan,) = coil_plans(pulls, PRICES, limits=limits(), on_hand={"cable-14/2": [part]}).plans
    assert (without.bought, plan.bought) == (2, 1)
    assert [(c.on_hand, c.runs, c.left) for c in plan.coils] == [
        (True, ("2",), Length(5 * FOOT)),
        (False, ("1",), Length(50 * FOOT)),
    ]


def test_coils_are_numbered_through_all_kinds():
    plans = coil_plans([pull("1", 200), pull("2", 75, "12/2"), pull("3", 200)], PRICES, limits=limits())
    assert [(c.number, c.kind) for c in plans.coils] == [(1, "12/2"), (2, "14/2"), (3, "14/2")]


def test_a_run_longer_than_the_short_coil_takes_the_next_length():
    (plan,) = coil_plans([pull("1", 260), pull("2", 30)], PRICES, limits=limits()).plans
    assert [c.stock for c in plan.coils] == ["cable-14/2-1000"]


def test_a_kind_that_is_not_listed_and_a_run_that_no_coil_holds_are_both_told():
    plans = coil_plans([pull("1", 40, "6/3"), pull("2", 130, "10/2")], PRICES, limits=limits())
    assert [finding.rule for finding in plans.findings] == ["coils.too-short", "coils.not-listed"]
    assert "130'-0\"" in plans.findings[0].found


def test_no_coil_is_planned_to_its_last_inch():
    kept = Length(6 * 64)
    pulls = [replace(pull(str(n), 125), reserve=kept) for n in range(4)]
    (plan,) = coil_plans(pulls, PRICES, limits=limits()).plans
    # Without it two runs of 125 ft take a coil of 250 ft to its end: two coils, not four.
    assert (coil_plans([pull(str(n), 125) for n in range(4)], PRICES, limits=limits()).plans[0].bought) == 2
    assert plan.bought == 4
    assert all(coil.left >= kept * len(coil.runs) for coil in plan.coils)
    assert (plan.reserve, plan.cut) == (kept * 4, Length(500 * FOOT))


def test_a_run_that_leaves_nothing_for_a_miscut_asks_for_a_longer_coil():
    (finding,) = coil_plans([replace(pull("1", 1000), reserve=Length(64))], PRICES, limits=limits()).findings
    assert "1000'-1\"" in finding.found
    assert "cable.cut_reserve" in finding.do
