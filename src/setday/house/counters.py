"""Counters: what was written of a work surface, and where it lies on the house."""

from dataclasses import dataclass

from setday.findings import Where
from setday.measure import ZERO, Length

__all__ = ["Counter", "TypedCounter"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedCounter:
    """A counter as the house file writes it, range and refrigerator left out.

    Parameters
    ----------
    name, room : str
    wall : str
        Wall it stands against; "" for an island or a peninsula.
    measured_from : str
        A compass word or a wall's name for the end of the wall as seen in the room.
    distance : Length
        From there to the near end of the counter.
    width : Length
        Along the wall; of an island its long side.
    depth : Length
        Off the wall; of an island its short side.
    top : Length
        Above the subfloor.
    where : Where
    """

    name: str
    room: str
    wall: str = ""
    measured_from: str = ""
    distance: Length = ZERO
    width: Length
    depth: Length = Length(25 * 64)
    top: Length = Length(36 * 64)
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class Counter:
    """A counter in the house: on a surface from `x` on, or an island where `surface` is ""."""

    typed: TypedCounter
    surface: str = ""
    x: Length = ZERO
