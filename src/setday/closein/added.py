"""What the instructor adds to a gate, and strikes again."""

from dataclasses import dataclass, replace
from datetime import datetime

from setday.closein.blocking import BlockingFor, added_item, blocking_item, check_spot
from setday.closein.gate import Gate, GateState
from setday.closein.grounds import closed_already, only_instructor, reason
from setday.closein.item import Item, ItemKind, Spot
from setday.closein.marks import Signer
from setday.closein.refusal import GateRefusal
from setday.house import Surface

__all__ = ["Added", "add", "strike"]

_MOST_DAYS = 60
"""Working days of notice beyond which somebody mistyped [days]; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """One thing that was added to the gate of a surface.

    Parameters
    ----------
    key : str
        Number of the entry that added it; its own.
    surface : str
        Id of the surface.
    kind : ItemKind
        `BLOCKING`, `INSPECTION` or `ADDED`.
    what : BlockingFor
        What blocking is for.
    words : str
        What hangs there, or what must be in.
    spot : Spot or None
    notice_days : int
        Of an inspection [days].
    by : Signer
    at : datetime
    struck : str
        Why it is asked for no longer; empty while it is.
    """

    key: str
    surface: str
    kind: ItemKind
    by: Signer
    at: datetime
    what: BlockingFor = BlockingFor.OTHER
    words: str = ""
    spot: Spot | None = None
    notice_days: int = 0
    struck: str = ""

    @property
    def item(self) -> Item:
        """What the gate asks for."""
        if self.kind is ItemKind.BLOCKING:
            return blocking_item(self.surface, self.what, key=self.key, spot=self.spot, note=self.words)
        return added_item(
            self.surface, key=self.key, words=self.words, kind=self.kind, notice_days=self.notice_days
        )


def add(gate: Gate, surface: Surface, wanted: Added) -> Added:
    """Return what is to be added to a gate, looked over.

    Parameters
    ----------
    gate : Gate
        Of that surface, not closed.
    surface : Surface
    wanted : Added

    Raises
    ------
    GateRefusal
        When the place is not on the surface, the words are missing, or somebody else than the instructor
        adds.
    """
    only_instructor(wanted.by, "adds to a gate")
    if gate.state is GateState.CLOSED:
        raise closed_already(gate)
    if wanted.kind is ItemKind.TRADE:
        raise ValueError("what a trade asks for follows from the house")
    if wanted.kind is ItemKind.BLOCKING:
        _check_blocking(surface, wanted)
        return wanted
    words = reason(wanted.words, "what must be in, or be done before")
    if not 0 <= wanted.notice_days <= _MOST_DAYS:
        raise GateRefusal(
            f"{wanted.notice_days} working days of notice is no notice.",
            do=f"Give a number from 0 to {_MOST_DAYS}.",
        )
    return replace(wanted, words=words, spot=None)


def _check_blocking(surface: Surface, wanted: Added) -> None:
    if wanted.spot is None:
        if wanted.what is not BlockingFor.BRACE:
            raise GateRefusal(
                f"It is not said where the {wanted.what.label} goes.",
                do="Give how far from the left, how far up, how wide and how high.",
            )
        return
    check_spot(surface, wanted.spot)


def strike(gate: Gate, added: Added, *, by: Signer, words: str) -> Added:
    """Return an added thing as asked for no longer; marks made of it are kept.

    Parameters
    ----------
    gate : Gate
        Of its surface, not closed.
    added : Added
    by : Signer
    words : str
        Why.

    Raises
    ------
    GateRefusal
    """
    only_instructor(by, "strikes what was added")
    if gate.state is GateState.CLOSED:
        raise closed_already(gate)
    if added.struck:
        raise GateRefusal(f"'{added.item.label}' is struck already.", do="Nothing more is to be done.")
    return replace(added, struck=reason(words, "why it is asked for no longer"))
