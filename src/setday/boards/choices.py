"""What the instructor chose about boards, as written in the house file."""

from dataclasses import dataclass

from setday.boards.problem import OffcutUse, Rows
from setday.findings import Where
from setday.measure import Length

__all__ = ["BoardChoice", "BoardChoices", "CarryIn", "HangDay"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardChoice:
    """Which board some surfaces take.  Later choices win over earlier ones.

    Parameters
    ----------
    room : str
        Room name; empty for every room.
    on : str
        "walls", "ceilings" or the id of one surface; empty for everything in the room.
    kind : str
        Kind without thickness: "regular", "sag-resistant", "wet-area"; empty leaves it.
    thickness : Length or None
        None leaves it.
    layers : int or None
        1 or 2; 0 leaves the surface bare; None leaves it.
    rows : Rows or None
        The direction; None lets the rules decide.
    """

    room: str = ""
    on: str = ""
    kind: str = ""
    thickness: Length | None = None
    layers: int | None = None
    rows: Rows | None = None
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryIn:
    """The longest board that can be carried into a room."""

    room: str
    longest: Length
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class HangDay:
    """Rooms hung on one day, in order; days count from 1 in the order written."""

    rooms: tuple[str, ...]
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardChoices:
    """Everything a house file says about its boards.

    Parameters
    ----------
    choices : tuple of BoardChoice
    carry_in : tuple of CarryIn
    days : tuple of HangDay
        Empty: every room on one day, in the order the rooms are written.
    offcuts : OffcutUse or None
        None takes the rule's value.
    class_factor : float
        Hours of this class for one hour of the published crew; at least 1.
    """

    choices: tuple[BoardChoice, ...] = ()
    carry_in: tuple[CarryIn, ...] = ()
    days: tuple[HangDay, ...] = ()
    offcuts: OffcutUse | None = None
    class_factor: float = 1.0
