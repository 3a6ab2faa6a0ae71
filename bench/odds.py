"""Odds: finishes a second by the compiled play, beside the play by name, and how far the two agree.

Run from the project's folder: ``python -m bench.odds [--simulations 20000] [--seeds 3] [--large]``.
"""

import argparse
import dataclasses
import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, solve
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import Fixed, given_of
from setday.timetable.classwork.policy import play
from setday.timetable.odds import Chances, Plan, Simulations, carriers, odds, plan_of

HEADS = (
    "a thread",
    "each of 2",
    "by name",
    "agree",
    "plan",
    "played",
    "80 %",
    "95 %",
    "chance",
    "s",
    "carriers s",
)


class ByName:
    """The play that makes timetables, which writes down who is where."""

    def __init__(self, problem: ClassProblem) -> None:
        self.arrays, self.work = arrays_of(problem), work_of(problem)
        self.given = given_of(problem, Fixed(), None)
        self.spans = np.empty((len(problem.tasks), 2), dtype=np.int32)
        self.on = np.empty(self.given.present.shape, dtype=np.int32)

    def finish(self, plan: Plan, work=None) -> int:
        """Return the finish of a plan, with other work perhaps."""
        order, wish = np.array(plan.order, dtype=np.int32), np.array(plan.wish, dtype=np.int32)
        done = self.work if work is None else work
        return int(play(order, wish, 0, self.arrays, self.given, done, self.spans, self.on)[0])


def shuffled(plan: Plan, seed: int) -> Plan:
    """Return a plan with a few tasks at other places of the list."""
    draw = np.random.default_rng(seed)
    keys = np.arange(len(plan.order)) + draw.normal(0, 4, len(plan.order))
    return dataclasses.replace(plan, order=tuple(plan.order[n] for n in np.argsort(keys)))


def agreement(problem: ClassProblem, plan: Plan, tries: int = 100) -> float:
    """Return the share of lists, nothing left to chance, that end alike by both plays."""
    named, same = ByName(problem), 0
    for seed in range(tries):
        other = shuffled(plan, seed)
        bits = Simulations(problem, Chances.none(), other, workers=1).finishes(0, 1)[0]
        same += int(bits) == named.finish(other)
    return same / tries


def speed(ready: Simulations, many: int) -> float:
    """Return finishes a second of processor time and thread; a busy machine hardly changes it."""
    ready.finishes(0, 10)
    begun = time.process_time()
    ready.finishes(0, many)
    return many / (time.process_time() - begun)


def named_speed(problem: ClassProblem, plan: Plan, many: int = 500) -> float:
    """Return finishes a second of the play by name with work drawn by numpy."""
    named = ByName(problem)
    draw = np.random.default_rng(1)
    named.finish(plan)
    begun = time.process_time()
    for _ in range(many):
        named.finish(plan, (named.work * draw.triangular(0.8, 1, 1.6, len(named.work))).astype(np.int32))
    return many / (time.process_time() - begun)


def main() -> None:
    """Simulate each case and print its row."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--simulations", type=int, default=20_000)
    words.add_argument("--seeds", type=int, default=3)
    words.add_argument("--large", action="store_true", help="two classes a day, 40 students, 250 tasks")
    asked = words.parse_args()
    print("seed" + "".join(f"{head:>11}" for head in HEADS))
    for seed in range(1, asked.seeds + 1):
        size = {"tasks": 250, "periods": 160, "students": 40, "classes": 2} if asked.large else {}
        problem = class_problem(seed, **size)
        limits = Limits(seconds=5, clock=time.perf_counter, workers=1)
        rows = solve(problem, limits=limits).rows
        chances = Chances(wet=(0.1,) * len(problem.periods))
        plan = plan_of(problem, rows)
        ready = {n: Simulations(problem, chances, plan, workers=n) for n in (1, 2)}
        rates = [speed(ready[1], 3000), speed(ready[2], 6000), named_speed(problem, plan)]
        begun = time.perf_counter()
        found = odds(problem, rows, chances, simulations=asked.simulations)
        shown = time.perf_counter() - begun
        begun = time.perf_counter()
        carriers(ready[2])
        carried = time.perf_counter() - begun
        cells = [*(f"{rate:.0f}" for rate in rates), f"{100 * agreement(problem, plan):.0f}%", len(rows)]
        cells += [found.as_planned, found.ready(0.8), found.ready(0.95), f"{found.chance:.3f}"]
        cells += [f"{shown:.1f}", f"{carried:.1f}"]
        print(f"{seed:>4}" + "".join(f"{cell!s:>11}" for cell in cells), flush=True)


if __name__ == "__main__":
    main()
