"""Class timetables: our finish beside the list by urgency and the proven bound, on invented classes.

Run from the project's folder: ``python -m bench.timetable [--seconds 30] [--seeds 10] [--large]``.
"""

import argparse
import time

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import solve

HEADS = ("by urgency", "first", "after s", "finish", "bound", "gap", "idle")


def main() -> None:
    """Solve each case and print its row."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--seconds", type=float, default=30.0)
    words.add_argument("--seeds", type=int, default=10)
    words.add_argument("--large", action="store_true", help="two classes a day, 40 students, 250 tasks")
    asked = words.parse_args()
    print("seed" + "".join(f"{head:>11}" for head in HEADS))
    for seed in range(1, asked.seeds + 1):
        size = {"tasks": 250, "periods": 160, "students": 40, "classes": 2} if asked.large else {}
        problem = class_problem(seed, **size)
        seen: list[tuple[float, int]] = []
        start = time.perf_counter()

        def told(finish: int, _bound: int, seen=seen, start=start) -> None:
            if not seen or finish < seen[-1][1]:
                seen.append((time.perf_counter() - start, finish))

        found = solve(
            problem, limits=Limits(seconds=asked.seconds, clock=time.perf_counter), on_progress=told
        )
        first = seen[0] if seen else (found.seconds, found.finish)
        gap = found.finish / found.bound - 1
        print(
            f"{seed:>4}{found.plain:>11}{first[1]:>11}{first[0]:>11.1f}{found.finish:>11}{found.bound:>11}"
            f"{100 * gap:>10.1f}%{found.idle:>11}",
            flush=True,
        )


if __name__ == "__main__":
    main()
