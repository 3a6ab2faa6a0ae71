"""Reading prices and plain numbers as people write them in a sheet."""

import re
from fractions import Fraction

from setday.errors import MeasureError

__all__ = ["DEAREST_CENTS", "parse_number", "parse_price"]

DEAREST_CENTS = 10_000_000
"""Nothing sold by the piece to a school yard costs more (our own bound)."""

_POINT = re.compile(r"([0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)?(?:\.([0-9]*))?")
_COMMA = re.compile(r"([0-9]{1,3}(?:\.[0-9]{3})+|[0-9]+),([0-9]{1,2})")
_LONGEST = 40


def parse_price(text: str) -> int:
    """Read a price in dollars.

    Parameters
    ----------
    text : str
        ``$1,234.50``, ``1234.5``, ``12``, ``USD 9.95``, ``1.234,50``.

    Returns
    -------
    int
        The price [cents].

    Raises
    ------
    MeasureError
        When the text is not a price, is below nothing, or splits a cent.

    Examples
    --------
    >>> parse_price("$1,234.50")
    123450
    """
    bare = re.sub(r"(?i)us\$|usd|\$|\s", "", text[: _LONGEST + 1])
    if re.fullmatch(r"\(.*\)|[-\u2212\u2013].*|.*-", bare):
        raise MeasureError(f"{text!r} is below nothing.", do="Write what one sold unit costs.")
    value = _value(bare, text, what="a price", like="12.50 or $1,234.50")
    cents = value * 100
    if cents.denominator != 1:
        raise MeasureError(f"{text!r} splits a cent.", do="Write the price of the whole sold unit.")
    if cents > DEAREST_CENTS:
        raise MeasureError(f"{text!r} is dearer than anything sold by the piece.", do="Check the number.")
    return int(cents)


def parse_number(text: str) -> Fraction:
    """Read a number, thousands separated or not.

    Parameters
    ----------
    text : str
        ``5``, ``1,000``, ``4.5``.

    Returns
    -------
    Fraction

    Raises
    ------
    MeasureError
        When the text is not a number, or below nothing.

    Examples
    --------
    >>> parse_number("1,000")
    Fraction(1000, 1)
    """
    bare = re.sub(r"\s", "", text[: _LONGEST + 1])
    if bare.startswith(("-", "\u2212", "\u2013")):
        raise MeasureError(f"{text!r} is below nothing.", do="Write a number from 0 up.")
    return _value(bare, text, what="a number", like="5 or 1,000")


def _value(bare: str, text: str, *, what: str, like: str) -> Fraction:
    point = _POINT.fullmatch(bare)
    comma = _COMMA.fullmatch(bare)
    if len(bare) > _LONGEST or not (point or comma) or not re.search("[0-9]", bare):
        raise MeasureError(f"{text[:_LONGEST]!r} is not {what}.", do=f"Write it like {like}.")
    if point:
        return Fraction(f"{(point[1] or '0').replace(',', '')}.{point[2] or '0'}")
    assert comma is not None
    return Fraction(f"{comma[1].replace('.', '')}.{comma[2]}")
