"""The second aim: among plans of the same total, the one that leaves the longest remnant."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from setday.materials.first_fit import filled
from setday.materials.knapsack import Knapsack
from setday.materials.solving import solve_sticks
from setday.materials.sticks import Pattern, Solved, Sticks, with_ghost
from setday.solving import Limits

__all__ = ["longer_remnant"]

_TRIES = 8
_SHARE = 4
_FINEST_TABLE = 60_000_000


def longer_remnant(
    sticks: Sticks, solved: Solved, limits: Limits, *, least: int = 0
) -> tuple[tuple[Pattern, ...], bool]:
    """Look for a plan of the same total that leaves a longer remnant.

    A remnant is asked for as if it were one more piece: the longest with which the total stays the same
    is the answer.  What the worths of the pieces allow limits the search from above.

    Parameters
    ----------
    sticks : Sticks
    solved : Solved
        The plan found, without a ghost.
    limits : Limits
        What time is left.
    least : int
        The shortest remnant worth the search, in the units of `sticks`.

    Returns
    -------
    tuple of tuple of Pattern, and bool
        The plan, and whether no plan of its total leaves a longer remnant worth keeping.
    """
    plan = _without_surplus(sticks, solved.patterns)
    start, high = limits.clock(), _most_left(sticks, solved)
    low, proven, wanted = _left(sticks, plan), True, high
    for _ in range(_TRIES):
        left = limits.seconds - (limits.clock() - start)
        if low >= high or high < max(least, 1):
            break
        if left <= 0:
            return tuple(plan), False
        found, sure = _with_remnant(sticks, solved.total, wanted, replace(limits, seconds=left / _SHARE))
        if found is not None and _left(sticks, found) > low:
            plan, low = found, _left(sticks, found)
        else:
            high, proven = wanted - 1, proven and sure and found is None
        wanted = (low + high + 1) // 2
    return tuple(plan), proven and (low >= high or high < least)


def _with_remnant(
    sticks: Sticks, total: int, remnant: int, limits: Limits
) -> tuple[list[Pattern] | None, bool]:
    """Return a plan of at most `total` leaving `remnant` on a stick, or None; and whether that is sure."""
    wider, place = _with_piece(sticks, remnant)
    solved = solve_sticks(wider, limits, wanted=total)
    if solved.total > total:
        return None, solved.bound > total
    plan = [_narrowed(pattern, sticks, wider, place) for pattern in solved.patterns]
    return _without_surplus(sticks, plan), True


def _with_piece(sticks: Sticks, size: int) -> tuple[Sticks, int]:
    if size in sticks.sizes:
        place = sticks.sizes.index(size)
        counts = (*sticks.counts[:place], sticks.counts[place] + 1, *sticks.counts[place + 1 :])
        return with_ghost(replace(sticks, counts=counts)), place
    place = sum(other > size for other in sticks.sizes)
    sizes = (*sticks.sizes[:place], size, *sticks.sizes[place:])
    counts = (*sticks.counts[:place], 1, *sticks.counts[place:])
    return with_ghost(replace(sticks, sizes=sizes, counts=counts)), place


def _narrowed(pattern: Pattern, sticks: Sticks, wider: Sticks, place: int) -> Pattern:
    if len(wider.sizes) == len(sticks.sizes):
        return pattern
    return Pattern(pattern.stock, (*pattern.counts[:place], *pattern.counts[place + 1 :]))


def _left(sticks: Sticks, plan: Sequence[Pattern]) -> int:
    return max(sticks.capacities[p.stock] - filled(sticks.sizes, p.counts) for p in plan)


def _most_left(sticks: Sticks, solved: Solved) -> int:
    """Return a remnant no plan of the total can exceed.

    A stick's cost less the worth of its pieces counts against the total; so much worth must therefore
    stand on any stick of the plan, and the table of worths says how little length can hold it.
    """
    dual = solved.dual
    most = sticks.longest - sticks.sizes[-1]
    if len(sticks.sizes) * sticks.longest > _FINEST_TABLE:
        return most
    knapsack = Knapsack(sticks.sizes, sticks.counts, sticks.longest)
    knapsack.fill(dual.worth)
    slack = int((solved.total - dual.bound) * dual.scale)
    longest = 0
    for stock in sticks.stocks:
        capacity = sticks.capacities[stock]
        floor = sticks.weights[stock] * dual.scale - slack
        if sticks.available[stock] is not None:
            floor = max(floor, int(knapsack.best[capacity]) - slack)
        used = max(int(np.searchsorted(knapsack.best, max(floor, 1))), sticks.sizes[-1])
        longest = max(longest, capacity - used)
    return min(longest, most)


def _without_surplus(sticks: Sticks, patterns: Sequence[Pattern]) -> list[Pattern]:
    """Drop pieces nobody asked for, where the stick is left the longest by it."""
    result = list(patterns)
    for kind, (size, count) in enumerate(zip(sticks.sizes, sticks.counts, strict=True)):
        surplus = sum(pattern.counts[kind] for pattern in result) - count
        for _ in range(surplus):
            room = [
                (sticks.capacities[p.stock] - filled(sticks.sizes, p.counts) + size, -i)
                for i, p in enumerate(result)
                if p.counts[kind]
            ]
            place = -max(room)[1]
            counts = list(result[place].counts)
            counts[kind] -= 1
            result[place] = Pattern(result[place].stock, tuple(counts))
    return [pattern for pattern in result if any(pattern.counts)]
