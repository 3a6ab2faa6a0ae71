"""Cables as sold: their conductors and colors."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from setday.electric.conductors import PACKAGE
from setday.errors import RuleError
from setday.rules import load_table

__all__ = ["BARE", "CableKind", "cable_kind", "cable_kinds"]

BARE = "bare"
"""The color of the equipment ground in a cable."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CableKind:
    """A cable as sold: "14/3" is three insulated conductors of 14 AWG and a bare ground."""

    key: str
    awg: int
    colors: tuple[str, ...]

    @property
    def insulated(self) -> tuple[str, ...]:
        """The colors without the ground."""
        return tuple(color for color in self.colors if color != BARE)


@cache
def cable_kinds() -> Mapping[str, CableKind]:
    """Return the cables of the code table, by what is printed on them."""
    table = load_table(PACKAGE, "cables")
    return {
        row["key"]: CableKind(key=row["key"], awg=int(row["awg"]), colors=tuple(row["colors"].split("|")))
        for row in table.rows
    }


def cable_kind(key: str) -> CableKind:
    """Return a kind of cable.

    Raises
    ------
    RuleError
        For a kind the table lacks.

    Examples
    --------
    >>> cable_kind("14/3").insulated
    ('black', 'white', 'red')
    """
    try:
        return cable_kinds()[key]
    except KeyError:
        known = ", ".join(cable_kinds())
        raise RuleError(f"There is no cable {key!r} in the table.", do=f"Known: {known}.") from None
