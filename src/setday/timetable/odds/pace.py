"""How long work really takes, learned from the log: trade by trade, each leaning on all where it is short.

The logarithms of actual over planned work are taken as normal with a mean of the trade's own and one spread
for all (one-way random effects; the spread between trades by the moments of R. DerSimonian and N. Laird,
Controlled Clinical Trials 7, 1986).  A trade's mean is then its own in the measure of what it has logged,
and that of all trades for the rest.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.errors import NoAnswer
from setday.working import Step, Working

__all__ = ["Logged", "Pace", "learn"]

Floats = NDArray[np.float64]

_PLAIN = 0.25
"""Spread of single tasks that is presumed before anything is logged, on a logarithmic scale: common
practice, no source; it counts as much as `_PLAIN_TASKS` logged ones."""
_PLAIN_TASKS = 4
_LEAST_BETWEEN = 0.1
"""Trades are presumed to differ by at least this, as so few of them can hardly show it."""
_PLAN_RIGHT = 0.35
"""How far the plan of a whole class is presumed to be off before anything is logged."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """A finished task: what was planned and what it took.

    Parameters
    ----------
    trade : str
    planned, actual : float
        Student-minutes.
    """

    trade: str
    planned: float
    actual: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How much of its planned work a task of one trade takes.

    Parameters
    ----------
    trade : str
        "" for trades with nothing logged.
    middle : float
        As many tasks take less than this share as take more.
    spread : float
        Standard deviation of single tasks, on a logarithmic scale.
    doubt : float
        Standard deviation of the trade's own mean, on a logarithmic scale: shared by all its tasks.
    logged : int
        Tasks behind it.
    own : float
        How much of it is the trade's own log, 0 to 1.
    working : Working
    """

    trade: str
    middle: float
    spread: float
    doubt: float
    logged: int
    own: float
    working: Working

    @property
    def mean(self) -> float:
        """The mean share."""
        return self.middle * math.exp((self.spread**2 + self.doubt**2) / 2)

    def quantiles(self, chances: Floats) -> Floats:
        """Return the shares not exceeded with these chances by single tasks; 1 in 10,000 is cut off.

        The doubt about the trade, whose share has the mean 1, is left to be drawn beside it.
        """
        from scipy.special import ndtri  # loads slowly

        inside = np.clip(chances, 1e-4, 1 - 1e-4)
        middle = self.middle * math.exp(self.doubt**2 / 2)
        return np.asarray(middle * np.exp(self.spread * ndtri(inside)), dtype=np.float64)


def learn(log: Iterable[Logged], *, trades: Sequence[str] = ()) -> tuple[Pace, ...]:
    """Learn the pace of each trade.

    Parameters
    ----------
    log : iterable of Logged
    trades : sequence of str
        Trades to answer for besides those logged.

    Returns
    -------
    tuple of Pace
        By trade, and last the one for any other trade, whose name is "".

    Raises
    ------
    NoAnswer
        When a logged task was planned or took nothing or less; says all that do.

    Examples
    --------
    >>> log = [Logged(trade="boards", planned=100, actual=150)] * 6
    >>> [round(pace.middle, 2) for pace in learn(log)]
    [1.48, 1.44]
    """
    entries = list(log)
    wrong = [entry for entry in entries if not (entry.planned > 0 and entry.actual > 0)]
    if wrong:
        raise NoAnswer(
            "\n".join(
                f"a logged task of {entry.trade} was planned with {entry.planned:g} student-minutes and took"
                f" {entry.actual:g}; both have to be above 0"
                for entry in wrong
            )
        )
    names = sorted({entry.trade for entry in entries} | set(trades) - {""})
    shares = {
        name: [math.log(entry.actual / entry.planned) for entry in entries if entry.trade == name]
        for name in names
    }
    within = _within(list(shares.values()))
    between = _between(list(shares.values()), within)
    overall, unsure = _overall(list(shares.values()), within, between)
    every = _All(middle=overall, unsure=unsure, within=within, between=between)
    return (*(_pace(name, shares[name], every) for name in names), _pace("", [], every))


@dataclass(frozen=True, slots=True, kw_only=True)
class _All:
    middle: float
    unsure: float
    within: float
    between: float


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _within(groups: Sequence[Sequence[float]]) -> float:
    """Return the variance of single tasks about their trade's mean."""
    squares = sum((value - _mean(group)) ** 2 for group in groups if group for value in group)
    free = sum(len(group) - 1 for group in groups if group)
    return (squares + _PLAIN_TASKS * _PLAIN**2) / (free + _PLAIN_TASKS)


def _between(groups: Sequence[Sequence[float]], within: float) -> float:
    """Return the variance of the trades' means about the mean of all."""
    logged = [group for group in groups if group]
    weights = [len(group) / within for group in logged]
    total = sum(weights)
    least = _LEAST_BETWEEN**2
    spare = total - sum(weight**2 for weight in weights) / total if total else 0.0
    if len(logged) < 2 or spare <= 0:
        return least
    middle = sum(w * _mean(group) for w, group in zip(weights, logged, strict=True)) / total
    apart = sum(w * (_mean(group) - middle) ** 2 for w, group in zip(weights, logged, strict=True))
    return max(least, (apart - (len(logged) - 1)) / spare)


def _overall(groups: Sequence[Sequence[float]], within: float, between: float) -> tuple[float, float]:
    """Return the mean of all trades and its variance; before anything is logged the plan is right."""
    weights = [1 / (between + within / len(group)) for group in groups if group]
    total = sum(weights) + 1 / _PLAN_RIGHT**2
    means = [_mean(group) for group in groups if group]
    return sum(w * mean for w, mean in zip(weights, means, strict=True)) / total, 1 / total


def _pace(trade: str, values: Sequence[float], every: _All) -> Pace:
    own = every.between / (every.between + every.within / len(values)) if values else 0.0
    mean = own * _mean(values) + (1 - own) * every.middle if values else every.middle
    doubt = every.between * (1 - own) + (1 - own) ** 2 * every.unsure
    middle = math.exp(mean)
    return Pace(
        trade=trade,
        middle=middle,
        spread=math.sqrt(every.within),
        doubt=math.sqrt(doubt),
        logged=len(values),
        own=own,
        working=_working(trade, values, every, own, middle),
    )


def _working(trade: str, values: Sequence[float], every: _All, own: float, middle: float) -> Working:
    name = trade or "any other trade"
    all_share, between = math.exp(every.middle), f"{every.between:.3f}"
    steps = [Step(label="all trades together", expression="middle of actual / planned",
                  result=f"{all_share:.2f}", value=all_share)]  # fmt: skip
    if values:
        share = math.exp(_mean(values))
        steps += [
            Step(label=f"{name}, {len(values)} logged", expression="middle of actual / planned",
                 result=f"{share:.2f}", value=share),
            Step(label=f"how much {name} counts for itself",
                 expression=f"{between} / ({between} + {every.within:.3f} / {len(values)})",
                 result=f"{own:.2f}", value=own),
            Step(label="counted", expression=f"{share:.2f}^{own:.2f} x {all_share:.2f}^{1 - own:.2f}",
                 result=f"{middle:.2f}", value=middle),
        ]  # fmt: skip
    return Working(
        key=f"timetable/pace/{trade or 'other'}",
        title=f"What {name} really takes, as a share of what is planned",
        steps=tuple(steps),
        result=f"{middle:.2f} of the plan",
        value=middle,
        unit="",
        assumptions=(
            f"Unlogged, the plan is right within {100 * _PLAN_RIGHT:.0f} %: common practice, no source.",
            f"Unlogged, single tasks differ by {100 * _PLAIN:.0f} %: common practice, no source.",
        ),
    )
