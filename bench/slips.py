"""Find the slips of invented students in forty figures of the demo house, and print how often rightly.

Usage: python bench/slips.py [--each 50] [--seed 1] [--misses 0]

The students (bench/slip_students.py, bench/slip_walks.py) figure with plain numbers and slips of their own
programs; one wrong answer in five is wrong in a way no kind of slip names.  A slip counts as found when kind,
line and thing are the right ones, or when nothing on the paper tells the named ones from the right ones.
"""

import argparse
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT / "bench")]

import slip_cases  # noqa: E402
import slip_figures  # noqa: E402

from setday.actions.cable.figured import figure_cable  # noqa: E402
from setday.actions.houses import demo_text, open_house  # noqa: E402
from setday.boards import board_rules  # noqa: E402
from setday.cable import cable_rules  # noqa: E402
from setday.learning import Diagnoser, StudentLine, figure_of, figures_of, read_lines, work_out  # noqa: E402


def demo():
    """Return the demo house with its cable, and all its figures."""
    opened = open_house(demo_text("wired"), name="wired.yaml")
    cable = figure_cable(opened, clock=time.monotonic).figure
    rules = {"board_rules": board_rules(opened.local), "cable_rules": cable_rules(opened.local)}
    return cable.house, cable, figures_of(cable.house, cable=cable, **rules)


def walked_right(figures, walks):
    """Stop where a student without slips does not come to the figure's own answer."""
    for key, _, walk, data in walks:
        student = slip_cases.Student(decimals=9, keeps_rounded=False)
        walk(student, data)
        figure = figure_of(figures, key)
        right = work_out(figure)[figure.last.key]
        if abs(student.lines[-1].value - right) > 1e-6 * max(1.0, right):
            raise SystemExit(f"{key}: the student's {student.lines[-1].value} is not the figure's {right}")


def found_at(diagnosis, truth):
    """Return the rank of the right slips among what is told, from 0; None where they are not told."""
    for rank, candidate in enumerate(diagnosis.likely):
        for slips in (candidate.slips, *candidate.alike):
            if sorted(named(s) for s in slips) == sorted(map(tuple, truth)):
                return rank
    return None


def named(slip):
    """Return a slip as the students name theirs."""
    return str(slip.kind), slip.line, slip.about


def diagnosed(diagnoser, case, *, with_lines):
    """Return what the diagnoser says of a paper."""
    lines = (
        [StudentLine(label=s.label, worked=s.worked, result=s.text) for s in case.lines] if with_lines else []
    )
    worked = case.answer.worked if with_lines else ""
    read = read_lines(diagnoser.figure, lines, case.answer.text, worked=worked)
    return diagnoser.diagnose([each.written for each in read])


def run(figures, walks, *, each, seed, misses=0):
    """Diagnose papers with lines, and others with the answer only; return the counts by way and class."""
    diagnosers, counts = {}, defaultdict(Counter)
    for way in ("lines", "answer"):
        for case in slip_cases.cases(walks, each=each, seed=f"{way} {seed}", sums=way == "lines"):
            diagnoser = diagnosers.setdefault(case.figure, Diagnoser(figure=figure_of(figures, case.figure)))
            diagnosis = diagnosed(diagnoser, case, with_lines=way == "lines")
            count_in(counts, way, case, diagnosis, misses)
    return counts


def count_in(counts, way, case, diagnosis, misses):
    """Count one paper."""
    group = "unknown" if not case.known else ("single" if len(case.truth) == 1 else "pair")
    rank = found_at(diagnosis, case.truth)
    wrong = (rank is None or rank > 2) if case.known else diagnosis.explained
    count = counts[way, group]
    count["all"] += 1
    count["explained"] += diagnosis.explained
    count["first"] += rank == 0
    count["three"] += rank is not None and rank < 3
    for key in (case.truth[0][0], f"figure {case.kind}"):
        counts[way, group, key]["all"] += 1
        counts[way, group, key]["three"] += not wrong
    if wrong and count["told"] < misses:
        count["told"] += 1
        tell(way, case, diagnosis)


def tell(way, case, diagnosis):
    """Print a miss."""
    print(f"-- {way} {case.figure} {case.truth} answer {case.answer.text} unknown {diagnosis.unknown:.2f}")
    if way == "lines":
        print("     ", "; ".join(f"{s.label} [{s.worked}] = {s.text}" for s in case.lines))
    for c in diagnosis.candidates[:3]:
        print(f"     {c.share:.3f} {[named(s) for s in c.slips]} +{len(c.alike)} {c.unexplained}")


ASKED = (
    ("lines", "single", "first", 0.80, "right first"),
    ("lines", "single", "three", 0.95, "among the first three"),
    ("answer", "single", "three", 0.75, "among the first three"),
    ("lines", "unknown", "explained", 0.10, "explained all the same"),
    ("answer", "unknown", "explained", 0.10, "explained all the same"),
)


def table(counts):
    """Return the lines of the table."""
    lines = [f"{'given':8}{'slips':9}{'papers':>8}{'first':>9}{'three':>9}{'explained':>11}"]
    for way in ("lines", "answer"):
        for group in ("single", "pair", "unknown"):
            c = counts[way, group]
            n = c["all"] or 1
            cells = "".join(
                f"{100 * c[k] / n:>{w - 2}.1f} %" for k, w in (("first", 9), ("three", 9), ("explained", 11))
            )
            lines.append(f"{way:8}{group:9}{c['all']:>8}{cells}")
    return lines


def kept(counts):
    """Yield each thing asked with what was reached and whether it is kept."""
    for way, group, key, limit, words in ASKED:
        c = counts[way, group]
        share = c[key] / (c["all"] or 1)
        yield (
            f"{way}, {group}: {words}",
            share,
            limit,
            share < limit if key == "explained" else share >= limit,
        )


def main():
    """Run and print."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ask.add_argument("--each", type=int, default=55)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--misses", type=int, default=0)
    args = ask.parse_args()
    house, cable, figures = demo()
    walks = slip_figures.forty(house, cable)
    walked_right(figures, walks)
    began = time.process_time()
    counts = run(figures, walks, each=args.each, seed=args.seed, misses=args.misses)
    papers = [
        sum(counts[way, g]["all"] for g in ("single", "pair", "unknown")) for way in ("lines", "answer")
    ]
    spent = f"{time.process_time() - began:.0f} s of user time"
    print(f"{papers[0]} wrong answers with lines, {papers[1]} without, {len(walks)} figures, {spent}\n")
    print("\n".join(table(counts)), "\n")
    for way in ("lines", "answer"):
        for what in ("figure ", ""):
            rows = [
                k
                for k in counts
                if len(k) == 3 and k[:2] == (way, "single") and k[2].startswith("figure") == bool(what)
            ]
            print(
                f"{way}, singles, first three:",
                ", ".join(
                    f"{k[2].removeprefix('figure ')} {counts[k]['three']}/{counts[k]['all']}"
                    for k in sorted(rows)
                ),
            )
    print()
    for words, share, limit, held in kept(counts):
        print(f"{'kept' if held else 'NOT KEPT':9}{words}: {100 * share:.1f} % (asked {100 * limit:.0f} %)")
    return 0 if all(held for *_, held in kept(counts)) else 1


if __name__ == "__main__":
    sys.exit(main())
