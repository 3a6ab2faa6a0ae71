"""Class timetables: our finish beside the list by urgency and the proven bound, on invented classes.

Run from the project's folder: ``python -m bench.timetable [--seconds 30] [--at 5] [--seeds 10] [--large]``.
A row a seed: the finish of the list by urgency, the first timetable told and when, then finish and bound at
each time of ``--at`` (solved anew with that limit, so that the names are in) and at the full time, with the
minutes short of targets, changes of crew, crews without anyone who knows the trade, and times idle.  With
``--work`` seconds are counted as work of the processor, all threads together, where the machine is busy.
"""

import argparse
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, ClassTimetable, solve, verify

HEADS = (
    "limit s",
    "by urgency",
    "first",
    "after s",
    "finish",
    "bound",
    "gap",
    "short",
    "leaves",
    "alone",
    "idle",
)


def main() -> None:
    """Solve each case and print its rows."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--seconds", type=float, default=30.0)
    words.add_argument("--at", type=float, nargs="*", default=[5.0], help="shorter limits to try too")
    words.add_argument("--seeds", type=int, default=10)
    words.add_argument("--first", type=int, default=1, metavar="SEED")
    words.add_argument("--workers", type=int, default=2)
    words.add_argument("--large", action="store_true", help="two classes a day, 40 students, 250 tasks")
    words.add_argument("--work", action="store_true", help="count seconds of work, not of the clock")
    asked = words.parse_args()
    clock = time.process_time if asked.work else time.perf_counter
    size = {"tasks": 250, "periods": 160, "students": 40, "classes": 2} if asked.large else {}
    _solved(class_problem(1, tasks=24, periods=24, students=9), 0.5, asked.workers, clock)  # compiled
    print("seed" + "".join(f"{head:>11}" for head in HEADS))
    met = []
    for seed in range(asked.first, asked.first + asked.seeds):
        problem = class_problem(seed, **size)
        for seconds in (*asked.at, asked.seconds):
            found, first = _solved(problem, seconds, asked.workers, clock)
            _tell(seed, seconds, found, first)
            met.append((seconds, found))
    _tell_all(met)


def _solved(
    problem: ClassProblem, seconds: float, workers: int, clock: Callable[[], float]
) -> tuple[ClassTimetable, tuple[float, int]]:
    """Return the timetable, and when the first was told and how long it took."""
    seen: list[tuple[float, int]] = []
    start = clock()

    def told(finish: int, _bound: int) -> None:
        if not seen and finish <= len(problem.periods):
            seen.append((clock() - start, finish))

    found = solve(problem, limits=Limits(seconds=seconds, clock=clock, workers=workers), on_progress=told)
    broken = verify(problem, found.rows)
    if broken:
        print(f"  breaks {len(broken)} rules: {broken[0]}")
    return found, seen[0] if seen else (found.seconds, found.finish)


def _tell(seed: int, seconds: float, found: ClassTimetable, first: tuple[float, int]) -> None:
    gap = 100 * (found.finish / found.bound - 1)
    tally = found.tally
    print(
        f"{seed:>4}{seconds:>11.0f}{found.plain:>11}{first[1]:>11}{first[0]:>11.2f}{found.finish:>11}"
        f"{found.bound:>11}{gap:>10.1f}%{tally.short:>11}{tally.leaves:>11}{tally.alone:>11}{found.idle:>11}",
        flush=True,
    )


def _tell_all(met: list[tuple[float, ClassTimetable]]) -> None:
    for seconds in sorted({limit for limit, _ in met}):
        found = [one for limit, one in met if limit == seconds]
        gaps = [100 * (one.finish / one.bound - 1) for one in found]
        print(
            f"{seconds:.0f} s: gap {sum(gaps) / len(gaps):.1f} % on the mean, {max(gaps):.1f} % at most;"
            f" changes of crew {max(one.tally.leaves for one in found)} at most;"
            f" minutes short {sum(one.tally.short for one in found)}; idle {sum(one.idle for one in found)}"
        )


if __name__ == "__main__":
    main()
