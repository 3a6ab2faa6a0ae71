"""What already lies in the yard."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["OnHand", "StockItem", "gathered"]

OnHand = Mapping[tuple[str, str], Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class StockItem:
    """One line of the stock on hand.

    Parameters
    ----------
    item : str
        An item, or the key of one sold unit, as on the price list.
    quantity : Fraction
        How much lies there, in `unit`; not below nothing.
    unit : str
        The unit needs are stated in.
    note : str
        Where it lies, whose it is.
    line : int
        Line in the file it came from.
    """

    item: str
    quantity: Fraction
    unit: str
    note: str = ""
    line: int = 0

    def __post_init__(self) -> None:
        if self.quantity < 0:
            raise ValueError(f"stock of {self.item} below nothing: {self.quantity}")


def gathered(stock: Iterable[StockItem]) -> dict[tuple[str, str], Fraction]:
    """Return the stock summed by item and unit."""
    total: dict[tuple[str, str], Fraction] = {}
    for entry in stock:
        key = (entry.item, entry.unit)
        total[key] = total.get(key, Fraction(0)) + entry.quantity
    return total
