"""A length problem as bare numbers, the way a solver wants it.

Every piece carries its kerf, every stick one kerf more than its length; both are divided by the
largest number that divides every piece, since no finer place for a cut can matter.
"""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from setday.materials.lengths import LengthProblem

__all__ = ["Dual", "Pattern", "Solved", "Sticks", "material_bound", "sticks_of", "with_ghost"]


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to cut one stick: its stock, and how many pieces of each size."""

    stock: int
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sticks:
    """Sizes asked for and sticks to cut them from.

    Parameters
    ----------
    sizes, counts : tuple of int
        Pieces, kerf included, the longest first; how many of each.
    capacities, weights : tuple of int
        Sticks, one kerf included; what one counts for in the objective.
    available : tuple of int or None
        How many there are of each stick.
    grid : int
        What one unit of size stands for [1/64 in].
    ghost : int or None
        Place of a stick that does not exist, dearer than everything that does: a plan that needs it shows
        that the stock on hand cannot serve.
    """

    sizes: tuple[int, ...]
    counts: tuple[int, ...]
    capacities: tuple[int, ...]
    weights: tuple[int, ...]
    available: tuple[int | None, ...]
    grid: int
    ghost: int | None = None

    @property
    def stocks(self) -> range:
        """Places of the sticks."""
        return range(len(self.capacities))

    @property
    def longest(self) -> int:
        """The largest capacity."""
        return max(self.capacities)

    def weigh(self, patterns: list[Pattern]) -> int:
        """Return what a list of cut sticks counts for."""
        return sum(self.weights[pattern.stock] for pattern in patterns)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dual:
    """Worths of the pieces in whole `scale`-ths, and the bound they prove."""

    worth: tuple[int, ...]
    scale: int
    bound: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """The best whole plan found and what is proven about it.

    Parameters
    ----------
    patterns : tuple of Pattern
        One for every stick; together they may hold more pieces than are asked for.
    total : int
        What they count for.
    bound : int
        No plan counts for less.
    dual : Dual
        The proof of the linear part of the bound.
    how : str
        How the bound was come by, in words.
    """

    patterns: tuple[Pattern, ...]
    total: int
    bound: int
    dual: Dual
    how: str


def sticks_of(problem: LengthProblem) -> Sticks:
    """Return a length problem as bare numbers.

    Parameters
    ----------
    problem : LengthProblem
        Every length asked for fits on some stock.
    """
    asked = problem.asked
    sizes = [length + problem.kerf for length in asked]
    grid = math.gcd(*sizes)
    return with_ghost(
        Sticks(
            sizes=tuple(size // grid for size in sizes),
            counts=tuple(asked.values()),
            capacities=tuple((stock.length + problem.kerf) // grid for stock in problem.stocks),
            weights=tuple(problem.weight(stock) for stock in problem.stocks),
            available=tuple(stock.available for stock in problem.stocks),
            grid=grid,
        )
    )


def with_ghost(sticks: Sticks) -> Sticks:
    """Return sticks with a ghost where a piece fits on no stick of endless number.

    Parameters
    ----------
    sticks : Sticks
        Without a ghost, or with one already.
    """
    numbered = list(zip(sticks.capacities, sticks.weights, sticks.available, strict=True))
    endless = max((capacity for capacity, _, number in numbered if number is None), default=0)
    if sticks.sizes[0] <= endless:
        return sticks
    dearest = sum(weight * number for _, weight, number in numbered if number is not None)
    dearest += sum(sticks.counts) * max(sticks.weights)
    return replace(
        sticks,
        capacities=(*sticks.capacities, max(sticks.longest, sticks.sizes[0])),
        weights=(*sticks.weights, dearest + 1),
        available=(*sticks.available, None),
        ghost=len(sticks.capacities),
    )


def material_bound(problem: LengthProblem) -> Fraction:
    """Return what the asked length alone must cost, every inch at the rate of the cheapest inch.

    Sticks of limited number are used up first where they are cheaper.

    Parameters
    ----------
    problem : LengthProblem
        Sizes in 1/64 in.

    Returns
    -------
    Fraction
        In cents or sticks; never above what any plan costs.
    """
    left = Fraction(sum((length + problem.kerf) * count for length, count in problem.asked.items()))
    cost = Fraction(0)
    for stock in sorted(problem.stocks, key=lambda s: Fraction(problem.weight(s), s.length + problem.kerf)):
        room = stock.length + problem.kerf
        held = left if stock.available is None else min(left, Fraction(stock.available * room))
        cost += held * Fraction(problem.weight(stock), room)
        left -= held
    return cost
