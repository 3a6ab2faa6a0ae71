"""What an instructor figures by hand, run by run, and where the routed length differs from it."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable.routes.passages import Passages
from setday.cable.run import Medium, Run, Stop
from setday.measure import ZERO, Length

__all__ = ["ByHand", "by_hand", "compared"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """One run figured by hand, beside its routed length.

    Parameters
    ----------
    number : str
    direct : Length
        Distance along the house's two directions, and the difference of the two heights.
    hand : Length
        `direct` and the usual part more; home runs with the slack for the set.
    cut : Length
        What the routed run is cut to.
    climbs : Length
        Of the routed way, up and down beyond the difference of the heights: to the line of holes, over doors,
        up to the ceiling, down to the floor.
    round_about : Length
        Of the routed way, level beyond the direct distance: round rooms and stairs.
    allowances : Length
        Drape, tails and rounding of the routed run, less the part added by hand.
    """

    number: str
    direct: Length
    hand: Length
    cut: Length
    climbs: Length
    round_about: Length
    allowances: Length

    @property
    def short(self) -> Length:
        """How much the figure by hand falls short of the cut length; below nothing where it is more."""
        return self.cut - self.hand


def by_hand(run: Run, passages: Passages) -> ByHand:
    """Figure one run by hand and say where the difference comes from.

    Parameters
    ----------
    run : Run
    passages : Passages
        For both ends and the rules in force.
    """
    start, end = (passages.by_name[name] for name in (run.cable.start, run.cable.end))
    level = abs(start.plan.x - end.plan.x) + abs(start.plan.y - end.plan.y)
    rise = _rise(start, end, passages)
    direct = level + rise
    percent = round(passages.rules.book.number("cable.by_hand_percent") * 100)
    hand = direct + Length((direct.sixtyfourths * percent + 5000) // 10000) + run.slack
    walked = _level_part(run)
    return ByHand(
        number=run.number,
        direct=direct,
        hand=hand,
        cut=run.cut,
        climbs=run.path - walked - rise,
        round_about=walked - level,
        allowances=(run.cut - run.path) - (hand - direct),
    )


def _rise(start: Stop, end: Stop, passages: Passages) -> Length:
    depth = Length(-passages.rules.under_floor_depth)
    ups = [stop.up if stop.devices else depth for stop in (start, end)]
    return abs(ups[0] - ups[1])


def _level_part(run: Run) -> Length:
    total = ZERO
    for a, b in zip(run.points, run.points[1:], strict=False):
        if a.medium is b.medium or Medium.WALL in (a.medium, b.medium):
            total = total + abs(a.plan.x - b.plan.x) + abs(a.plan.y - b.plan.y)
    return total


def compared(runs: Sequence[Run], passages: Passages) -> tuple[ByHand, ...]:
    """Figure every run by hand."""
    return tuple(by_hand(run, passages) for run in runs)
