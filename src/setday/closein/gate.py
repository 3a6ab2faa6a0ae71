"""The gate of a surface: what must be inside it, how far each thing is, and whether it may be closed."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from setday.closein.item import Item, ItemKind
from setday.closein.marks import Mark, MarkKind

__all__ = ["Gate", "GateState", "ItemState", "Stand", "stand_of", "state_of"]


class ItemState(StrEnum):
    """How far one thing is."""

    OPEN = "open"
    DONE = "done"
    CONFIRMED = "confirmed"
    REFUSED = "refused"
    OVERRULED = "overruled"


class GateState(StrEnum):
    """How far a surface is."""

    NOT_READY = "not ready"
    """Something must still be done, or done again."""
    WAITING = "waiting for confirmation"
    """Everything is checked off; not everything is confirmed, or an inspection is still to come."""
    READY = "ready to close"
    """Everything is confirmed."""
    OVERRULED = "overruled"
    """It may be closed though not everything is confirmed; the reason is on record."""
    CLOSED = "closed"

    @property
    def may_close(self) -> bool:
        """Whether boards may go on."""
        return self in {GateState.READY, GateState.OVERRULED}


_AFTER = {
    MarkKind.DONE: ItemState.DONE,
    MarkKind.CONFIRMED: ItemState.CONFIRMED,
    MarkKind.REFUSED: ItemState.REFUSED,
    MarkKind.TAKEN_BACK: ItemState.OPEN,
}
_OVERRULES = {MarkKind.OVERRULED: True, MarkKind.WITHDRAWN: False, MarkKind.REFUSED: False}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """An item and how far it is.

    Parameters
    ----------
    item : Item
    state : ItemState
    marks : tuple of Mark
        That are of this item, in the order they were made, from either side of the wall.
    """

    item: Item
    state: ItemState
    marks: tuple[Mark, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether it no longer stands in the way."""
        return self.state in {ItemState.CONFIRMED, ItemState.OVERRULED}

    @property
    def missing(self) -> bool:
        """Whether somebody must still do it; an inspection is nobody's work, it is waited for."""
        if self.state is ItemState.REFUSED:
            return True
        return self.state is ItemState.OPEN and self.item.kind is not ItemKind.INSPECTION

    @property
    def last(self) -> Mark | None:
        """The mark that made the state; None while nobody made one."""
        return self.marks[-1] if self.marks else None

    def last_of(self, kind: MarkKind) -> Mark | None:
        """Return the newest mark of a kind.

        Parameters
        ----------
        kind : MarkKind
        """
        return next((mark for mark in reversed(self.marks) if mark.kind is kind), None)

    @property
    def done(self) -> Mark | None:
        """Who did it; None while it is not done."""
        if self.state in {ItemState.OPEN, ItemState.REFUSED}:
            return None
        return self.last_of(MarkKind.DONE)

    @property
    def seen(self) -> Mark | None:
        """Who confirmed it; None while nobody has."""
        return self.last_of(MarkKind.CONFIRMED) if self.state is ItemState.CONFIRMED else None


def stand_of(item: Item, marks: Iterable[Mark]) -> Stand:
    """Return how far an item is by its marks, in the order they were made.

    A mark of another label is of another thing and says nothing here.

    Parameters
    ----------
    item : Item
    marks : iterable of Mark
    """
    own = tuple(mark for mark in marks if mark.label == item.label)
    state, overruled = ItemState.OPEN, False
    for mark in own:
        state = _AFTER.get(mark.kind, state)
        if mark.kind in _OVERRULES:
            overruled = _OVERRULES[mark.kind]
    if overruled and state is not ItemState.CONFIRMED:
        state = ItemState.OVERRULED
    return Stand(item=item, state=state, marks=own)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """The gate of one surface.

    Parameters
    ----------
    surface, label : str
        Id and words.
    items : tuple of Stand
        What its own side asks for.
    behind : tuple of Stand
        What the other side of the wall asks for and stands behind this one.
    state : GateState
    closing : Mark or None
        The mark that closed it, while it is closed.
    reopening : Mark or None
        The mark by which its boards came off again, until it is closed anew.
    overrulings : tuple of Mark
        The overrulings that hold.
    other_sides : tuple of str
        Ids of the surfaces that close the same walls from the other side.
    """

    surface: str
    label: str
    items: tuple[Stand, ...]
    behind: tuple[Stand, ...] = ()
    state: GateState = GateState.NOT_READY
    closing: Mark | None = None
    reopening: Mark | None = None
    overrulings: tuple[Mark, ...] = ()
    other_sides: tuple[str, ...] = ()

    def stand(self, key: str) -> Stand | None:
        """Return how far an item is, of either side; None when the gate asks for no such thing.

        Parameters
        ----------
        key : str
        """
        return next((each for each in (*self.items, *self.behind) if each.item.key == key), None)

    @property
    def open_items(self) -> tuple[Stand, ...]:
        """What is neither confirmed nor overruled, of both sides."""
        return tuple(each for each in (*self.items, *self.behind) if not each.settled)

    @property
    def missing(self) -> tuple[Stand, ...]:
        """What somebody must still do, of both sides."""
        return tuple(each for each in self.open_items if each.missing)

    @property
    def waiting(self) -> tuple[Stand, ...]:
        """What is checked off and waits for somebody to see it, of both sides."""
        return tuple(each for each in self.open_items if each.state is ItemState.DONE)

    @property
    def newest(self) -> datetime | None:
        """When the newest thing was done or seen here."""
        times = [mark.at for each in (*self.items, *self.behind) for mark in each.marks]
        return max(times, default=None)


def state_of(stands: Iterable[Stand], *, closed: bool, overruled: bool) -> GateState:
    """Return the state of a surface by how far its things are.

    Parameters
    ----------
    stands : iterable of Stand
        Of both sides.
    closed, overruled : bool
        Whether it is covered; whether something was overruled.
    """
    if closed:
        return GateState.CLOSED
    open_ones = [each for each in stands if not each.settled]
    if not open_ones:
        return GateState.OVERRULED if overruled else GateState.READY
    if any(each.missing for each in open_ones):
        return GateState.NOT_READY
    return GateState.WAITING
