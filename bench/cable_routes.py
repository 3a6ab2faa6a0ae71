"""Routing by itself: how long each step takes, long chains of boxes, and coil plans for random sets of runs.

Run from the project's folder: ``PYTHONPATH=src python -m bench.cable_routes [--coil-sets 20]``.
"""

import argparse
import random
import time
from collections.abc import Callable, Iterator
from fractions import Fraction

from bench.cable_cases import LARGE
from setday.actions import demo_text, open_house
from setday.actions.cable.devices import propose_for
from setday.cable import PANEL, Cable, Passages, Pull, cable_rules, order_boxes, route_cables, route_rules
from setday.cable import stops_of as stops
from setday.materials import PriceItem, PriceList, cable_item, coil_plans
from setday.measure import Length
from setday.solving import Limits

FOOT = 768


def limits(seconds: float) -> Limits:
    """Return limits by the stopwatch of this machine."""
    return Limits(seconds=seconds, clock=time.perf_counter, workers=2)


def timed(work: Callable[[], object]) -> float:
    """Return how long a piece of work takes [s]."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def steps(name: str, text: str) -> None:
    """Print how long each step of the routing of one house takes."""
    home = propose_for(open_house(text, name=name)).house
    ways = Passages(home, stops(home), route_rules(home, cable_rules()))
    print(f"\n{name}")
    for words, seconds in _timed_steps(ways):
        print(f"  {words:<52}{seconds:>8.3f} s")


def _timed_steps(ways: Passages) -> Iterator[tuple[str, float]]:
    yield "net of ways laid out", timed(lambda: ways.net)
    boxes = [name for name in ways.net.stops if name != PANEL]
    places = len(ways.net.spots) + (ways.net.over.count if ways.net.over else 0)
    yield f"{len(boxes)} searches over {places:,} places", timed(lambda: ways.length(boxes[0], boxes[1]))
    for count in (12, 15, 25):
        chain = boxes[:count]
        seconds = timed(lambda c=chain: order_boxes(PANEL, c, between=ways.length, limits=limits(5)))
        yield f"order of {count} boxes", seconds
    ends = zip([PANEL, *boxes], boxes, strict=False)
    cables = [
        Cable(number=f"1-{n}", circuit="all", start=a, end=b, kind="14/2") for n, (a, b) in enumerate(ends)
    ]
    yield f"{len(cables)} runs: points, holes, words, lengths", timed(lambda: route_cables(ways, cables))


def random_sets(count: int) -> None:
    """Plan coils for random sets of 60 runs and count how many plans are proven."""
    price = PriceItem(
        key="coil",
        item=cable_item("14/2"),
        label="cable 14/2, 250-ft coil",
        category="cable",
        sold_as="250-ft coil",
        content=Fraction(250),
        unit="ft",
        price_cents=10000,
        length=Length(250 * FOOT),
    )
    prices = PriceList(name="bench", items=(price,))
    proven, apart, saved, slowest = 0, 0, 0, 0.0
    for seed in range(count):
        draw = random.Random(seed)
        pulls = [_pull(n, draw.randrange(6 * 12, (60 if n % 6 else 90) * 12)) for n in range(60)]
        start = time.perf_counter()
        (plan,) = coil_plans(pulls, prices, limits=limits(1)).plans
        slowest = max(slowest, time.perf_counter() - start)
        proven += plan.proven
        apart = max(apart, plan.bought - plan.bound)
        saved += (plan.by_first_fit or plan.bought) - plan.bought
    print(
        f"\n{count} random sets of 60 runs, 250-ft coils: {proven} proven, at most {apart} above the bound,"
    )
    print(f"  {saved} coils fewer than longest-first in all, {slowest:.2f} s the slowest (limit 1 s each)")


def _pull(number: int, inches: int) -> Pull:
    words = {"circuit": "", "start": "", "end": "", "label": "", "start_label": "", "end_label": ""}
    cut = Length(inches * 64)
    return Pull(number=str(number), kind="14/2", cut=cut, passes=(), staples=0, home=False, **words)


def main() -> None:
    """Print the times and the coil plans."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--coil-sets", type=int, default=20, help="random sets of runs to plan coils for")
    asked = parser.parse_args()
    steps("demo house", demo_text("house"))
    steps("large house", LARGE)
    random_sets(asked.coil_sets)


if __name__ == "__main__":
    main()
