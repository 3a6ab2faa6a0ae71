"""The buying list: what to buy for the whole job, in sold units, and what it costs."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from setday.findings import Finding
from setday.materials.prices import PriceItem
from setday.needs import Need
from setday.working import Working

__all__ = ["Bought", "BuyingLine", "BuyingList", "Delivery", "Drop", "Share"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one trade needs of an item at one place in one phase, before waste, in the line's unit."""

    trade: str
    place: str
    phase: str
    quantity: Fraction
    waste: Fraction
    """Waste added to it by a rule; nothing where the trade's figure covers waste already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """So many of one sold unit."""

    package: PriceItem
    count: int

    @property
    def quantity(self) -> Fraction:
        """What they hold together, in the item's unit."""
        return self.package.content * self.count

    @property
    def cost_cents(self) -> int | None:
        """What they cost together [cents]; None without a price."""
        price = self.package.price_cents
        return None if price is None else price * self.count


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingLine:
    """One item of the buying list.

    Parameters
    ----------
    item, label, category : str
        Key on the price list, words, and category (empty when the item is not on the list).
    unit : str
        Unit of every quantity below.
    shares : tuple of Share
        Who needs it where and when, in the order the needs came.
    needed : Fraction
        Sum over the shares, before waste.
    waste : Fraction
        Added by the waste rules; nothing for needs that cover waste already.
    on_hand : Fraction
        Taken from stock; never more than needed and waste together.
    packages : tuple of Bought
        Sold units to buy, the largest first; empty when nothing is to be bought or nothing serves.
    sold_units : tuple of PriceItem
        Everything on the price list that serves; empty when nothing does, and the line is then kept
        without packages.
    needs : tuple of Need
        What the line was gathered from, with the trades' own workings.
    working : Working
    """

    item: str
    label: str
    category: str
    unit: str
    shares: tuple[Share, ...]
    needed: Fraction
    waste: Fraction
    on_hand: Fraction
    packages: tuple[Bought, ...]
    sold_units: tuple[PriceItem, ...]
    needs: tuple[Need, ...]
    working: Working

    @property
    def served(self) -> bool:
        """Whether the price list holds anything that serves."""
        return bool(self.sold_units)

    @property
    def to_buy(self) -> Fraction:
        """What must still be bought, before rounding to sold units."""
        return self.needed + self.waste - self.on_hand

    @property
    def bought(self) -> Fraction:
        """What the sold units hold together."""
        return sum((entry.quantity for entry in self.packages), Fraction(0))

    @property
    def left_over(self) -> Fraction:
        """What is left of the bought sold units when the need and its waste are covered."""
        return max(self.bought - self.to_buy, Fraction(0)) if self.served else Fraction(0)

    @property
    def cost_cents(self) -> int | None:
        """What the line costs [cents]; None while a price is missing."""
        if not self.served:
            return None
        costs = [entry.cost_cents for entry in self.packages]
        known = [cost for cost in costs if cost is not None]
        return sum(known) if len(known) == len(costs) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """So many of one sold unit, brought with one delivery."""

    item: str
    package: PriceItem
    count: int

    @property
    def cost_cents(self) -> int | None:
        """What they cost together [cents]; None without a price."""
        price = self.package.price_cents
        return None if price is None else price * self.count


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """What one truck brings: the phases it serves and the sold units on it."""

    name: str
    phases: tuple[str, ...]
    drops: tuple[Drop, ...] = ()

    @property
    def cost_cents(self) -> int:
        """What the priced units on it cost [cents]."""
        return sum(drop.cost_cents or 0 for drop in self.drops)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingList:
    """The whole buying list.

    Parameters
    ----------
    price_list : str
        Name of the price list used.
    lines : tuple of BuyingLine
        By category, then item.
    deliveries : tuple of Delivery
        In the order they come; together they bring exactly what the lines buy.
    findings : tuple of Finding
        Missing prices, items the list lacks, units that do not match, stock nobody needs.
    """

    price_list: str
    lines: tuple[BuyingLine, ...]
    deliveries: tuple[Delivery, ...]
    findings: tuple[Finding, ...]

    @property
    def total_cents(self) -> int:
        """What everything with a price costs [cents]."""
        return sum(line.cost_cents or 0 for line in self.lines)

    @property
    def unpriced(self) -> tuple[BuyingLine, ...]:
        """The lines whose cost is not known; the total leaves them out."""
        return tuple(line for line in self.lines if line.cost_cents is None)

    def by_phase(self) -> tuple[tuple[str, int], ...]:
        """Return the cost of each phase [cents]; the parts sum to the total exactly."""
        return self._divided(lambda share: share.phase)

    def by_place(self) -> tuple[tuple[str, int], ...]:
        """Return the cost of each place [cents]; the parts sum to the total exactly."""
        return self._divided(lambda share: share.place)

    def by_trade(self) -> tuple[tuple[str, int], ...]:
        """Return the cost of each trade [cents]; the parts sum to the total exactly."""
        return self._divided(lambda share: share.trade)

    def _divided(self, name: Callable[[Share], str]) -> tuple[tuple[str, int], ...]:
        sums: dict[str, int] = {}
        for line in self.lines:
            weights = [share.quantity + share.waste for share in line.shares]
            for share, cents in zip(line.shares, divide_cents(line.cost_cents or 0, weights), strict=True):
                sums[name(share)] = sums.get(name(share), 0) + cents
        return tuple(sums.items())


def divide_cents(cents: int, weights: Iterable[Fraction]) -> tuple[int, ...]:
    """Divide an amount by weights, in whole cents that sum to it exactly.

    The cents that rounding down leaves over go to the largest remainders, the first among equals.

    Examples
    --------
    >>> divide_cents(100, [Fraction(1), Fraction(1), Fraction(1)])
    (34, 33, 33)
    """
    parts = list(weights)
    whole = sum(parts, Fraction(0))
    if not parts:
        return ()
    if not whole:
        return (cents, *([0] * (len(parts) - 1)))
    exact = [cents * part / whole for part in parts]
    floors = [int(value) for value in exact]
    by_remainder = sorted(range(len(parts)), key=lambda i: (floors[i] - exact[i], i))
    for i in by_remainder[: cents - sum(floors)]:
        floors[i] += 1
    return tuple(floors)
