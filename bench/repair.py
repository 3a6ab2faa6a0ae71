"""Repair after a bad day, beside the old order replayed and a timetable from nothing, on invented classes.

Run from the project's folder: ``python -m bench.repair [--seconds 12] [--first 1] [--seeds 10] [--slip]``.
The bad day: two tasks overrun by half their work, one delivery comes five days late, two students are away.
With ``--slip`` one task takes one period of its crew more, and nothing else happens.

Beside each figure stands the most that is asked of it, and whether it is met.  The finish is held against the
best found from nothing, which gets as long as the repair and as many workers.
"""

import argparse
import random
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, ClassTimetable, Fixed, carried_on, solve, verify
from setday.timetable.odds import Chances, Simulations, plan_of, rest_of
from setday.timetable.repair import Repair, repair, repair_at_once

SECONDS, PERIODS_LATER = 15.0, 1
"""Most that a repair may take [s], and periods by which it may finish later than the best from nothing."""
TASKS, PLACES, PLACES_SLIP = 0.20, 0.25, 0.10
"""Most that may change: tasks moved and near places after the bad day, near places after a slip."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A class after a period that went otherwise than planned, and what can be had by planning it anew."""

    seed: int
    planned: ClassTimetable
    problem: ClassProblem
    happened: Rows
    nothing: ClassTimetable


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One figure of a repair, and the most that is asked of it."""

    what: str
    is_: float
    most: float
    said: str

    @property
    def met(self) -> bool:
        """Whether the figure is no more than asked."""
        return self.is_ <= self.most


def case_of(seed: int, *, plan: Limits, limits: Limits, since: int, slips: bool) -> Case:
    """Return the case of one seed."""
    problem = class_problem(seed)
    planned = solve(problem, limits=plan)
    now, happened = (slip if slips else bad_day)(problem, planned.rows, since=since, seed=seed)
    nothing = solve(now, limits=limits, fixed=Fixed(happened=happened))
    return Case(seed=seed, planned=planned, problem=now, happened=happened, nothing=nothing)


def asked_of(case: Case, found: Repair, *, seconds: float, slips: bool) -> Iterator[Asked]:
    """Return each figure of a repair beside the most that is asked of it."""
    best = min(case.nothing.finish, found.possible)
    most = best + PERIODS_LATER
    yield Asked(what="finish", is_=found.finish, most=most, said=f"{found.finish} of {most}")
    yield Asked(what="seconds", is_=seconds, most=SECONDS, said=f"{seconds:.1f} of {SECONDS:.0f}")
    if not slips:
        yield _share("tasks", len(found.moves), found.tasks, TASKS)
    yield _share("places", found.places_changed, found.places, PLACES_SLIP if slips else PLACES)


def _share(what: str, many: int, of: int, most: float) -> Asked:
    part = many / max(1, of)
    said = f"{many}/{of} = {100 * part:.0f} of {100 * most:.0f} %"
    return Asked(what=what, is_=part, most=most, said=said)


def main() -> None:
    """Repair each case and print its rows."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--seconds", type=float, default=12.0)
    words.add_argument("--first", type=int, default=1, metavar="SEED")
    words.add_argument("--seeds", type=int, default=10)
    words.add_argument("--since", type=int, default=12)
    words.add_argument("--plan", type=float, default=15.0, help="seconds for the timetable to begin with")
    words.add_argument("--workers", type=int, default=2)
    words.add_argument("--slip", action="store_true", help="one task slips by one period, nothing else")
    asked = words.parse_args()
    clock = time.perf_counter
    plan = Limits(seconds=asked.plan, clock=clock, workers=1)
    limits = Limits(seconds=asked.seconds, clock=clock, workers=asked.workers)
    _compile(clock)
    met: list[Asked] = []
    for seed in range(asked.first, asked.first + asked.seeds):
        case = case_of(seed, plan=plan, limits=limits, since=asked.since, slips=asked.slip)
        met += tell(case, limits=limits, slips=asked.slip)
    tell_all(met)


def _compile(clock: Callable[[], float]) -> None:
    """Let a small class be repaired once, so that compiling does not count."""
    limits = Limits(seconds=0.5, clock=clock, workers=1)
    problem = class_problem(1, tasks=24, periods=24, students=9)
    rows = solve(problem, limits=limits).rows
    now, happened = slip(problem, rows, since=5, seed=1)
    repair(now, happened=happened, old=rows, limits=limits)


def tell(case: Case, *, limits: Limits, slips: bool) -> list[Asked]:
    """Repair one case and print how; return its figures beside what is asked of them."""
    now, happened, old = case.problem, case.happened, case.planned.rows
    begun = limits.clock()
    first = repair_at_once(now, happened=happened, old=old)
    first_ms = 1000 * (limits.clock() - begun)
    begun = limits.clock()
    found = repair(now, happened=happened, old=old, limits=limits)
    seconds = limits.clock() - begun
    for made in (first, found):
        broken = verify(now, made.rows, since=len(happened))
        if broken:
            print(f"  breaks {len(broken)} rules: {broken[0]}")
    print(
        f"seed {case.seed}: planned {case.planned.finish}, from nothing {case.nothing.finish}, old order"
        f" {old_order(now, old, happened)}; at once ({first_ms:.0f} ms): finish {first.finish}, tasks"
        f" {len(first.moves)}/{first.tasks}, places {first.places_changed}/{first.places}"
    )
    figures = list(asked_of(case, found, seconds=seconds, slips=slips))
    print("  " + "; ".join(f"{one.what} {one.said} {'met' if one.met else 'MISSED'}" for one in figures))
    print(f"  {found.forced} tasks cannot begin when planned, whatever is planned")
    waits = ", ".join(
        f"{name} {waiting(now, rows, since=len(happened))}"
        for name, rows in (("planned", old), ("from nothing", case.nothing.rows), ("repaired", found.rows))
    )
    print(f"  periods in which tasks that have begun have nobody on them: {waits}")
    print("    " + "\n    ".join(found.said), flush=True)
    return figures


def waiting(problem: ClassProblem, rows: Rows, *, since: int) -> int:
    """Return in how many periods from `since` on begun tasks have nobody on them before their end."""
    ran: dict[str, list[int]] = {}
    for n, row in enumerate(rows):
        for key in {key for key in row if key and not problem.tasks[problem.number[key]].filler}:
            ran.setdefault(key, []).append(n)
    spans = ((max(periods[0], since), periods) for periods in ran.values() if periods[-1] >= since)
    return sum(periods[-1] + 1 - first - sum(n >= first for n in periods) for first, periods in spans)


def tell_all(met: list[Asked]) -> None:
    """Print on how many seeds each figure is met."""
    for what in dict.fromkeys(one.what for one in met):
        ones = [one for one in met if one.what == what]
        print(f"{what}: met on {sum(one.met for one in ones)} of {len(ones)} seeds")


if __name__ == "__main__":
    main()
