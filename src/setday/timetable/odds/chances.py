"""What may come otherwise than planned: how long work takes, who is away, wet days, late material."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from setday.errors import NoAnswer

__all__ = ["Chances", "Delivery", "Spread", "ThreePoint", "wet_chances"]

Floats = NDArray[np.float64]


class Spread(Protocol):
    """How much of its planned work a task may really take, as a share: 1.2 is a fifth more."""

    @property
    def mean(self) -> float:
        """The mean share."""
        ...

    @property
    def doubt(self) -> float:
        """Standard deviation, on a logarithmic scale, of what all tasks of one trade share."""
        ...

    def quantiles(self, chances: Floats) -> Floats:
        """Return the shares that are not exceeded with the given chances."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreePoint:
    """Three estimates of a task's work as shares of what is planned.

    The mean is (least + 4 likely + most) / 6 and the standard deviation (most - least) / 6, as in the
    programme evaluation and review technique; between the two ends the share follows the beta distribution
    that has this mean and this deviation.

    Parameters
    ----------
    least, likely, most : float
        Shares of the planned work.

    Raises
    ------
    NoAnswer
        When they are not in order or not above nothing.

    Examples
    --------
    >>> round(ThreePoint(least=2, likely=4, most=12).mean, 3)
    5.0
    >>> round(ThreePoint(least=2, likely=4, most=12).deviation, 3)
    1.667
    """

    least: float
    likely: float
    most: float

    def __post_init__(self) -> None:
        if not 0 < self.least <= self.likely <= self.most:
            raise NoAnswer(
                f"the three estimates {self.least:g}, {self.likely:g}, {self.most:g} are not in order",
                do="Give the least, the likely and the most share of the planned work, all above 0.",
            )

    @property
    def mean(self) -> float:
        """The mean share."""
        return (self.least + 4 * self.likely + self.most) / 6

    @property
    def deviation(self) -> float:
        """The standard deviation of the share."""
        return (self.most - self.least) / 6

    @property
    def doubt(self) -> float:
        """Nothing: tasks vary each for itself."""
        return 0.0

    def quantiles(self, chances: Floats) -> Floats:
        """Return the shares that are not exceeded with the given chances."""
        width = self.most - self.least
        if width <= 0:
            return np.full(len(chances), self.likely)
        mean, variance = (self.mean - self.least) / width, 1 / 36
        both = mean * (1 - mean) / variance - 1
        shares = stats.beta.ppf(chances, mean * both, (1 - mean) * both)
        return np.asarray(self.least + width * shares, dtype=np.float64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """Material that may come late.

    Parameters
    ----------
    label : str
    tasks : tuple of str
        Keys of the tasks that wait for it; their `begin` is the period it is due in.
    chance : float
        That it is late at all, 0 to 1.
    least, most : int
        Days it is late then; every number between is as likely [d].
    """

    label: str
    tasks: tuple[str, ...]
    chance: float
    least: int = 1
    most: int = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """All that is left to chance in a simulation.

    Parameters
    ----------
    trades : tuple of (str, Spread)
        How much of the planned work the tasks of a trade may take.
    tasks : tuple of (str, Spread)
        The same for single tasks by their key, before their trade's.
    otherwise : Spread
        For every other task.  The shares given here are common practice, no source; a log replaces them.
    absent : float
        Chance that an expected student is away in a period.
    absent_by_student : tuple of (str, float)
        The same for single students.
    wet : tuple of float
        Chance of a wet day for each period; empty for the weather the calendar expects.
    deliveries : tuple of Delivery
    """

    trades: tuple[tuple[str, Spread], ...] = ()
    tasks: tuple[tuple[str, Spread], ...] = ()
    otherwise: Spread = ThreePoint(least=0.8, likely=1.0, most=1.6)
    absent: float = 0.05
    absent_by_student: tuple[tuple[str, float], ...] = ()
    wet: tuple[float, ...] = ()
    deliveries: tuple[Delivery, ...] = ()

    @classmethod
    def none(cls) -> "Chances":
        """Return chances in which everything comes as planned."""
        return cls(otherwise=ThreePoint(least=1, likely=1, most=1), absent=0.0)

    def problems(self, *, tasks: frozenset[str], students: frozenset[str], periods: int) -> list[str]:
        """Return what does not fit a class problem, in words, all at once."""
        told = [f"{key} has its own estimates but is no task" for key, _ in self.tasks if key not in tasks]
        told += [
            f"{delivery.label} is waited for by {key}, which is no task"
            for delivery in self.deliveries
            for key in delivery.tasks
            if key not in tasks
        ]
        told += [
            f"{delivery.label} is late by {delivery.least} to {delivery.most} days, which is no span"
            for delivery in self.deliveries
            if not 0 <= delivery.least <= delivery.most
        ]
        told += [f"{key} is away at times but not in the class" for key, _ in self.absent_by_student
                 if key not in students]  # fmt: skip
        if self.wet and len(self.wet) != periods:
            told.append(f"{len(self.wet)} chances of a wet day for {periods} periods")
        shares = [("a student is away", self.absent), ("a day is wet", max(self.wet, default=0.0))]
        shares += [(f"{key} is away", share) for key, share in self.absent_by_student]
        shares += [(f"{delivery.label} is late", delivery.chance) for delivery in self.deliveries]
        return told + [
            f"the chance that {what} is {share:g}, not between 0 and 1"
            for what, share in shares
            if not 0 <= share <= 1
        ]


def wet_chances(months: Sequence[int], *, wet_days: Sequence[float]) -> tuple[float, ...]:
    """Return the chance of a wet day for each period from the wet days of each month.

    Parameters
    ----------
    months : sequence of int
        Month of each period, 1 to 12.
    wet_days : sequence of float
        Twelve numbers: how many days of that month are wet, January first [d].

    Examples
    --------
    >>> wet_chances([1, 2], wet_days=[6.2, 5.6, *[0] * 10])
    (0.2, 0.2)
    """
    if len(wet_days) != 12:
        raise NoAnswer(f"{len(wet_days)} months of wet days; a year has 12")
    lengths = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return tuple(round(wet_days[month - 1] / lengths[month - 1], 6) for month in months)
