"""Boxes by their trade size: the room in each."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import floor

from setday.electric.conductors import PACKAGE, volume_each_in3
from setday.errors import RuleError
from setday.rules import Source, load_table

__all__ = ["BoxSize", "box_sizes", "box_volume_in3", "most_conductors"]

_ROUND = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxSize:
    """A box as sold.

    Parameters
    ----------
    key : str
        Its trade size: "4 x 1 1/2 octagon", "1-gang 18".
    volume_in3 : float
        [cubic inches].
    gangs : int
        Devices side by side; 0 for a ceiling or junction box.
    clamps : bool
        True when it has internal cable clamps that take room.
    source : Source
    """

    key: str
    volume_in3: float
    gangs: int
    clamps: bool
    source: Source


@cache
def box_sizes() -> Mapping[str, BoxSize]:
    """Return the boxes of the table, by trade size."""
    table = load_table(PACKAGE, "boxes")
    return {
        row["key"]: BoxSize(
            key=row["key"],
            volume_in3=float(row["volume_in3"]),
            gangs=int(row["gangs_count"]),
            clamps=row["clamps"] == "yes",
            source=table.source_of(row),
        )
        for row in table.rows
    }


def box_volume_in3(size: str) -> float:
    """Return the volume of a box by its trade size [cubic inches], NEC table 314.16(A).

    Raises
    ------
    RuleError
        For a size the table lacks.
    """
    try:
        return box_sizes()[" ".join(size.split())].volume_in3
    except KeyError:
        raise RuleError(
            f"The table has no box '{size}'.",
            do=f"It has: {', '.join(box_sizes())}. "
            "For another, write the volume marked in it: volume: 18 in3.",
        ) from None


def most_conductors(volume_in3: float, *, awg: int) -> int:
    """Return how many conductors of one size a bare box may hold.

    Examples
    --------
    >>> most_conductors(15.5, awg=14)
    7
    """
    return floor(volume_in3 / volume_each_in3(awg) + _ROUND)
