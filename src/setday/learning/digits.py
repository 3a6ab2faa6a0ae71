"""Numbers as they are written: digits that change places, feet and inches read as a decimal."""

from math import floor

__all__ = ["decimal_feet", "feet_and_inches_swapped", "places_to_swap", "swapped_digits"]


def decimal_feet(inches: float, *, whole: bool = False) -> float:
    """Return the feet of somebody who sets a point between feet and inches: 8'-6" becomes 8.6.

    Parameters
    ----------
    inches : float
        The length [in].
    whole : bool
        Drop the fraction of an inch first; otherwise 7 1/2 becomes .75.

    Examples
    --------
    >>> decimal_feet(102), decimal_feet(106), decimal_feet(103.5)
    (8.6, 8.1, 8.75)
    """
    feet, rest = divmod(inches, 12)
    if whole:
        rest = floor(rest)
    written = f"{rest:g}".replace(".", "")
    return float(f"{feet:.0f}.{written}")


def feet_and_inches_swapped(inches: float) -> float:
    """Return a length whose feet and inches changed places: 6'-8" becomes 8'-6" [in].

    Examples
    --------
    >>> feet_and_inches_swapped(80)
    102.0
    """
    feet, rest = divmod(inches, 12)
    return float(rest * 12 + feet)


def places_to_swap(value: float, *, decimals: int) -> int:
    """Return how many pairs of neighbouring digits a value has when written with so many decimals."""
    return max(0, len(_digits(value, decimals)) - 1)


def swapped_digits(value: float, *, place: int, decimals: int) -> float:
    """Return the value whose digit at `place` changed places with the next one.

    Parameters
    ----------
    value : float
    place : int
        Counted from 0 at the left.
    decimals : int
        Digits after the point as it is written.

    Examples
    --------
    >>> swapped_digits(34, place=0, decimals=0), swapped_digits(117.2, place=2, decimals=1)
    (43.0, 112.7)
    """
    digits = list(_digits(value, decimals))
    if place + 1 < len(digits):
        digits[place], digits[place + 1] = digits[place + 1], digits[place]
    sign = -1 if value < 0 else 1
    return float(sign * int("".join(digits)) / 10.0**decimals)


def _digits(value: float, decimals: int) -> str:
    return str(round(abs(value) * 10**decimals))
