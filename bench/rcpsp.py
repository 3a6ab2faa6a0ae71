"""Project scheduling on public instances: our finish beside the published bounds and a plain list.

``python bench/rcpsp.py FILE... --time-limit 10 --workers 2 --json`` reads files of rows (JSON, also packed
with gzip: name, dur, dem, suc, cap and, when known, lb and ub) or single instances in the .sm form of
PSPLIB (R. Kolisch and A. Sprecher, European Journal of Operational Research 96, 1996).  With ``--json`` it
prints one line of JSON an instance; without, a table and the means.

``python bench/rcpsp.py --drawn 120 --every 6`` solves projects of so many tasks drawn at random in the
published manner (`bench.project_cases`), for sizes of which no files are at hand; no best finish is known of
them, so our gap to our own bound and the excess over the longest chain are printed beside the plain list's.
"""

import argparse
import gzip
import json
import re
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import mean, median

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

from bench.project_cases import drawn_rows
from setday.errors import SetdayError
from setday.solving import Limits
from setday.timetable.projects import Link, Project, Scheduled, solve
from setday.timetable.projects.bounds import heads

Row = dict[str, object]


def rows(path: Path) -> Iterator[Row]:
    """Yield the instances of a file."""
    if path.suffix == ".sm":
        yield sm_row(path)
        return
    packed = path.suffix == ".gz"
    text = (gzip.decompress(path.read_bytes()) if packed else path.read_bytes()).decode("utf-8")
    try:
        found = json.loads(text)
    except json.JSONDecodeError:
        found = [json.loads(line) for line in text.splitlines() if line.strip()]
    yield from found if isinstance(found, list) else [found]


def sm_row(path: Path) -> Row:
    """Read an instance in the .sm form: single mode, renewable resources."""
    text = path.read_text(encoding="utf-8", errors="replace")
    precedence = _numbers(text, "PRECEDENCE RELATIONS")
    requests = _numbers(text, "REQUESTS/DURATIONS")
    capacities = _numbers(text, "RESOURCEAVAILABILITIES")
    if not precedence or len(precedence) != len(requests) or not capacities:
        raise SetdayError(
            f"{path.name} is not an instance in the .sm form",
            do="Give a file with the sections for precedence, requests and resource availabilities.",
        )
    kinds = len(capacities[0])
    return {
        "name": path.stem,
        "dur": [line[2] for line in requests],
        "dem": [line[3 : 3 + kinds] for line in requests],
        "suc": [[task - 1 for task in line[3 : 3 + line[2]]] for line in precedence],
        "cap": capacities[0],
    }


def _numbers(text: str, heading: str) -> list[list[int]]:
    """Return the lines of whole numbers under a heading, to the next line of stars."""
    section = text.partition(heading)[2].partition("****")[0]
    lines = [line.split() for line in section.splitlines()]
    return [[int(word) for word in line] for line in lines if line and all(map(_is_number, line))]


def _is_number(word: str) -> bool:
    return re.fullmatch(r"-?\d+", word) is not None


def project_of(row: Row) -> Project:
    """Return the project a row describes."""
    after = row["suc"]
    return Project(
        name=str(row.get("name", "")),
        durations=tuple(row["dur"]),
        demands=tuple(tuple(line) for line in row["dem"]),
        capacities=tuple((amount,) for amount in row["cap"]),
        links=tuple(Link(before=task, after=later) for task, line in enumerate(after) for later in line),
    )


def main() -> int:
    """Solve every instance named on the command line."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("files", nargs="*", type=Path, metavar="FILE")
    words.add_argument("--time-limit", type=float, default=10.0, metavar="S")
    words.add_argument("--workers", type=int, default=2, metavar="N")
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--every", type=int, default=1, metavar="N", help="take each Nth instance only")
    words.add_argument("--skip", type=int, default=0, metavar="N", help="leave out the first N instances")
    words.add_argument("--drawn", type=int, metavar="TASKS", help="draw projects of so many tasks")
    words.add_argument("--json", action="store_true")
    asked = words.parse_args()
    if not asked.files and not asked.drawn:
        words.error("name files of instances, or --drawn TASKS")
    try:
        found = [row for path in asked.files for row in rows(path)][asked.skip :: asked.every]
        if asked.drawn:
            found += drawn_rows(asked.drawn, seed=asked.seed, skip=asked.skip, every=asked.every)
        _warm_up(found)
        solved = [(row, _solved(row, asked)) for row in found]
    except (SetdayError, OSError, KeyError, ValueError) as fault:
        print(f"{type(fault).__name__}: {fault}", file=sys.stderr)
        return 2
    if not asked.json:
        _tell(solved)
    return 0


def _warm_up(found: list[Row]) -> None:
    """Compile the search once, so that no instance pays for it."""
    if found:
        solve(project_of(found[0]), limits=Limits(seconds=0.1, clock=time.perf_counter))


def _solved(row: Row, asked: argparse.Namespace) -> Scheduled:
    limits = Limits(seconds=asked.time_limit, clock=time.perf_counter, seed=asked.seed, workers=asked.workers)
    found = solve(project_of(row), limits=limits)
    line = {
        "name": row.get("name", ""),
        "makespan": found.finish,
        "bound": found.bound,
        "status": found.status.value,
        "starts": found.starts,
        "seconds": round(found.seconds, 3),
    }
    if asked.json:
        print(json.dumps(line), flush=True)
    else:
        _tell_one(row, found)
    return found


def _tell_one(row: Row, found: Scheduled) -> None:
    known = f"{row['lb']:>6}{row['ub']:>6}" if "ub" in row else " " * 12
    print(
        f"{row.get('name', ''):<14}{found.first:>7}{found.finish:>7}{found.bound:>7}{known}"
        f"{found.status:>10}{found.seconds:>8.2f} s{found.lists:>10} lists",
        flush=True,
    )


def _tell(solved: list[tuple[Row, Scheduled]]) -> None:
    proven = mean(found.status == "optimal" for _, found in solved)
    print(f"\n{len(solved)} instances, {100 * proven:.1f} % proven optimal by us")
    spent = [found.seconds for _, found in solved]
    print(f"seconds: median {median(spent):.2f}, most {max(spent):.1f}")
    for words, of in (("our bound", _bound), ("the longest chain", _chain)):
        ours = mean(found.finish / of(row, found) - 1 for row, found in solved)
        plain = mean(found.first / of(row, found) - 1 for row, found in solved)
        print(f"above {words}: ours {100 * ours:.2f} %, a plain list {100 * plain:.2f} %")
    print(f"a plain list later than ours: {100 * mean(_later(found) for _, found in solved):.2f} %")
    known = [(row, found) for row, found in solved if "ub" in row]
    if known:
        ours = mean(found.finish / row["ub"] - 1 for row, found in known)
        plain = mean(found.first / row["ub"] - 1 for row, found in known)
        wrong = [row["name"] for row, found in known if found.bound > row["ub"]]
        print(f"above the best published: ours {100 * ours:.2f} %, a plain list {100 * plain:.2f} %")
        print("our bound passes the best published finish: " + (", ".join(wrong) or "nowhere"))


def _later(found: Scheduled) -> float:
    return found.first / max(1, found.finish) - 1


def _bound(_row: Row, found: Scheduled) -> int:
    return max(1, found.bound)


def _chain(row: Row, _found: Scheduled) -> int:
    """Return the longest chain of tasks."""
    project = project_of(row)
    longest = zip(heads(project), project.durations, strict=True)
    return max(1, *(begin + length for begin, length in longest))


if __name__ == "__main__":
    sys.exit(main())
