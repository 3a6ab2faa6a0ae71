"""Cutting plans for lengths: ours beside the bounds and first-fit decreasing, with times.

Run from the project's folder: ``python -m bench.lengths [--seconds 2] [--seeds 3]``.
"""

import argparse
import random
import time
import tomllib
from collections.abc import Iterator
from pathlib import Path

from setday.boards import Limits
from setday.materials import (
    LengthDemand,
    LengthOutcome,
    LengthProblem,
    Objective,
    StockLength,
    check_bound,
    cutting_plan,
    first_fit_plan,
    verify,
)

FOOT = 12 * 64
STOCKS = (
    StockLength(key="8-ft", length=8 * FOOT, cost_cents=432),
    StockLength(key="12-ft", length=12 * FOOT, cost_cents=661),
    StockLength(key="16-ft", length=16 * FOOT, cost_cents=899),
)
PUBLISHED = Path(__file__).parents[1] / "tests" / "published" / "cutting_stock.toml"
HEADER = (
    f"{'case':<26}{'pieces':>7}{'kinds':>6}{'ours':>9}{'bound':>9}{'linear':>11}{'length':>11}"
    f"{'first fit':>10}{'gap':>8}{'remnant':>9}{'seconds':>9}  proof"
)


def mixed(pieces: int, *, seed: int, kinds: int | None = None) -> LengthProblem:
    """Return an invented problem: pieces of 1 to 15.8 ft from three stock lengths, a kerf of 1/8 in."""
    draw = random.Random(seed)
    lengths = [draw.randrange(12 * 8, 190 * 8) * 8 for _ in range(kinds or pieces)]
    demands = tuple(LengthDemand(length=draw.choice(lengths), count=1) for _ in range(pieces))
    return LengthProblem(demands=demands, stocks=STOCKS, kerf=8, least_remnant=12 * 64)


def short(pieces: int, *, seed: int) -> LengthProblem:
    """Return an invented problem of short pieces, 4 in to 6 ft, many to a stick."""
    draw = random.Random(seed)
    demands = tuple(LengthDemand(length=draw.randrange(4 * 16, 72 * 16) * 4, count=1) for _ in range(pieces))
    return LengthProblem(demands=demands, stocks=STOCKS, kerf=8, least_remnant=12 * 64)


def published() -> Iterator[tuple[str, LengthProblem]]:
    """Yield the published instances that the tests check."""
    for instance in tomllib.loads(PUBLISHED.read_text(encoding="utf-8"))["instance"]:
        counts = instance.get("counts", [1] * len(instance["sizes"]))
        demands = tuple(
            LengthDemand(length=size, count=count)
            for size, count in zip(instance["sizes"], counts, strict=True)
        )
        stock = StockLength(key="stick", length=instance["capacity"], cost_cents=1)
        yield (
            f"{instance['name']} ({instance['sticks']})",
            LengthProblem(demands=demands, stocks=(stock,), objective=Objective.STICKS),
        )


def line(name: str, problem: LengthProblem, outcome: LengthOutcome) -> str:
    """Return one line of the table."""
    plan, first = outcome.plan, first_fit_plan(problem)
    assert plan is not None
    assert first is not None
    faults = verify(problem, plan)
    assert not faults, faults
    stocks = {stock.key: stock for stock in problem.stocks}
    by_first_fit = sum(problem.weight(stocks[stick.stock]) for stick in first.sticks)
    agrees = check_bound(problem, outcome.bound.certificate) == outcome.bound.linear
    pieces = sum(demand.count for demand in problem.demands)
    proof = "rechecked" if agrees else "NOT CONFIRMED"
    longest = f"{plan.longest_remnant / 64:.1f}{'' if outcome.remnant_proven else '?'}"
    return (
        f"{name:<26}{pieces:>7}{len(problem.asked):>6}{outcome.objective:>9}{float(outcome.bound.value):>9.0f}"
        f"{float(outcome.bound.linear):>11.2f}{float(outcome.bound.material):>11.2f}{by_first_fit:>10}"
        f"{outcome.gap:>8.2%}{longest:>9}{outcome.seconds:>9.2f}  {proof}"
    )


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=2.0, help="time limit of one invented case")
    parser.add_argument("--seeds", type=int, default=3, help="cases of each invented kind")
    asked = parser.parse_args()
    print("Cents for the invented cases, sticks for the published ones (known answer in brackets).")
    print("A remnant in inches (or the instance's unit / 64) with '?' is not proven the longest.")
    print(HEADER)
    cases = [
        *((f"mixed 60, seed {s}", mixed(60, seed=s)) for s in range(1, asked.seeds + 1)),
        *((f"mixed 200, seed {s}", mixed(200, seed=s)) for s in range(1, asked.seeds + 1)),
        *((f"mixed 200 of 30, seed {s}", mixed(200, seed=s, kinds=30)) for s in range(1, asked.seeds + 1)),
        *((f"short 200, seed {s}", short(200, seed=s)) for s in range(1, asked.seeds + 1)),
        ("mixed 1000 of 100", mixed(1000, seed=1, kinds=100)),
    ]
    for name, problem in cases:
        limits = Limits(seconds=asked.seconds, clock=time.perf_counter)
        print(line(name, problem, cutting_plan(problem, limits)), flush=True)
    for name, problem in published():
        limits = Limits(seconds=60, clock=time.perf_counter)
        print(line(name, problem, cutting_plan(problem, limits)), flush=True)


if __name__ == "__main__":
    main()
