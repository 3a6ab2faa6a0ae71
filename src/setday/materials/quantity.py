"""Quantities as exact numbers, so that a sum of parts never rounds up one package too many."""

from fractions import Fraction

__all__ = ["exact_quantity", "write_quantity"]

_GRID = 1_000_000


_COUNTED = {"boards", "lengths", "nails", "pieces", "rolls", "screws", "sticks"}


def exact_quantity(quantity: float) -> Fraction:
    """Return a quantity as the nearest whole millionth of its unit.

    Three rooms of 0.1 gal make 0.3 gal and not a hair more.

    Examples
    --------
    >>> exact_quantity(0.1) * 3 == exact_quantity(0.3)
    True
    """
    return Fraction(round(Fraction(quantity) * _GRID), _GRID)


def write_quantity(quantity: Fraction, unit: str = "") -> str:
    """Write a quantity with its unit, to a hundredth at most.

    Examples
    --------
    >>> write_quantity(Fraction(2660), "ft")
    '2,660 ft'
    >>> write_quantity(Fraction(75, 2), "gal")
    '37.5 gal'
    >>> write_quantity(Fraction(1), "pieces")
    '1 piece'
    """
    if quantity == 1 and unit in _COUNTED:
        unit = unit[:-1]
    text = f"{float(quantity):,.2f}".rstrip("0").rstrip(".")
    return f"{text} {unit}".rstrip()
