"""Cutting plans against published instances with known answers; each names its source in the data file."""

import time
import tomllib
from pathlib import Path

import pytest

from setday.boards import Limits, Status
from setday.materials import (
    LengthDemand,
    LengthProblem,
    Objective,
    StockLength,
    check_bound,
    cutting_plan,
    first_fit_plan,
    verify,
)

INSTANCES = tomllib.loads((Path(__file__).parent / "cutting_stock.toml").read_text(encoding="utf-8"))[
    "instance"
]
SECONDS = 60
"""Far more than any of them takes; the answer ends the search."""


def problem_of(instance) -> LengthProblem:
    counts = instance.get("counts", [1] * len(instance["sizes"]))
    return LengthProblem(
        demands=tuple(
            LengthDemand(length=size, count=count)
            for size, count in zip(instance["sizes"], counts, strict=True)
        ),
        stocks=(StockLength(key="stick", length=instance["capacity"], cost_cents=100),),
        least_remnant=instance["capacity"],
        objective=Objective.STICKS,
    )


def marked(instance):
    """Return an instance as a test case; those whose sizes are finer than any tape's take longest."""
    slow = [pytest.mark.slow] if instance["name"].startswith("HARD") else []
    return pytest.param(instance, marks=slow, id=instance["name"])


@pytest.mark.parametrize("instance", [marked(instance) for instance in INSTANCES])
def test_the_published_number_of_sticks_is_found_and_proven(instance):
    problem = problem_of(instance)
    outcome = cutting_plan(problem, Limits(seconds=SECONDS, clock=time.perf_counter))
    assert outcome.status is Status.OPTIMAL
    assert (outcome.objective, outcome.bound.value) == (instance["sticks"], instance["sticks"])
    assert verify(problem, outcome.plan) == ()
    assert len(outcome.plan.sticks) == instance["sticks"]
    assert check_bound(problem, outcome.bound.certificate) > instance["sticks"] - 1
    if "linear" in instance:
        assert float(outcome.bound.linear) == pytest.approx(instance["linear"], abs=0.005)


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda i: i["name"])
def test_length_alone_asks_for_what_the_source_says(instance):
    counts = instance.get("counts", [1] * len(instance["sizes"]))
    whole = sum(size * count for size, count in zip(instance["sizes"], counts, strict=True))
    assert -(-whole // instance["capacity"]) == instance["length_alone"] <= instance["sticks"]


def test_triplets_fill_every_stick_without_loss():
    triplets = [i for i in INSTANCES if i["name"].startswith("t")]
    assert triplets
    for instance in triplets:
        assert sum(instance["sizes"]) == instance["capacity"] * len(instance["sizes"]) // 3


def test_first_fit_decreasing_needs_more_on_the_triplets():
    for instance in (i for i in INSTANCES if i["name"].startswith("t")):
        assert len(first_fit_plan(problem_of(instance)).sticks) > instance["sticks"]
