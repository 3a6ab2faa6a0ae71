"""Column generation: the linear programme over all cutting patterns, and a bound proven in whole numbers."""

from collections.abc import Callable, Sequence
from fractions import Fraction

from setday.materials.highs import LinearAnswer, Master
from setday.materials.knapsack import Knapsack
from setday.materials.sticks import Dual, Pattern, Sticks

__all__ = ["Generation", "by_length", "proven"]

_FINEST = 10**12
_ROUNDS = 2_000
_AT_A_TIME = 4
_PATIENCE = 60


class Generation:
    """A master programme with the patterns found so far, and the best bound proven so far.

    Parameters
    ----------
    sticks : Sticks
    start : sequence of Pattern
        Patterns of a plan that covers everything.
    """

    def __init__(self, sticks: Sticks, start: Sequence[Pattern]) -> None:
        self.sticks = sticks
        self.master = Master(sticks)
        self.scale = _scale(sticks)
        self.knapsack = Knapsack(sticks.sizes, sticks.counts, sticks.longest)
        self.dual = by_length(sticks)
        for pattern in start:
            self.master.add(pattern)

    def converge(
        self, *, expired: Callable[[], bool], enough: Callable[[Fraction, float], bool]
    ) -> LinearAnswer | None:
        """Add patterns until none would help, or time is up; return the last linear answer.

        `dual` then holds the best bound proven on the way, valid even when time ran out.

        Parameters
        ----------
        expired : callable
            True when time is up.
        enough : callable
            Told the bound and the present linear total; True when nothing between them matters.  It is
            asked only where many rounds did not close them.
        """
        answer = self.master.solve()
        for turn in range(_ROUNDS):
            if answer is None:
                return None
            worth = _whole(answer.worth, self.scale)
            self.knapsack.fill(worth)
            self._keep(worth)
            if turn >= _PATIENCE and enough(self.dual.bound, self._total(answer)):
                return answer
            if expired() or not self._add_patterns(self.knapsack):
                return answer
            answer = self.master.solve()
        return answer

    def generate(self, counts: Sequence[int], *, rounds: int) -> LinearAnswer | None:
        """Solve for what is left to cut, adding patterns for it for a few rounds; no bound is taken."""
        knapsack = Knapsack(self.sticks.sizes, counts, self.sticks.longest)
        answer = self.master.solve()
        for _ in range(rounds):
            if answer is None:
                return None
            worth = _whole(answer.worth, self.scale)
            knapsack.fill(worth)
            if not self._add_patterns(knapsack):
                return answer
            answer = self.master.solve()
        return answer

    def _total(self, answer: LinearAnswer) -> float:
        weights = self.sticks.weights
        return sum(
            times * weights[p.stock] for times, p in zip(answer.used, self.master.patterns, strict=True)
        )

    def _keep(self, worth: tuple[int, ...]) -> None:
        found = proven(self.sticks, worth, self.scale, self.knapsack)
        if found.bound > self.dual.bound:
            self.dual = found

    def _add_patterns(self, knapsack: Knapsack) -> bool:
        """Add the best patterns of each stock; False when none is new."""
        added = False
        for stock in self.sticks.stocks:
            capacity = self.sticks.capacities[stock]
            enough = self.sticks.weights[stock] * self.scale
            for _ in range(_AT_A_TIME):
                counts = knapsack.pattern(capacity)
                if any(counts):
                    added |= self.master.add(Pattern(stock, counts))
                capacity = knapsack.less(capacity)
                if capacity <= 0 or knapsack.best[capacity] <= enough:
                    break
        return added


def proven(sticks: Sticks, worth: tuple[int, ...], scale: int, knapsack: Knapsack) -> Dual:
    """Return the bound that worths prove, scaled down until no endless stick holds more than it costs.

    Parameters
    ----------
    sticks : Sticks
    worth : tuple of int
        Worth of a piece of each size, in `scale`-ths.
    scale : int
    knapsack : Knapsack
        Filled with `worth`.

    Returns
    -------
    Dual
        Worths that prove the bound as they stand; `check_bound` works it out anew.
    """
    held = [int(knapsack.best[capacity]) for capacity in sticks.capacities]
    down = Fraction(1)
    for stock in sticks.stocks:
        if sticks.available[stock] is None and held[stock]:
            down = min(down, Fraction(sticks.weights[stock] * scale, held[stock]))
    scaled = worth if down == 1 else tuple(int(value * down) for value in worth)
    if down != 1:
        held = [int(value * down) for value in held]  # at least what the scaled worths fill a stick with
    total = sum(value * count for value, count in zip(scaled, sticks.counts, strict=True))
    for stock in sticks.stocks:
        number = sticks.available[stock]
        if number is not None:
            total -= number * max(held[stock] - sticks.weights[stock] * scale, 0)
    return Dual(worth=scaled, scale=scale, bound=max(Fraction(total, scale), Fraction(0)))


def by_length(sticks: Sticks) -> Dual:
    """Return the bound from length alone: every piece is worth its size at the rate of the cheapest stick."""
    scale = _scale(sticks)
    rate = min(Fraction(w, c) for w, c in zip(sticks.weights, sticks.capacities, strict=True) if c)
    worth = tuple(int(size * rate * scale) for size in sticks.sizes)
    total = sum(value * count for value, count in zip(worth, sticks.counts, strict=True))
    return Dual(worth=worth, scale=scale, bound=Fraction(total, scale))


def _scale(sticks: Sticks) -> int:
    return max(_FINEST // max(1, *sticks.weights), 1)


def _whole(worth: Sequence[float], scale: int) -> tuple[int, ...]:
    return tuple(max(int(value * scale), 0) for value in worth)
