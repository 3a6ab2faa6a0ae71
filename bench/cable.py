"""How long the cable of whole houses takes, and what it saves over figuring by hand.

Run: python bench/cable.py [house.yaml ...]
"""

import sys
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "src"), str(ROOT)]

from bench.cable_cases import LARGE  # noqa: E402
from setday.actions import demo_text, open_house  # noqa: E402
from setday.actions.buying import demo_prices, usable_prices  # noqa: E402
from setday.actions.cable.figured import figure_cable  # noqa: E402
from setday.cable import compared  # noqa: E402
from setday.materials import coil_plans  # noqa: E402
from setday.measure import ZERO, Length  # noqa: E402
from setday.solving import Limits  # noqa: E402


def measure(name: str, text: str, most: float | None) -> None:
    """Figure a house from its text on and print what came of it."""
    start = perf_counter()
    opened = open_house(text, name=name)
    read = perf_counter() - start
    wired = figure_cable(opened, clock=perf_counter)
    prices = usable_prices(demo_prices(), name="demo prices")
    coils = coil_plans(wired.figure.pulls, prices, limits=Limits(seconds=5.0, clock=perf_counter, workers=1))
    seconds = perf_counter() - start
    figure = wired.figure
    area = sum(room.area.sqft for room in figure.house.rooms)
    wanted = f", wanted under {most:g} s" if most else ""
    print(f"{figure.house.name}: {area:,.0f} ft2 of floor, {seconds:.2f} s{wanted} (reading {read:.2f} s)")
    print(
        f"  {len(figure.house.devices)} devices, {len(figure.plan.circuits)} circuits,"
        f" {len(figure.routing.runs)} runs, {figure.routing.cut} of cable,"
        f" {len(figure.routing.holes)} holes, {len(figure.problems)} problems"
    )
    proven = sum(order.proven for order in figure.orders.values())
    legs = sum(each.plan is not None and each.plan.proven for each in wired.hookups)
    bought, bound = (sum(getattr(plan, each) for plan in coils.plans) for each in ("bought", "bound"))
    print(
        f"  proven: {proven} of {len(figure.orders)} orders of boxes, {legs} of {len(wired.hookups)}"
        f" switched groups; {bought} coils, none fewer than {bound}"
    )
    _by_hand(wired)


def _by_hand(wired) -> None:
    """Print the routed lengths beside what an instructor figures: east plus north plus up, and a fifth."""
    lines = compared(wired.figure.routing.runs, wired.figure.passages)

    def summed(part: str) -> Length:
        return sum((getattr(line, part) for line in lines), ZERO)

    hand, cut = summed("hand"), summed("cut")
    short = [line for line in lines if line.short > ZERO]
    missing = sum((line.short for line in short), ZERO)
    print(
        f"  by hand {hand}, routed {cut} (by hand {(hand.feet / cut.feet - 1) * 100:+.1f} %);"
        f" {len(short)} of {len(lines)} runs cut by hand would be too short, by {missing} together"
    )
    print(
        f"  where it comes from: up and down {summed('climbs')}, round about {summed('round_about')},"
        f" drape, tails and rounding less the fifth {summed('allowances')}"
    )


def main() -> None:
    named = [Path(word) for word in sys.argv[1:]]
    if named:
        for path in named:
            measure(path.name, path.read_text(encoding="utf-8"), None)
        return
    measure("demo house", demo_text("house"), 5.0)
    measure("large house", LARGE, 20.0)


if __name__ == "__main__":
    main()
