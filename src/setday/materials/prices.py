"""The price list: what the yard can buy, in sold units, with prices."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from setday.measure import Length

__all__ = ["PIECES", "PriceItem", "PriceList", "write_money"]

PIECES = "pieces"
"""The unit of things counted one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceItem:
    """One line of the price list: one thing as it is sold.

    Parameters
    ----------
    key : str
        Unique on the list: "screw-coarse-1-1/4-5000".
    item : str
        What a need asks for; several packages of one item share it: "screw-coarse-1-1/4".
    label : str
        The sold unit in words.
    category : str
        "board", "length", "fastener", "compound", "tape", "adhesive" ...; decides the waste rule.
    sold_as : str
        "board", "box of 1,000", "5-gal pail", "500-ft roll", "8-ft length".
    content : Fraction
        How much of `unit` one sold unit holds; more than nothing.
    unit : str
        The unit needs are stated in: "pieces", "screws", "ft", "gal".
    price_cents : int or None
        Price of one sold unit [cents]; None where the list gives none.
    supplier : str
    board_kind : str
        For boards: the kind served, like "regular-1/2"; empty otherwise.
    width, length : Length or None
        Size, where it matters: boards have both, stock lengths have `length`.
    waste : Fraction or None
        The list's own waste allowance for this item, as a part of the need; None leaves it to the
        waste rules.
    line : int
        Line in the file it came from; 0 when it came from nowhere.
    """

    key: str
    item: str
    label: str
    category: str
    sold_as: str
    content: Fraction
    unit: str
    price_cents: int | None
    supplier: str = ""
    board_kind: str = ""
    width: Length | None = None
    length: Length | None = None
    waste: Fraction | None = None
    line: int = 0

    def __post_init__(self) -> None:
        if self.content <= 0:
            raise ValueError(f"{self.key} holds nothing: {self.content}")
        if self.price_cents is not None and self.price_cents < 0:
            raise ValueError(f"{self.key} costs less than nothing: {self.price_cents}")


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """A price list, in the order it was written.

    Parameters
    ----------
    name : str
        What the person calls it, usually the file's name.
    items : tuple of PriceItem
        Each key once.
    """

    name: str
    items: tuple[PriceItem, ...]

    def __post_init__(self) -> None:
        keys = [item.key for item in self.items]
        if len(set(keys)) != len(keys):
            raise ValueError("a key stands twice on the price list")

    def find(self, key: str) -> PriceItem | None:
        """Return the line with `key`, or None."""
        return next((item for item in self.items if item.key == key), None)

    def packages(self, item: str, *, unit: str) -> tuple[PriceItem, ...]:
        """Return the sold units that serve a need of `item` stated in `unit`.

        A need may also name one sold unit by its key and count it in pieces; it is then served by that
        one only, as one piece.
        """
        found = tuple(line for line in self.items if line.item == item and line.unit == unit)
        named = self.find(item)
        if found or named is None or unit != PIECES:
            return found
        return (replace(named, item=item, content=Fraction(1), unit=PIECES),)

    def units_of(self, item: str) -> tuple[str, ...]:
        """Return the units in which `item` is listed, in order."""
        return tuple(dict.fromkeys(line.unit for line in self.items if item in {line.item, line.key}))

    def with_items(self, items: Iterable[PriceItem]) -> "PriceList":
        """Return the list with other lines, the name kept."""
        return replace(self, items=tuple(items))


def write_money(cents: int) -> str:
    """Write an amount in dollars.

    Parameters
    ----------
    cents : int
        The amount [cents].

    Examples
    --------
    >>> write_money(123450)
    '$1,234.50'
    >>> write_money(-5)
    '-$0.05'
    """
    sign = "-" if cents < 0 else ""
    return f"{sign}${abs(cents) // 100:,}.{abs(cents) % 100:02d}"
