"""Measure the board layouts: bounds, counts and money over time, in one run.

Usage: python bench/boards.py [--case room|1200|2400|table|HOUSE.yaml] [--time-limit 120] [--workers 2]

Cases other than a house file are invented by bench/board_cases.py.  A house file is read with the
demo's price list, or with --prices FILE.csv.  Every layout reported has passed the verifier.
"""

import argparse
import os
import resource
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT / "bench")]

import board_cases  # noqa: E402

from setday.boards import (  # noqa: E402
    BoardProblem,
    Limits,
    Outcome,
    Progress,
    net_area,
    totals,
    verify,
    verify_outcome,
)
from setday.boards.layout import greedy, solve  # noqa: E402
from setday.findings import Severity  # noqa: E402

MARKS = (2, 15, 60, 120)
SHEET_SQFT = 32
HAND_WASTE = 1.10
TABLE = (600, 1200, 1800, 2400, 3600, 4800)


@dataclass
class Watch:
    """Writes down money and bound at the marks."""

    problem: BoardProblem
    first: float | None = None
    checked: int = 0
    rows: list[tuple[float, int, float]] = field(default_factory=list)
    last: tuple[int, float] = (0, 0.0)

    def __call__(self, progress: Progress) -> bool:
        if progress.layout is not None:
            if any(f.severity is Severity.PROBLEM for f in verify(self.problem, progress.layout)):
                raise SystemExit("a layout failed the verifier")
            self.checked += 1
            if self.first is None:
                self.first = progress.seconds
        while len(self.rows) < len(MARKS) and progress.seconds >= MARKS[len(self.rows)]:
            self.rows.append((MARKS[len(self.rows)], *self.last))
        self.last = (progress.cost_cents or 0, progress.bound_cents)
        return True


def measure(name: str, problem: BoardProblem, args: argparse.Namespace) -> None:
    """Solve one case and print everything about it."""
    area = sum(net_area(s) for s in problem.surfaces) / 4096 / 144
    hand = greedy(problem)
    watch = Watch(problem)
    before, begun = time.process_time(), resource.getrusage(resource.RUSAGE_CHILDREN)
    outcome = solve(
        problem,
        limits=Limits(seconds=args.time_limit, clock=time.monotonic, seed=args.seed, workers=args.workers),
        on_progress=watch,
    )
    cpu = time.process_time() - before
    print(f"\n{name}: {len(problem.surfaces)} surfaces, {area:,.0f} ft2 net, {outcome.status}")
    if outcome.layout is None:
        print("  " + " ".join(outcome.why_none))
        return
    bad = [f for f in verify_outcome(problem, outcome) if f.severity is Severity.PROBLEM]
    print(f"  verified: {'no fault' if not bad else bad[0]}; {watch.checked} layouts checked on the way")
    print(f"  first layout after    {watch.first:8.1f} s")
    for seconds, cents, bound in watch.rows:
        print(f"  after {seconds:5.0f} s         {_money(cents)}  {_gap(cents, bound)}")
    gap = f"gap {100 * outcome.gap:.2f} %"
    print(f"  end   {outcome.seconds:5.1f} s         {_money(outcome.cost_cents)}  {gap}")
    _sums(problem, outcome, area)
    if hand is not None:
        by_hand = totals(problem, hand)
        saved = 1 - outcome.cost_cents / by_hand.cost_cents
        ours = f"{by_hand.boards} boards; ours {100 * saved:.1f} % less"
        print(f"  greedy by surface     {_money(by_hand.cost_cents)}  {ours}")
    own, proof = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    peak = (own.ru_maxrss + proof.ru_maxrss) / 1024
    print(f"  memory peak           {peak:8.0f} MB with the largest process")
    others = proof.ru_utime + proof.ru_stime - begun.ru_utime - begun.ru_stime
    print(f"  processor             {cpu:8.0f} s here, {others:.0f} s in the processes of search and proof")
    if hasattr(os, "getloadavg"):
        waiting = ", ".join(f"{x:.1f}" for x in os.getloadavg()[:2])
        print(f"  load                  {waiting} (1 and 5 minutes) on {os.cpu_count()} processors")


def _sums(problem: BoardProblem, outcome: Outcome, area: float) -> None:
    counted = totals(problem, outcome.layout)
    bought = counted.board_area / 4096 / 144
    low, least = outcome.bound.cost_cents, outcome.bound.area_cost_cents
    print(f"  proven bound          {_money(low)}  {100 * (low / least - 1):.1f} % over the area bound")
    print(f"  area bound            {_money(least)}")
    waste, joints = 100 * (1 - area / bought), counted.butt_joint / 768
    print(f"  boards, waste, joints {counted.boards:8d}  {waste:.1f} %  {joints:.0f} ft")
    sheets = area * HAND_WASTE / SHEET_SQFT
    print(f"  by area, as taught    {sheets:8.0f} sheets of {SHEET_SQFT} ft2 (net area x {HAND_WASTE})")


def _money(cents: float) -> str:
    return f"${cents / 100:11,.2f}"


def _gap(cents: float, bound: float) -> str:
    return f"gap {100 * (cents / bound - 1):.2f} %" if bound > 0 else "no bound yet"


def _house(path: str, prices: str | None) -> BoardProblem:
    from setday.actions import open_house
    from setday.actions.boards import rules_for
    from setday.boards import board_problem
    from setday.files import read_prices
    from setday.materials import boards_offered

    file = Path(path)
    opened = open_house(file.read_bytes(), name=file.name)
    listed = Path(prices) if prices else ROOT / "src" / "setday" / "demo" / "prices.csv"
    read = read_prices(listed.read_bytes(), name=listed.name)
    if read.prices is None:
        raise SystemExit(f"{listed.name} has no prices")
    prepared = board_problem(
        opened.built(), choices=opened.boards, rules=rules_for(opened), boards=boards_offered(read.prices)
    )
    return prepared.problem


def cases(args: argparse.Namespace) -> list[tuple[str, BoardProblem]]:
    """Return the cases asked for."""
    if args.case == "room":
        return [("one room, 12 x 16 ft, 8 ft walls", board_cases.one_room())]
    if args.case == "table":
        return [(f"{n} ft2 of floor", board_cases.house(n)) for n in TABLE]
    if args.case.isdigit():
        return [(f"{args.case} ft2 of floor", board_cases.house(int(args.case)))]
    return [(args.case, _house(args.case, args.prices))]


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--case", default="1200", help="room, an area in ft2, table, or a house file")
    parser.add_argument("--time-limit", type=float, default=120.0, metavar="S")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--prices", metavar="FILE.csv")
    args = parser.parse_args()
    for name, problem in cases(args):
        measure(name, problem, args)


if __name__ == "__main__":
    main()
