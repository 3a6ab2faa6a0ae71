"""The cheapest way to buy a quantity when an item is sold in several package sizes."""

import math
from collections.abc import Sequence
from fractions import Fraction

from setday.materials.buying import Bought
from setday.materials.prices import PriceItem

__all__ = ["cheapest_packages", "fewest_packages"]


def cheapest_packages(quantity: Fraction, packages: Sequence[PriceItem]) -> tuple[Bought, ...]:
    """Return the packages that cover a quantity for the least money.

    Exact: a depth-first search over counts, cut off where the money spent so far and the rest at the
    cheapest rate cannot beat the best found.

    Parameters
    ----------
    quantity : Fraction
        What must be covered, in the packages' common unit.
    packages : sequence of PriceItem
        At least one; all priced, all in one unit.

    Returns
    -------
    tuple of Bought
        The largest packages first; empty when nothing must be covered.

    Raises
    ------
    ValueError
        Without a package, or with one that has no price.
    """
    if not packages or any(package.price_cents is None for package in packages):
        raise ValueError("every package needs a price")
    return _bought(_Search(packages).best(quantity))


def fewest_packages(quantity: Fraction, packages: Sequence[PriceItem]) -> tuple[Bought, ...]:
    """Return the packages that cover a quantity with the fewest units, prices left out.

    Parameters
    ----------
    quantity : Fraction
        What must be covered, in the packages' common unit.
    packages : sequence of PriceItem
        At least one, all in one unit.
    """
    largest = max(packages, key=lambda package: (package.content, package.key))
    whole = int(quantity // largest.content)
    rest = quantity - whole * largest.content
    last = min((p for p in packages if p.content >= rest), key=lambda package: (package.content, package.key))
    counts = {largest.key: whole}
    if rest > 0:
        counts[last.key] = counts.get(last.key, 0) + 1
    return _bought([(package, counts.get(package.key, 0)) for package in packages])


def _bought(counts: Sequence[tuple[PriceItem, int]]) -> tuple[Bought, ...]:
    chosen = [Bought(package=package, count=count) for package, count in counts if count]
    return tuple(sorted(chosen, key=lambda entry: (-entry.package.content, entry.package.key)))


class _Search:
    """Depth-first search over counts of all packages but the cheapest by rate, which fills up the rest.

    So many of another package as hold together a whole number of the cheapest one can be exchanged for
    it at no loss; fewer than that are ever tried.
    """

    def __init__(self, packages: Sequence[PriceItem]) -> None:
        self._filler, *self._others = sorted(packages, key=lambda p: (_rate(p), -p.content, p.key))
        self._grid = _common_part([package.content for package in packages])
        self._most = [self._exchangeable(package) - 1 for package in self._others]
        self._best_cost: int | None = None
        self._best: dict[str, int] = {}

    def best(self, quantity: Fraction) -> list[tuple[PriceItem, int]]:
        self._try({}, -(-quantity // self._grid) * self._grid, 0)
        return [(package, self._best.get(package.key, 0)) for package in (self._filler, *self._others)]

    def _exchangeable(self, package: PriceItem) -> int:
        filler = int(self._filler.content / self._grid)
        return filler // math.gcd(filler, int(package.content / self._grid))

    def _try(self, counts: dict[str, int], rest: Fraction, cost: int) -> None:
        if rest <= 0 or len(counts) == len(self._others):
            fill = max(-int(-rest // self._filler.content), 0)
            total = cost + fill * (self._filler.price_cents or 0)
            if self._best_cost is None or total < self._best_cost:
                self._best_cost, self._best = total, {**counts, self._filler.key: fill}
            return
        package = self._others[len(counts)]
        for count in range(self._most[len(counts)] + 1):
            left, spent = rest - count * package.content, cost + count * (package.price_cents or 0)
            if self._best_cost is not None and self._least(left, spent) >= self._best_cost:
                return
            self._try({**counts, package.key: count}, left, spent)
            if left <= 0:
                return

    def _least(self, rest: Fraction, cost: int) -> int:
        """Return what covering the rest must cost at least, all of it at the cheapest rate."""
        return cost - int(-(max(rest, Fraction(0)) * _rate(self._filler)) // 1)


def _common_part(contents: Sequence[Fraction]) -> Fraction:
    """Return the largest quantity of which every content is a multiple; only its multiples can be bought."""
    denominator = math.lcm(*(content.denominator for content in contents))
    return Fraction(math.gcd(*(int(content * denominator) for content in contents)), denominator)


def _rate(package: PriceItem) -> Fraction:
    return (package.price_cents or 0) / package.content
