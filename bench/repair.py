"""Repair after a bad day, beside the old order replayed and a timetable from nothing, on invented classes.

Run from the project's folder: ``python -m bench.repair [--seconds 12] [--seeds 5] [--since 12] [--slip]``.
The bad day: two tasks overrun by half their work, one delivery comes five days late, two students are away.
"""

import argparse
import random
import sys
import time
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Fixed, carried_on, solve
from setday.timetable.odds import Chances, Simulations, plan_of, rest_of
from setday.timetable.repair import repair, repair_at_once

HEADS = (
    "planned",
    "nothing",
    "at once",
    "ms",
    "moved",
    "places",
    "repair",
    "s",
    "moved",
    "places",
    "in order",
)

Rows = tuple[tuple[str, ...], ...]


def bad_day(problem: ClassProblem, rows: Rows, *, since: int, seed: int) -> tuple[ClassProblem, Rows]:
    """Return the problem as it is after `since` periods, the last of which went badly, and what happened."""
    draw = random.Random(seed)
    happened = rows[:since]
    left = _left(problem, happened)
    running = sorted({key for key in happened[-1] if key} & set(left))
    over = {key: left[key] + problem.tasks[problem.number[key]].work // 2 for key in running}
    chosen = dict(draw.sample(sorted(over.items()), min(2, len(over))))
    now = carried_on(problem, happened=happened, left=chosen)
    begins = {key: n for n, row in reversed(list(enumerate(rows))) for key in row}
    soon = [
        t.key
        for t in now.tasks
        if t.work and since < begins.get(t.key, 0) < since + 10 and t.key not in chosen
    ]
    late = draw.choice(soon)
    tasks = [replace(t, begin=begins[late] + 5) if t.key == late else t for t in now.tasks]
    away = set(draw.sample([student.key for student in now.students], 2))
    periods = [
        replace(period, present=period.present - away) if since <= n < since + 2 else period
        for n, period in enumerate(now.periods)
    ]
    return replace(now, tasks=tuple(tasks), periods=tuple(periods)), happened


def slip(problem: ClassProblem, rows: Rows, *, since: int, seed: int) -> tuple[ClassProblem, Rows]:
    """Return the problem after `since` periods when one task takes one period of its crew more."""
    draw = random.Random(seed)
    happened = rows[:since]
    left = _left(problem, happened)
    key = draw.choice(sorted({key for key in happened[-1] if key} & set(left)))
    crew = happened[-1].count(key)
    return carried_on(problem, happened=happened, left={key: left[key] + 60 * crew}), happened


def _left(problem: ClassProblem, happened: Rows) -> dict[str, int]:
    """Return the work left of every task that has begun."""
    spent: dict[str, int] = {}
    for period, row in zip(problem.periods, happened, strict=False):
        for key in row:
            if key and not problem.tasks[problem.number[key]].filler:
                spent[key] = spent.get(key, 0) + period.minutes
    return {key: max(0, problem.tasks[problem.number[key]].work - done) for key, done in spent.items()}


def old_order(problem: ClassProblem, rows: Rows, happened: Rows) -> int:
    """Return the finish when the old order is simply replayed."""
    rest = rest_of(problem, happened)
    played = Simulations(rest, Chances.none(), plan_of(rest, rows[len(happened) :]), workers=1)
    return int(played.finishes(0, 1)[0]) + len(happened)


def main() -> None:
    """Repair each case and print its row."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--seconds", type=float, default=12.0)
    words.add_argument("--seeds", type=int, default=5)
    words.add_argument("--since", type=int, default=12)
    words.add_argument("--plan", type=float, default=15.0, help="seconds for the timetable to begin with")
    words.add_argument("--slip", action="store_true", help="one task slips by one period, nothing else")
    asked = words.parse_args()
    print("seed" + "".join(f"{head:>10}" for head in HEADS))
    for seed in range(1, asked.seeds + 1):
        problem = class_problem(seed)
        clock = time.perf_counter
        short, long = (Limits(seconds=s, clock=clock, workers=1) for s in (asked.plan, asked.seconds))
        plan = solve(problem, limits=short)
        make = slip if asked.slip else bad_day
        now, happened = make(problem, plan.rows, since=asked.since, seed=seed)
        scratch = solve(now, limits=long, fixed=Fixed(happened=happened))
        begun = clock()
        first = repair_at_once(now, happened=happened, old=plan.rows)
        first_ms = 1000 * (clock() - begun)
        begun = clock()
        found = repair(now, happened=happened, old=plan.rows, limits=replace(long, workers=2))
        cells = [plan.finish, scratch.finish, first.finish, round(first_ms), _moved(first), _places(first)]
        cells += [found.finish, round(clock() - begun, 1), _moved(found), _places(found)]
        cells += [old_order(now, plan.rows, happened)]
        print(f"{seed:>4}" + "".join(f"{cell!s:>10}" for cell in cells), flush=True)
        print("     " + "\n     ".join(found.said), flush=True)


def _moved(made) -> str:
    return f"{len(made.moves)}/{made.tasks}"


def _places(made) -> str:
    return f"{made.places_changed}/{made.places}"


if __name__ == "__main__":
    main()
