"""Forty students enter check-offs, marks and answers at once: nothing lost, and how long each waits.

Run: python bench/class_load.py [--students 40] [--seconds 30] [--every 2.0] [--json]

A real server (`setday demo`), real HTTP, real SQLite in a folder that is thrown away.  Each student
signs in with a card, enters something every few seconds (--every, at random about it; 0 waits for
nothing), and opens the page again after each entry, as the script of the tablet does.  Then all press at
the same instant, a few times: the worst that can happen at a bell.  As a peer figure on the same
machine: the sign-in page alone, asked for one at a time.
"""

import argparse
import os
import random
import statistics
import sys
import tempfile
import threading
import time
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from class_pupils import Acknowledged, Tablet, as_json, missing_of, together, whole
from class_site import make_class, start_server

ASKED_MS = 150
BURSTS = 3
PEER = 50


def at_once(tablets, seconds, every, seed):
    """Let all enter for a while, each every few seconds; return how long it took [s]."""
    chance, ends, started = random.Random(seed), time.monotonic() + seconds, time.perf_counter()

    def work(tablet, own):
        time.sleep(own.uniform(0, every))
        while time.monotonic() < ends:
            tablet.enter()
            time.sleep(own.uniform(0.5, 1.5) * every)

    own = [random.Random(chance.random()) for _ in tablets]
    together([partial(work, each, one) for each, one in zip(tablets, own, strict=True)])
    return time.perf_counter() - started


def burst(tablets):
    """Let all press at the same instant."""
    bell = threading.Barrier(len(tablets))

    def work(tablet):
        bell.wait()
        tablet.enter()

    together([partial(work, each) for each in tablets])


def peer(tablet):
    """Return how long the sign-in page takes alone [s]."""
    found = []
    for _ in range(PEER):
        started = time.perf_counter()
        tablet.ask("GET", "/card/")
        found.append(time.perf_counter() - started)
    return found


def in_ms(seconds):
    """Return the count, the median and the 95th percentile [ms]."""
    if len(seconds) < 2:
        return {"count": len(seconds)}
    ranked = statistics.quantiles(seconds, n=20, method="inclusive")
    return {"count": len(seconds), "median": round(1000 * ranked[9], 1), "p95": round(1000 * ranked[18], 1)}


def by_name(told):
    """Return the times of entries and pages by what they are [ms]."""
    found = {
        "all entries": in_ms([s for _, s in told.entry_s]),
        "all pages": in_ms([s for _, s in told.page_s]),
    }
    for name in sorted({name for name, _ in told.entry_s}):
        found[f"entry: {name}"] = in_ms([s for each, s in told.entry_s if each == name])
        found[f"page: {name}"] = in_ms([s for each, s in told.page_s if each == name])
    return found


def measured(server, pupils, asked):
    """Sign all in, warm the site, and measure; return the findings."""
    told, warm, pressed = Acknowledged(), Acknowledged(), Acknowledged()
    tablets = [Tablet(each, server.port, warm) for each in pupils]
    alone = peer(Tablet(pupils[0], server.port, warm))
    before = time.perf_counter()
    together([each.sign_in for each in tablets])
    signed_in = time.perf_counter() - before
    together([each.open_sheets for each in tablets])
    for each in tablets:
        each.told = told
    cpu = server.cpu_s()
    took = at_once(tablets, asked.seconds, asked.every, asked.seed)
    cpu = server.cpu_s() - cpu
    for each in tablets:
        each.told = pressed
    for _ in range(BURSTS):
        burst(tablets)
    everything = Acknowledged()
    for part in (warm, told, pressed):
        for name in ("gates", "marks", "answers", "errors"):
            getattr(everything, name).extend(getattr(part, name))
    asked_for = len(told.entry_s) + len(told.page_s)
    return everything, {
        "students": len(pupils),
        "load average": os.getloadavg()[0] if hasattr(os, "getloadavg") else None,
        "all signed in by card [s]": round(signed_in, 2),
        "sheets opened the first time [ms]": in_ms([s for _, s in warm.page_s]),
        "requests a second": round(asked_for / took, 1),
        "server's processor time a request [ms]": round(1000 * cpu / max(1, asked_for), 1),
        "sign-in page alone [ms]": in_ms(alone),
        "each every few seconds [ms]": by_name(told),
        "all at the same instant [ms]": by_name(pressed),
        "asked: p95 of entries below [ms]": ASKED_MS,
    }


def main():
    """Measure, print, and end with 1 when something was lost or refused."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--students", type=int, default=40)
    asked.add_argument("--seconds", type=float, default=30.0)
    asked.add_argument("--every", type=float, default=2.0)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--json", action="store_true")
    asked = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        pupils = make_class(Path(folder), asked.students)
        server = start_server(folder)
        try:
            told, found = measured(server, pupils, asked)
        finally:
            server.stop()
        lost, twice = missing_of(told)
        found |= {"acknowledged": told.count, "lost": lost, "twice": twice}
        found |= {"errors": told.errors[:20], "errors in all": len(told.errors), "database": whole()}
    print(as_json(found) if asked.json else in_words(found))
    return 1 if lost or twice or told.errors or found["database"] != "ok" else 0


def in_words(found):
    """Return the findings as lines."""
    lines = []
    for name, value in found.items():
        if isinstance(value, dict) and any(isinstance(each, dict) for each in value.values()):
            lines.append(f"{name}:")
            lines += [f"  {each:20} {figures}" for each, figures in value.items()]
        else:
            lines.append(f"{name}: {value}")
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
