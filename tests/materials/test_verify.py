"""The check of a cutting plan finds every kind of fault put into a good plan."""

from dataclasses import replace
from fractions import Fraction

import pytest

from setday.materials import (
    Certificate,
    CutPiece,
    CutStick,
    CuttingPlan,
    LengthDemand,
    LengthProblem,
    StockLength,
    check_bound,
    verify,
)

PROBLEM = LengthProblem(
    demands=(LengthDemand(length=40, count=2, label="a"), LengthDemand(length=30, count=1, label="b")),
    stocks=(
        StockLength(key="long", length=84, cost_cents=9),
        StockLength(key="left", length=30, cost_cents=0, available=1),
    ),
    kerf=2,
)
A, B = CutPiece(length=40, label="a"), CutPiece(length=30, label="b")
FIRST = CutStick(number=1, stock="long", pieces=(A, A), remnant=0)
SECOND = CutStick(number=2, stock="left", pieces=(B,), remnant=0)
GOOD = CuttingPlan(sticks=(FIRST, SECOND))


def test_a_good_plan_has_nothing_wrong():
    assert verify(PROBLEM, GOOD) == ()


FAULTS = {
    "a piece missing": (CuttingPlan(sticks=(FIRST,)), "1 pieces of 30"),
    "a piece too many": (
        replace(GOOD, sticks=(FIRST, SECOND, replace(SECOND, number=3, stock="long", remnant=52))),
        "2 are cut",
    ),
    "a wrong label": (
        replace(GOOD, sticks=(replace(FIRST, pieces=(A, CutPiece(length=40, label="x"))), SECOND)),
        "'x'",
    ),
    "a stick over-filled": (
        replace(GOOD, sticks=(replace(FIRST, pieces=(A, A, B)), replace(SECOND, pieces=()))),
        "beyond the stick",
    ),
    "an unknown stick": (replace(GOOD, sticks=(replace(FIRST, stock="pole"), SECOND)), "'pole'"),
    "a stick bought and not cut": (
        replace(GOOD, sticks=(FIRST, SECOND, CutStick(number=3, stock="long", pieces=(), remnant=84))),
        "not cut",
    ),
    "more than there are": (
        replace(GOOD, sticks=(FIRST, SECOND, replace(SECOND, number=3))),
        "there are 1",
    ),
    "a wrong remnant": (replace(GOOD, sticks=(replace(FIRST, remnant=7), SECOND)), "7 is written"),
    "wrong numbers": (replace(GOOD, sticks=(FIRST, replace(SECOND, number=5))), "not numbered"),
}  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_found(fault):
    plan, words = FAULTS[fault]
    assert any(words in sentence for sentence in verify(PROBLEM, plan)), verify(PROBLEM, plan)


def test_a_kerf_too_many_is_found():
    tight = replace(PROBLEM, kerf=5)
    assert any("beyond" in sentence for sentence in verify(tight, GOOD))


def test_a_certificate_that_overrates_pieces_proves_nothing():
    honest = Certificate(worth=((40, 45), (30, 0)), scale=10)
    greedy = Certificate(worth=((40, 46), (30, 0)), scale=10)
    assert check_bound(PROBLEM, honest) == Fraction(90, 10)
    assert check_bound(PROBLEM, greedy) == 0


def test_limited_stock_takes_its_share_off_a_certificate():
    # the remnant may hold the 30 for nothing, so its worth of 12 is lost again
    certificate = Certificate(worth=((40, 0), (30, 12)), scale=1)
    problem = replace(PROBLEM, stocks=(replace(PROBLEM.stocks[0], cost_cents=12), PROBLEM.stocks[1]))
    assert check_bound(problem, certificate) == 0
