"""The server killed at random times while forty students enter things: what was acknowledged is there.

Run: python bench/power_cut.py [--cuts 100] [--students 40] [--seed 1] [--json]

Each time the server (`setday demo`, real HTTP, real SQLite) is killed with SIGKILL at a random moment under
the load of bench/class_load.py, photos included, without a pause between entries.  After each restart every
acknowledged entry must be in the records, none twice, the database whole, and every photo's record must have
its file.  What no answer came for is sent again with its own sign, as a tablet does, and must then be kept
once.  The house is the small one, so that a restart is quick.  This is a program that dies; that a disk keeps
what it says it wrote is not checked here.
"""

import argparse
import random
import sys
import tempfile
import threading
import time
from functools import partial
from io import BytesIO
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from class_pupils import Acknowledged, Tablet, as_json, missing_of, whole
from class_site import make_class, start_server

HOUSE = "practice-shed"
LATEST_S = 1.5
EARLY, AMID, MOST_WARMING_S = 0.1, 10, 60


def photo():
    """Return a small photo."""
    from PIL import Image

    written = BytesIO()
    Image.new("RGB", (320, 240), (150, 120, 90)).save(written, "JPEG")
    return written.getvalue()


class Class:
    """The tablets of a class, over all restarts of the server: their sign-in stays good."""

    def __init__(self, pupils, told):
        self.told, self.stop = told, threading.Event()
        self.tablets = [Tablet(each, 0, told, photo()) for each in pupils]

    def come_in(self, port):
        """Sign everybody in once, one after the other."""
        for tablet in self.tablets:
            tablet.at(port)
            tablet.sign_in()

    def press(self, port):
        """Begin to enter things on every tablet; return the threads."""
        self.stop.clear()
        threads = [
            threading.Thread(target=partial(self._work, each, port), daemon=True) for each in self.tablets
        ]
        for thread in threads:
            thread.start()
        return threads

    def _work(self, tablet, port):
        tablet.at(port)
        answered = tablet.send_again()
        while answered and not self.stop.is_set():
            answered = tablet.enter()


def cut_once(data, school_class, chance):
    """Start, enter, kill; return what the records then say."""
    server = start_server(data)
    if not school_class.tablets[0].cookies:
        school_class.come_in(server.port)
    threads = school_class.press(server.port)
    _wait(school_class.told, chance)
    server.process.kill()
    server.process.wait(timeout=60)
    server.process.stdout.close()
    school_class.stop.set()
    for thread in threads:
        thread.join(timeout=60)
    lost, twice = missing_of(school_class.told)
    return {"lost": lost, "twice": twice, "database": whole()}


def _wait(told, chance):
    """Wait for a random moment: now and then while the site still warms up, mostly amid the entries."""
    before, ends = told.count, time.monotonic() + MOST_WARMING_S
    if chance.random() < 1 - EARLY:
        while told.count < before + AMID and time.monotonic() < ends:
            time.sleep(0.02)
    time.sleep(chance.uniform(0, LATEST_S))


def cut_often(data, *, cuts, students, seed):
    """Cut the power again and again; return what was acknowledged and everything that went wrong."""
    pupils, told, chance = make_class(data, students, house_key=HOUSE), Acknowledged(), random.Random(seed)
    school_class, wrong = Class(pupils, told), []
    for number in range(1, cuts + 1):
        found = cut_once(data, school_class, chance)
        if found["lost"] or found["twice"] or found["database"] != "ok":
            wrong.append({"cut": number, **found})
        print(f"cut {number} of {cuts}: {told.count} acknowledged, wrong {len(wrong)}", file=sys.stderr)
    refused = [each for each in told.errors if not each.startswith("no answer")]
    return {
        "cuts": cuts,
        "acknowledged": told.count,
        "by kind": {name: len(getattr(told, name)) for name in ("gates", "marks", "answers", "notes")},
        "left without an answer": len(told.errors) - len(refused),
        "sent again": sum(each.again for each in school_class.tablets),
        "refused": refused[:20],
        "wrong": wrong,
    }


def main():
    """Cut, print, and end with 1 when anything was lost, doubled, damaged or refused."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--cuts", type=int, default=100)
    asked.add_argument("--students", type=int, default=40)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--json", action="store_true")
    asked = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        found = cut_often(Path(folder), cuts=asked.cuts, students=asked.students, seed=asked.seed)
    print(as_json(found) if asked.json else "\n".join(f"{name}: {value}" for name, value in found.items()))
    return 1 if found["wrong"] or found["refused"] else 0


if __name__ == "__main__":
    sys.exit(main())
