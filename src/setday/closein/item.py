"""What must be inside a surface before it is closed in."""

from dataclasses import dataclass
from enum import StrEnum

from setday.measure import ZERO, Length
from setday.needs import GateItem

__all__ = ["WHOLE_HOUSE", "Item", "ItemKind", "Spot", "items_of_trades"]

WHOLE_HOUSE = ""
"""Stands for the surface where a mark is for every surface that asks for the same: an inspection."""


class ItemKind(StrEnum):
    """Where an item comes from."""

    TRADE = "trade"
    """A trade hands it on, from the house."""
    BLOCKING = "blocking"
    """Wood the instructor marked for something heavy, and braces of the framing."""
    INSPECTION = "inspection"
    """The locality asks for it."""
    ADDED = "added"
    """Anything else the instructor added."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place on a surface: lower left corner as seen from inside, and size; a point has none."""

    x: Length
    y: Length
    w: Length | None = None
    h: Length | None = None

    def __str__(self) -> str:
        at = f"{self.x} from the left, {self.y} up"
        return at if self.w is None or self.h is None else f"{at}, {self.w} wide, {self.h} high"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing that must be inside a surface, done and seen, before it is closed.

    Parameters
    ----------
    surface : str
        Id of the surface.
    key : str
        Its own on that surface; an inspection has the same key on every surface.
    label : str
        What it is and what must be true of it.
    kind : ItemKind
    trade : str
        "boards", "cable" ...; empty for what no trade hands on.
    thing : str
        Names the thing where it stands in the wall itself and both sides ask for the same one.
    spot : Spot or None
        Where on the surface.
    notice_days : int
        Working days ahead an inspection must be asked for [days].
    after : tuple of str
        Keys of inspections of this surface that come before it.
    """

    surface: str
    key: str
    label: str
    kind: ItemKind = ItemKind.TRADE
    trade: str = ""
    thing: str = ""
    spot: Spot | None = None
    notice_days: int = 0
    after: tuple[str, ...] = ()

    @property
    def name(self) -> tuple[str, str]:
        """Surface and key together: its own in the whole house."""
        return self.surface, self.key


def items_of_trades(handed: tuple[GateItem, ...]) -> tuple[Item, ...]:
    """Return what trades hand on as items of gates; each thing of a surface once."""
    found: dict[tuple[str, str], Item] = {}
    for each in handed:
        spot = None if each.x is None else Spot(x=each.x, y=each.y or ZERO)
        item = Item(
            surface=each.surface,
            key=each.key,
            label=each.label,
            trade=each.trade,
            thing=each.thing,
            spot=spot,
        )
        found.setdefault(item.name, item)
    return tuple(found.values())
