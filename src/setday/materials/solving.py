"""Solving a length problem as bare numbers: first-fit, bound, dive, and the patterns that still matter."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from setday.materials.first_fit import first_fit_decreasing
from setday.materials.generation import Generation, by_length
from setday.materials.highs import whole_sticks
from setday.materials.recutting import recut
from setday.materials.rounding import dive, patterns_within
from setday.materials.sticks import Pattern, Solved, Sticks
from setday.solving import Limits

__all__ = ["payable", "solve_sticks"]

BY_LENGTH = "length asked for at the cheapest rate, next total that sticks can add up to"
BY_LINEAR = "linear programme over all cutting patterns, next total that sticks can add up to"
BY_TRIAL = "linear programme over all cutting patterns, then every pattern of a cheaper plan tried"

_FINEST_TABLE = 60_000_000
_MOST_PATTERNS = 20_000
_LIFTS = 5
_FEW_PATTERNS = 400
_LARGE_SHARE = 0.5
_SMALL_SHARE = 0.1
_WIDEST_SUM = 5_000_000
_ROUNDS = 150
_ENDLESS = 1_000_000
_PART_SECONDS = 0.1


def solve_sticks(
    sticks: Sticks, limits: Limits, *, wanted: int | None = None, recutting: bool = True
) -> Solved:
    """Solve, as far as the time allows.

    Parameters
    ----------
    sticks : Sticks
    limits : Limits
        `limits.seconds` counts from this call.
    wanted : int or None
        Stop as soon as a plan of at most this total is found, or proven not to exist.
    recutting : bool
        False for a quick solve without improvement by recutting.
    """
    if len(sticks.sizes) * sticks.longest > _FINEST_TABLE:
        return _first_fit_only(sticks)
    return _Solve(sticks, limits, wanted).run(recutting=recutting)


def _first_fit_only(sticks: Sticks) -> Solved:
    """Answer where the sticks are too long for the fineness of the pieces to fill a table with."""
    plan, dual = first_fit_decreasing(sticks), by_length(sticks)
    total = sticks.weigh(plan)
    bound = min(payable(sticks, dual.bound), total)
    return Solved(patterns=tuple(plan), total=total, bound=bound, dual=dual, how=BY_LENGTH)


class _Solve:
    """One solve: the best plan so far, the bound so far, and the time left."""

    def __init__(self, sticks: Sticks, limits: Limits, wanted: int | None) -> None:
        self.sticks, self.limits, self.wanted = sticks, limits, wanted
        self.deadline = limits.start()
        self.best = first_fit_decreasing(sticks)
        self.total = sticks.weigh(self.best)
        self.generation = Generation(sticks, self.best)
        self.bound = 0
        self.how = ""

    def run(self, *, recutting: bool) -> Solved:
        self.generation.converge(expired=self._expired, enough=self._nothing_between)
        self._raise(payable(self.sticks, self.generation.dual.bound), BY_LINEAR)
        quick = (self._dive, self._few_that_matter, self._those_found)
        thorough = (self._dive, self._few_that_matter, self._recut, self._all_that_matter, self._recut_on)
        for step in thorough if recutting else quick:
            if not self._settled() and not self._expired():
                step()
        return Solved(
            patterns=tuple(self.best),
            total=self.total,
            bound=self.bound,
            dual=self.generation.dual,
            how=self.how,
        )

    def _nothing_between(self, bound: Fraction, linear: float) -> bool:
        """Tell whether no total that sticks can add up to lies between the bound and the linear total."""
        return payable(self.sticks, bound) >= linear

    def _dive(self) -> None:
        self._offer(dive(self.generation, gently=False, expired=self._expired))
        if not self._settled():
            self._offer(dive(self.generation, gently=True, expired=self._expired))

    def _recut(self, rounds: int = _ROUNDS) -> None:
        self._offer(
            recut(
                self.sticks,
                self.best,
                dual=self.generation.dual,
                solve=self._part,
                rounds=rounds,
                done=lambda total: total <= self.bound or self._wanted(total) or self._expired(),
                seed=self.limits.seed,
            )
        )

    def _recut_on(self) -> None:
        """Spend what time is left."""
        self._recut(rounds=_ENDLESS)

    def _part(self, part: Sticks, wanted: int) -> Sequence[Pattern]:
        limits = replace(self.limits, seconds=min(_PART_SECONDS, self._left()))
        return solve_sticks(part, limits, wanted=wanted, recutting=False).patterns

    def _few_that_matter(self) -> None:
        """Settle it at once where hardly any pattern can be in a better plan."""
        self._chosen_from(self.total - 1, most=_FEW_PATTERNS, share=_SMALL_SHARE)

    def _all_that_matter(self) -> None:
        """Settle it where every pattern of a better plan can be listed; lift the bound a little elsewhere."""
        if self._chosen_from(self.total - 1, most=_MOST_PATTERNS, share=_LARGE_SHARE):
            return
        for _ in range(_LIFTS):
            if self._settled() or self._expired():
                return
            if not self._chosen_from(self.bound, most=_MOST_PATTERNS, share=_SMALL_SHARE):
                return

    def _chosen_from(self, total: int, *, most: int, share: float) -> bool:
        """Take the best choice among all patterns of a plan up to `total`; False when undecided."""
        patterns = patterns_within(
            self.sticks, self.generation.dual, total=total, most=most, expired=self._expired
        )
        if patterns is None:
            return False
        plan, final = self._choose(patterns, below=total + 1, share=share)
        self._offer(plan)
        if final:
            bound = payable(self.sticks, Fraction(total + 1)) if plan is None else self.total
            self._raise(bound, BY_TRIAL)
        return final

    def _those_found(self) -> None:
        plan, _ = self._choose(self.generation.master.patterns, below=self.total, share=_LARGE_SHARE)
        self._offer(plan)

    def _choose(
        self, patterns: list[Pattern], *, below: int, share: float
    ) -> tuple[list[Pattern] | None, bool]:
        return whole_sticks(
            self.sticks,
            patterns,
            below=below,
            seconds=self._left() * share,
            seed=self.limits.seed,
        )

    def _offer(self, plan: list[Pattern] | None) -> None:
        if plan is not None and self.sticks.weigh(plan) < self.total:
            self.best, self.total = plan, self.sticks.weigh(plan)

    def _raise(self, bound: int, how: str) -> None:
        if bound > self.bound:
            self.bound, self.how = min(bound, self.total), how

    def _settled(self) -> bool:
        out_of_reach = self.wanted is not None and self.bound > self.wanted
        return out_of_reach or self._wanted(self.total) or self.total <= self.bound

    def _wanted(self, total: int) -> bool:
        return self.wanted is not None and total <= self.wanted

    def _left(self) -> float:
        return self.deadline.left

    def _expired(self) -> bool:
        return self.deadline.expired


def payable(sticks: Sticks, bound: Fraction) -> int:
    """Return the least total, not below a bound, that buys sticks enough for all pieces end to end.

    A total must be a sum of stick prices, and sticks of that total must hold the asked length; both
    are necessary, so the result is a bound too.

    Parameters
    ----------
    sticks : Sticks
    bound : Fraction
        Proven otherwise.

    Examples
    --------
    >>> two = Sticks(sizes=(5,), counts=(2,), capacities=(10,), weights=(7,), available=(None,), grid=1)
    >>> payable(two, Fraction(1, 2))
    7
    """
    least = -int(-bound // 1)
    real = [stock for stock in sticks.stocks if stock != sticks.ghost]
    dearest = max(sticks.weights[stock] for stock in real)
    gift = any(not sticks.weights[s] and sticks.available[s] is None for s in real)
    if gift or least + dearest > _WIDEST_SUM:
        return least
    held = _most_held(sticks, real, least + dearest)
    asked = sum(size * count for size, count in zip(sticks.sizes, sticks.counts, strict=True))
    enough = np.flatnonzero(held[least:] >= asked)
    return least + int(enough[0]) if enough.size else least


def _most_held(sticks: Sticks, stocks: list[int], widest: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Return by total the most length that sticks of exactly that total hold; below nothing where none do."""
    held = np.full(widest + 1, np.iinfo(np.int64).min // 2, dtype=np.int64)
    held[0] = sum((sticks.available[s] or 0) * sticks.capacities[s] for s in stocks if not sticks.weights[s])
    for stock in stocks:
        price, capacity = sticks.weights[stock], sticks.capacities[stock]
        for low in range(price, widest + 1, price) if price else ():
            high = min(low + price, widest + 1)
            np.maximum(held[low:high], held[low - price : high - price] + capacity, out=held[low:high])
    return held
