"""Speed of switching, and how many tests a hunt for a fault takes, beside the best possible.

Run: python bench/switching.py [--exact]
"""

import sys
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "src"))

from setday.files import read_hookup
from setday.switching import (
    ChangeKind,
    Hookup,
    Meter,
    answers,
    best_tree,
    catalog,
    diagnose,
    distinct,
    efforts,
    every_change,
    groups_of,
    hunt_lengths,
    lay_out,
    observation_of,
    plan,
    try_hookup,
)

FOLDER = Path(__file__).resolve().parents[1] / "src" / "setday" / "demo" / "hookups"
AT_DEVICES = {
    ChangeKind.SWAPPED_TERMINALS,
    ChangeKind.DEAD_SWITCH,
    ChangeKind.STUCK_SWITCH,
    ChangeKind.BURNT_LAMP,
    ChangeKind.WRONG_KIND,
}
EXACT_UP_TO = 26


def standard() -> list[tuple[str, Hookup]]:
    """Return the standard circuits."""
    return [
        (path.stem, read_hookup(path.read_bytes(), name=path.name).sound())
        for path in sorted(FOLDER.glob("*.yaml"))
    ]


def timed(job, times=3):
    """Return the least of a few runs [s]."""
    found = []
    for _ in range(times):
        start = perf_counter()
        job()
        found.append(perf_counter() - start)
    return min(found)


def matrix(hookup, *, at_devices=False):
    """Return the tests, and the answers of the faults that can be told apart."""
    circuit = lay_out(hookup)
    changes = every_change(circuit)
    if at_devices:
        changes = tuple(c for c in changes if c.kind in AT_DEVICES and not c.with_ground)
    variants, _ = distinct(circuit, changes)
    told = answers(circuit, variants, catalog(circuit, meters=(Meter.DEAD,)))
    groups = groups_of(told)
    return circuit, told.tests, told.codes[[rows[0] for rows in groups]], len(variants)


def speeds(circuits):
    """Print the speeds beside what is asked."""
    by_name = dict(circuits)
    six, eight = by_name["six-switches-four-lamps"], by_name["eight-boxes"]
    circuit = lay_out(eight)
    first = diagnose(eight, (), faults=1).next.test
    seen = (observation_of(circuit, first, 0),)
    rows = [
        ("try, 64 positions of 6 switches and 4 lamps", timed(lambda: try_hookup(six)), 0.05),
        ("plan, 8 boxes, 11 paths", timed(lambda: plan(eight), times=1), 2.0),
        ("single faults and next test, 8 boxes", timed(lambda: diagnose(eight, (), faults=1)), 1.0),
        ("pairs of faults, 8 boxes", timed(lambda: diagnose(eight, seen, faults=2), times=1), 10.0),
    ]
    for what, took, asked in rows:
        print(f"{what:48s} {took:8.3f} s   asked under {asked:g} s")


def hunts(circuits, *, at_devices):
    """Print how many tests a hunt takes on average over all single faults."""
    print(f"{'circuit':36s} faults groups  tests  /log2  effort-first  best possible   over it")
    for name, hookup in circuits:
        circuit, tests, codes, faults = matrix(hookup, at_devices=at_devices)
        weights = np.ones(len(codes))
        count, _ = hunt_lengths(codes, weights, np.ones(len(tests)))
        thrifty, _ = hunt_lengths(codes, weights, efforts(tests, circuit.rules))
        log2 = np.log2(len(codes))
        best = ""
        if len(codes) <= EXACT_UP_TO or "--exact" in sys.argv:
            tree = best_tree(codes, most_steps=1_000_000 if "--exact" in sys.argv else 60_000)
            best = (
                f"{tree.least:8.2f} {'exact' if tree.exact else 'bound'}   {count.mean() / tree.least:6.3f}"
            )
        print(
            f"{name:36s} {faults:6d} {len(codes):6d} {count.mean():6.2f} {count.mean() / log2:6.2f}"
            f" {thrifty.mean():8.2f}      {best}",
            flush=True,
        )


def main():
    """Print everything."""
    circuits = standard()
    speeds(circuits)
    print("\nAll single faults; asked: at most 1.3 x log2(groups)")
    hunts(circuits, at_devices=False)
    print("\nSingle faults at devices, few enough for the best tree; asked: at most 1.15 of it")
    hunts(circuits, at_devices=True)


if __name__ == "__main__":
    main()
