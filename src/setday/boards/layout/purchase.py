"""The cheapest purchases: which sums of money a set of boards can come to at all."""

from functools import lru_cache, reduce
from math import ceil, gcd

import numpy as np
from numpy.typing import NDArray

from setday.boards.problem import Board

__all__ = ["next_price"]

MOST_STEPS = 60_000


def next_price(lower: float, *, boards: tuple[Board, ...], area: float, upper: int) -> float:
    """Round a bound up to the next sum that some set of boards with enough area costs.

    Parameters
    ----------
    lower : float
        A proven bound on the money [cents].
    boards : tuple of Board
    area : float
        Area to be covered [1/4096 in2].
    upper : int
        The money of a layout already found [cents]; never rounded above it.

    Returns
    -------
    float
        A bound at least as high [cents].

    Examples
    --------
    >>> one = Board(key="a", kind="r", width=48 * 64, length=96 * 64, price_cents=1200)
    >>> next_price(1300.0, boards=(one,), area=1.0, upper=5000)
    2400.0
    """
    unit = reduce(gcd, (b.price_cents for b in boards), 0)
    first = ceil((lower - 1e-6) / unit)
    last = upper // unit
    if not 0 < last < MOST_STEPS:
        return min(float(first * unit), float(upper)) if last else lower
    most = _most_area(frozenset((b.price_cents // unit, b.width * b.length) for b in boards), _rounded(last))
    enough = np.flatnonzero(most[first : last + 1] >= area)
    return float((first + int(enough[0])) * unit) if len(enough) else float(upper)


def _rounded(last: int) -> int:
    """Return a table size that stays the same while the best layout becomes cheaper."""
    return -(-last // 4096) * 4096


@lru_cache(maxsize=64)
def _most_area(boards: frozenset[tuple[int, int]], last: int) -> NDArray[np.float64]:
    """Return the most area that can be bought for every sum exactly, in steps of the prices' unit."""
    prices = np.array([price for price, _ in sorted(boards)])
    areas = np.array([float(area) for _, area in sorted(boards)])
    most = np.full(last + 1, -np.inf)
    most[0] = 0.0
    for cost in range(1, last + 1):
        able = prices <= cost
        if able.any():
            most[cost] = (most[cost - prices[able]] + areas[able]).max()
    return most
