"""Grounding conductors: of equipment, and to the electrode."""

from functools import cache

from setday.electric.conductors import PACKAGE
from setday.errors import RuleError
from setday.rules import Source, Table, load_table

__all__ = ["electrode_conductor", "equipment_ground"]

_ORDER = ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")


@cache
def _table(name: str) -> Table:
    return load_table(PACKAGE, name)


def equipment_ground(breaker_a: float) -> tuple[str, Source]:
    """Return the copper equipment ground behind a breaker, NEC table 250.122, and its source.

    Parameters
    ----------
    breaker_a : float
        [A].

    Examples
    --------
    >>> equipment_ground(50)[0], equipment_ground(200)[0]
    ('10', '6')
    """
    table = _table("equipment_ground")
    for row in table.rows:
        if breaker_a <= float(row["breaker_a"]):
            return row["copper_awg"], table.source_of(row)
    raise RuleError(
        f"The table has no equipment ground for {breaker_a:g} A.", do="Ask the electrician for this one."
    )


def electrode_conductor(service: str) -> tuple[str, Source]:
    """Return the copper conductor to the grounding electrode, NEC table 250.66, and its source.

    Parameters
    ----------
    service : str
        Size of the copper service conductors: "2", "1/0" [AWG], "350" [kcmil].

    Examples
    --------
    >>> electrode_conductor("3/0")[0]
    '4'
    """
    table = _table("electrode")
    for row in table.rows:
        if _rank(service) <= _rank(row["service"]):
            return row["copper_awg"], table.source_of(row)
    raise RuleError(
        f"The table has no electrode conductor for a service of {service}.", do="Ask the electrician."
    )


def _rank(size: str) -> int:
    return _ORDER.index(size) if size in _ORDER else int(size)
