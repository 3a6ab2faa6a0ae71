"""How long a run is cut, and how many staples it takes."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from setday.cable.routes.passages import Passages
from setday.cable.routes.route_rules import RouteRules
from setday.cable.run import PANEL, Cable, Medium, RoutePoint
from setday.house import Mount
from setday.measure import ZERO, Length
from setday.rules import Source
from setday.working import Step, Working

__all__ = ["cut_working", "staples_on"]


def cut_working(cable: Cable, path: Length, passages: Passages) -> tuple[Length, Length, Working]:
    """Work out what is cut off the coil for a run.

    Parameters
    ----------
    cable : Cable
    path : Length
        Length of its way.
    passages : Passages
        For the rules in force.

    Returns
    -------
    cut : Length
        Up to the next mark of the rules.
    slack : Length
        The part of it that stays coiled for the set.
    working : Working
    """
    rules = passages.rules
    tails = 1 if cable.home else 2
    drape = Length(-(-path.sixtyfourths * round(rules.drape_percent * 100) // 10000))
    slack = Length(rules.set_slack if cable.home else 0)
    total = path + drape + Length(rules.box_tail) * tails + slack
    cut = Length(-(-total.sixtyfourths // rules.cut_mark) * rules.cut_mark)
    steps = (
        _step("way through the framing", "shortest way", path),
        *_allowances(path, drape, tails, slack, passages),
        _step("cut", f"{total}, up to the next {Length(rules.cut_mark)}", cut),
    )
    working = Working(
        key=f"cable/run/{cable.number}",
        title=f"Cut length of run {cable.number}",
        steps=steps,
        result=str(cut),
        value=cut.inches,
        unit="in",
        assumptions=(
            "Cables run in the middle of the walls, up and down beside studs and level through holes.",
            "Over ceilings and under floors they run along the house's two directions.",
        ),
    )
    return cut, slack, working


def _allowances(path: Length, drape: Length, tails: int, slack: Length, passages: Passages) -> Iterator[Step]:
    """Yield the steps of what a run takes beyond its way."""
    rules = passages.rules
    tail = Length(rules.box_tail)
    words = "tail in the box" if tails == 1 else "tails in the boxes"
    yield _step("drape", f"{path} x {rules.drape_percent:g} %", drape, source=_source(rules, "drape_percent"))
    yield _step(words, f"{tails} x {tail}", tail * tails, source=_source(rules, "box_tail"))
    if slack:
        expression = "slack at the panel's corner"
        yield _step("coiled for the set", expression, slack, source=_source(rules, "set_slack"))


def _source(rules: RouteRules, key: str) -> Source:
    return rules.book[f"cable.{key}"].source


def _step(label: str, expression: str, result: Length, *, source: Source | None = None) -> Step:
    return Step(
        label=label,
        expression=expression,
        result=str(result),
        value=result.inches,
        unit="in",
        source=source,
    )


def staples_on(cable: Cable, points: Sequence[RoutePoint], passages: Passages) -> int:
    """Count the staples of a run, NEC 334.30: one beside each box, more where no holes carry it.

    Beside a one-gang box without clamps it stands nearer to the box than beside others, NEC 314.17(C), so
    that a little more of the cable is left to be held.

    Parameters
    ----------
    cable : Cable
    points : sequence of RoutePoint
    passages : Passages
        For the rules in force.
    """
    apart = passages.rules.book.length("cable.staple_apart")
    carried, last = 0, len(points) - 2
    for n, (a, b) in enumerate(pairwise(points)):
        if a.medium is not b.medium or (a.medium is Medium.WALL and a.along != b.along):
            continue
        if a.medium is Medium.CEILING and passages.rules.joists and a.plan != b.plan:
            continue
        by_box = [name for at, name in ((0, cable.start), (last, cable.end)) if at == n]
        free = _stretch(a, b) - sum((_staple_reach(name, passages) for name in by_box), ZERO)
        carried += int(Fraction(max(free, ZERO).sixtyfourths, apart.sixtyfourths))
    return carried + (1 if cable.home else 2)


def _staple_reach(name: str, passages: Passages) -> Length:
    """Return how far from a box its staple may stand; nothing at the panel's corner."""
    stop, book = passages.by_name[name], passages.rules.book
    if name == PANEL:
        return ZERO
    plain = stop.mount is Mount.WALL and len(stop.devices) == 1 and not book.flag("cable.box_clamps")
    return book.length("cable.staple_from_plain_box" if plain else "cable.staple_from_box")


def _stretch(a: RoutePoint, b: RoutePoint) -> Length:
    return abs(b.plan.x - a.plan.x) + abs(b.plan.y - a.plan.y) + abs(b.up - a.up)
