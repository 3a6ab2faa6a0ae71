"""Who did and saw what at a gate: marks, written once and never changed."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

__all__ = ["Mark", "MarkKind", "Role", "Signer"]


class Role(StrEnum):
    """What somebody is at a gate."""

    STUDENT = "student"
    HELPER = "helper"
    INSTRUCTOR = "instructor"
    READER = "reader"


@dataclass(frozen=True, slots=True, kw_only=True)
class Signer:
    """Whoever makes a mark.

    Parameters
    ----------
    key : str
        Tells one person from another of the same name.
    name : str
        As shown.
    role : Role
    """

    key: str
    name: str
    role: Role


class MarkKind(StrEnum):
    """What a mark says."""

    DONE = "done"
    """It is in, says who made it; an inspection is asked for."""
    CONFIRMED = "confirmed"
    """It was seen; an inspection is passed."""
    REFUSED = "refused"
    """It must be done again; the words say why."""
    OVERRULED = "overruled"
    """The surface may be closed without it; the words say why."""
    WITHDRAWN = "withdrawn"
    """The overruling holds no longer."""
    TAKEN_BACK = "taken back"
    """It is not in after all, says who had checked it off."""
    CLOSED = "closed"
    """The surface is covered."""
    REOPENED = "reopened"
    """The boards came off again; the words say why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing somebody did or saw at a gate.

    Parameters
    ----------
    entry : str
        Its own number, given by whoever sends it; the same entry sent again is the same mark.
    surface : str
        Id of the surface; `WHOLE_HOUSE` for an inspection that passed everywhere.
    item : str
        Key of the item; empty for a mark on the surface itself.
    label : str
        What the item was when the mark was made.
    kind : MarkKind
    by : Signer
    at : datetime
        When it was done or seen, with its time zone.
    words : str
        A reason, or what there is to say.
    photo : str
        Key of a photo; empty for none.
    """

    entry: str
    surface: str
    item: str
    label: str
    kind: MarkKind
    by: Signer
    at: datetime
    words: str = ""
    photo: str = ""

    def __post_init__(self) -> None:
        if self.at.tzinfo is None:
            raise ValueError("a mark needs a time with its zone")
