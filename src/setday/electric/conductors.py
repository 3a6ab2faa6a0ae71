"""Copper conductors: what they carry, what they resist, what protects them, what room they take."""

from collections.abc import Mapping
from functools import cache
from math import sqrt

from setday.errors import RuleError
from setday.rules import Source, load_table

__all__ = [
    "PACKAGE",
    "ampacity_a",
    "ampacity_source",
    "impedance_ohm_per_ft",
    "largest_breaker_a",
    "next_standard_breaker",
    "ohm_per_ft",
    "resistance_source",
    "size_named",
    "smallest_conductor",
    "standard_breakers",
    "volume_each_in3",
]

PACKAGE = "setday.electric"


@cache
def _column(table: str, key: str, column: str) -> Mapping[str, float]:
    return {row[key]: float(row[column]) for row in load_table(PACKAGE, table).rows}


def _looked_up(table: str, key: str, column: str, wanted: str) -> float:
    values = _column(table, key, column)
    if wanted not in values:
        raise RuleError(
            f"The table has no copper conductor of {size_named(wanted)}.",
            do=f"It has: {', '.join(size_named(each) for each in values)}.",
        )
    return values[wanted]


def size_named(size: str | int) -> str:
    """Return the size of a conductor in words: AWG up to 4/0, kcmil above.

    Examples
    --------
    >>> size_named(12), size_named("2/0"), size_named("250")
    ('12 AWG', '2/0 AWG', '250 kcmil')
    """
    text = str(size)
    return f"{text} kcmil" if text.isdigit() and int(text) >= 250 else f"{text} AWG"


def ohm_per_ft(awg: int, *, stranded: bool = False) -> float:
    """Return the resistance of a copper conductor [ohm/ft], NEC chapter 9 table 8.

    Parameters
    ----------
    awg : int
        From 14 to 2 [AWG].
    stranded : bool
        True for stranded copper; solid is not made above 8 AWG for cable.

    Examples
    --------
    >>> round(ohm_per_ft(14) * 1000, 2)
    3.07
    """
    column = "stranded_ohm_per_kft" if stranded or awg < 8 else "ohm_per_kft"
    return _looked_up("resistance", "awg", column, str(awg)) / 1000.0


def impedance_ohm_per_ft(awg: int, *, power_factor: float) -> float:
    """Return the effective impedance of a copper conductor in plastic [ohm/ft], NEC chapter 9 table 9.

    Parameters
    ----------
    awg : int
        From 14 to 6 [AWG].
    power_factor : float
        Of the load, from 0 to 1.

    Examples
    --------
    >>> round(impedance_ohm_per_ft(14, power_factor=0.85) * 1000, 1)
    2.7
    """
    resistance = _looked_up("impedance", "awg", "ac_ohm_per_kft", str(awg))
    reactance = _looked_up("impedance", "awg", "reactance_ohm_per_kft", str(awg))
    return (resistance * power_factor + reactance * sqrt(1 - power_factor**2)) / 1000.0


def resistance_source() -> Source:
    """Return where the resistances come from."""
    return load_table(PACKAGE, "resistance").sources["nec-ch9-t8"]


def largest_breaker_a(awg: int) -> float:
    """Return the largest breaker on a copper conductor in nonmetallic cable [A].

    NEC 240.4(D) for small conductors; the 60 degree column for larger ones (334.80).

    Examples
    --------
    >>> largest_breaker_a(12), largest_breaker_a(6)
    (20.0, 55.0)
    """
    small = _column("breaker", "awg", "most_a")
    return small[str(awg)] if str(awg) in small else ampacity_a(awg, column=60)


def volume_each_in3(awg: int) -> float:
    """Return what one conductor takes of a box [cubic inches], NEC table 314.16(B)."""
    return _looked_up("volume", "awg", "each_in3", str(awg))


def ampacity_a(size: str | int, *, column: int) -> float:
    """Return what a copper conductor may carry [A], NEC table 310.16.

    Parameters
    ----------
    size : str or int
        14 ... "4/0" [AWG], "250" ... [kcmil].
    column : int
        Temperature rating: 60, 75 or 90 [degrees C].  Nonmetallic cable is held to 60.

    Examples
    --------
    >>> ampacity_a(12, column=60), ampacity_a("2/0", column=75)
    (20.0, 175.0)
    """
    if column not in {60, 75, 90}:
        raise ValueError(f"no such column of ampacities: {column}")
    return _looked_up("ampacity", "size", f"c{column}_a", str(size))


def ampacity_source(size: str | int) -> Source:
    """Return where the ampacity of a size comes from."""
    table = load_table(PACKAGE, "ampacity")
    return next(table.source_of(row) for row in table.rows if row["size"] == str(size))


def smallest_conductor(current_a: float, *, column: int) -> str:
    """Return the smallest copper conductor that carries a current.

    Parameters
    ----------
    current_a : float
        [A].
    column : int
        60, 75 or 90 [degrees C].

    Raises
    ------
    RuleError
        When no size of the table does.

    Examples
    --------
    >>> smallest_conductor(83, column=75), smallest_conductor(166, column=75)
    ('4', '2/0')
    """
    sizes = _column("ampacity", "size", f"c{column}_a")
    for size, carried in sizes.items():
        if carried >= current_a:
            return size
    raise RuleError(
        f"No copper conductor of the table carries {current_a:g} A.",
        do="Ask the electrician: parallel conductors or a larger service are outside these tables.",
    )


@cache
def standard_breakers() -> tuple[int, ...]:
    """Return the standard ratings of breakers [A], NEC 240.6(A)."""
    return tuple(int(row["rating_a"]) for row in load_table(PACKAGE, "ratings").rows)


def next_standard_breaker(current_a: float) -> int:
    """Return the smallest standard rating that is not below a current [A].

    Examples
    --------
    >>> next_standard_breaker(104), next_standard_breaker(30)
    (110, 30)
    """
    for rating in standard_breakers():
        if rating >= current_a - 1e-9:
            return rating
    raise RuleError(
        f"No standard breaker of the table is rated for {current_a:g} A.",
        do=f"The largest is {standard_breakers()[-1]} A; ask the electrician.",
    )
