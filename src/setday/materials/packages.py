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
    cheapest rate still open cannot beat the best found.

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
    """Depth-first search over counts of packages, the cheapest rate first."""

    def __init__(self, packages: Sequence[PriceItem]) -> None:
        self._packages = sorted(packages, key=lambda p: (_rate(p), -p.content, p.key))
        self._best_cost: int | None = None
        self._best_counts: tuple[int, ...] = ()

    def best(self, quantity: Fraction) -> list[tuple[PriceItem, int]]:
        grid = _common_part([package.content for package in self._packages])
        self._try((), -(-quantity // grid) * grid, 0)
        counts = self._best_counts
        return list(zip(self._packages, counts + (0,) * (len(self._packages) - len(counts)), strict=True))

    def _try(self, counts: tuple[int, ...], rest: Fraction, cost: int) -> None:
        if rest <= 0:
            if self._best_cost is None or cost < self._best_cost:
                self._best_cost, self._best_counts = cost, counts
            return
        if len(counts) == len(self._packages):
            return
        package = self._packages[len(counts)]
        for count in range(-int(-rest // package.content), -1, -1):
            left, spent = rest - count * package.content, cost + count * (package.price_cents or 0)
            if self._hopeless(len(counts) + 1, left, spent):
                if left > 0:
                    return
                continue
            self._try((*counts, count), left, spent)

    def _hopeless(self, next_package: int, rest: Fraction, cost: int) -> bool:
        """Whether no way on beats the best; once true for a rest it stays true for fewer of this package."""
        if self._best_cost is None:
            return False
        if rest > 0 and next_package < len(self._packages):
            rate = _rate(self._packages[next_package])
            return cost - (-(rest * rate) // 1) >= self._best_cost
        return rest > 0 or cost >= self._best_cost


def _common_part(contents: Sequence[Fraction]) -> Fraction:
    """Return the largest quantity of which every content is a multiple; only its multiples can be bought."""
    denominator = math.lcm(*(content.denominator for content in contents))
    return Fraction(math.gcd(*(int(content * denominator) for content in contents)), denominator)


def _rate(package: PriceItem) -> Fraction:
    return (package.price_cents or 0) / package.content
