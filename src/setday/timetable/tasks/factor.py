"""The factor of a class, learned from its log: student-minutes spent over those planned, trade by trade."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

__all__ = ["ClassFactor", "Spent", "learned_factors"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """What a period of a crew came to.

    Parameters
    ----------
    trade : str
    minutes : int
        Student-minutes spent [min].
    planned : float
        Student-minutes that were planned for what got done [min].
    """

    trade: str
    minutes: int
    planned: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFactor:
    """How much longer than planned a class takes in one trade.

    Parameters
    ----------
    trade : str
    factor : float
        Minutes to plan for one planned before; 1 where the log says nothing.
    spent, planned : float
        What the log holds [min].
    """

    trade: str
    factor: float
    spent: float
    planned: float


def learned_factors(log: Iterable[Spent], *, trust_minutes: float) -> Mapping[str, ClassFactor]:
    """Return the factor of each trade in the log.

    A short log says little: `trust_minutes` of work as planned are counted along with it.

    Parameters
    ----------
    log : iterable of Spent
    trust_minutes : float
        Student-minutes of log that weigh as much as the plan [min].

    Examples
    --------
    >>> worked = [Spent(trade="boards", minutes=1200, planned=600)]
    >>> learned_factors(worked, trust_minutes=600)["boards"].factor
    1.5
    """
    sums: dict[str, list[float]] = {}
    for entry in log:
        spent, planned = sums.setdefault(entry.trade, [0.0, 0.0])
        sums[entry.trade] = [spent + entry.minutes, planned + entry.planned]
    return {
        trade: ClassFactor(
            trade=trade,
            factor=(spent + trust_minutes) / (planned + trust_minutes),
            spent=spent,
            planned=planned,
        )
        for trade, (spent, planned) in sorted(sums.items())
    }
