"""From the linear answer to whole sticks: diving, then every pattern that could still matter."""

from collections.abc import Callable, Sequence

import numpy as np

from setday.materials.first_fit import exchanged
from setday.materials.generation import Generation
from setday.materials.knapsack import Knapsack, Numbers
from setday.materials.sticks import Dual, Pattern, Sticks

__all__ = ["dive", "patterns_within"]

_SURE = 1e-6
_LARGEST_TABLE = 3_000_000
_STEPS_PER_PATTERN = 20
_GLANCE = 2_000


def dive(generation: Generation, *, gently: bool, expired: Callable[[], bool]) -> list[Pattern] | None:
    """Fix the whole part of the linear answer, solve for what is left, and so on down to nothing.

    Parameters
    ----------
    generation : Generation
        Converged; its demands are changed on the way and put back.
    gently : bool
        Fix one pattern at a time, for a better plan in more time.
    expired : callable
        True when time is up.

    Returns
    -------
    list of Pattern or None
        Whole sticks that cover everything; None when time ran out or the stock did.
    """
    sticks, master = generation.sticks, generation.master
    left, stock = list(sticks.counts), list(sticks.available)
    plan: list[Pattern] = []
    while any(left):
        master.ask(left, stock)
        answer = generation.generate(left, rounds=6)
        if answer is None or expired():
            break
        fixed = _fixed(master.patterns, answer.used, stock)
        for pattern, times in fixed[:1] if gently else fixed:
            plan.extend(_take(pattern, left, stock) for _ in range(times) if _useful(pattern, left))
    master.ask(sticks.counts, sticks.available)
    return None if any(left) else exchanged(sticks, plan)


def _fixed(
    patterns: Sequence[Pattern], used: Sequence[float], stock: Sequence[int | None]
) -> list[tuple[Pattern, int]]:
    """Choose what to fix: every whole part; where there is none, the pattern nearest to a whole one."""
    whole = [(p, int(times + _SURE)) for p, times in zip(patterns, used, strict=True) if times >= 1 - _SURE]
    if whole:
        return whole
    ready = [(times, -i) for i, times in enumerate(used) if stock[patterns[i].stock] != 0]
    return [(patterns[-max(ready)[1]], 1)]


def _useful(pattern: Pattern, left: Sequence[int]) -> bool:
    return any(count and rest for count, rest in zip(pattern.counts, left, strict=True))


def _take(pattern: Pattern, left: list[int], stock: list[int | None]) -> Pattern:
    """Cut one stick: take off what it covers and return it without what nobody asks for any more."""
    counts = tuple(min(count, rest) for count, rest in zip(pattern.counts, left, strict=True))
    for kind, count in enumerate(counts):
        left[kind] -= count
    number = stock[pattern.stock]
    if number is not None:
        stock[pattern.stock] = number - 1
    return Pattern(pattern.stock, counts)


def patterns_within(
    sticks: Sticks, dual: Dual, *, total: int, most: int, expired: Callable[[], bool]
) -> list[Pattern] | None:
    """Return every full pattern a plan of at most `total` can use.

    A plan's total is the bound plus, for every stick, what its cost lies above the worth of its pieces
    (and above what limited stock was credited with).  A pattern whose own excess is more than `total`
    less the bound is therefore in no such plan.

    Parameters
    ----------
    sticks : Sticks
    dual : Dual
        Worths and the bound they prove.
    total : int
        What a wanted plan counts for at most.
    most : int
        Give up beyond so many patterns.
    expired : callable
        True when time is up.

    Returns
    -------
    list of Pattern or None
        Only patterns to which no piece can be added: the rest are parts of them.  None when there are
        more than `most`, or time ran out.
    """
    if len(sticks.sizes) * sticks.longest > _LARGEST_TABLE:
        return None
    knapsack = Knapsack(sticks.sizes, sticks.counts, sticks.longest)
    tails = knapsack.tails(dual.worth)
    slack = int((total - dual.bound) * dual.scale)
    walk = _Walk(sticks, dual, tails, most, expired)
    for stock in sticks.stocks:
        held = int(tails[0][sticks.capacities[stock]])
        floor = sticks.weights[stock] * dual.scale - slack
        if sticks.available[stock] is not None:
            floor = max(floor, held - slack)
        if not walk.stock(stock, floor) or len(walk.found) > most:
            return None
    return walk.found


class _Walk:
    """A walk through all patterns whose worth is at least a floor, with exact look-ahead."""

    def __init__(
        self, sticks: Sticks, dual: Dual, tails: Numbers, most: int, expired: Callable[[], bool]
    ) -> None:
        self._sizes, self._limits, self._worth = sticks.sizes, sticks.counts, dual.worth
        self._capacities = sticks.capacities
        self._tails: list[list[int]] = np.asarray(tails).tolist()
        self._most = most
        self._steps, self._expired = 0, expired
        self.found: list[Pattern] = []

    def stock(self, stock: int, floor: int) -> bool:
        """Find the patterns of one stock; False when there are too many."""
        stack: list[tuple[int, int, int, tuple[int, ...]]] = [(0, self._capacities[stock], 0, ())]
        while stack:
            self._steps += 1
            late = self._steps % _GLANCE == 0 and self._expired()
            if late or self._steps > self._most * _STEPS_PER_PATTERN:
                return False
            kind, room, worth, counts = stack.pop()
            if kind == len(self._sizes):
                if self._is_full(room, counts):
                    self.found.append(Pattern(stock, counts))
                continue
            size, each = self._sizes[kind], self._worth[kind]
            after = self._tails[kind + 1]
            for count in range(min(self._limits[kind], room // size) + 1):
                rest = room - count * size
                if worth + count * each + after[rest] >= floor:
                    stack.append((kind + 1, rest, worth + count * each, (*counts, count)))
        return True

    def _is_full(self, room: int, counts: tuple[int, ...]) -> bool:
        if not any(counts):
            return False
        return all(
            size > room or count >= limit
            for size, count, limit in zip(self._sizes, counts, self._limits, strict=True)
        )
