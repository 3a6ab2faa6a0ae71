"""Lengths written as on site."""

from fractions import Fraction

from setday.measure.length import PER_FOOT, PER_INCH, Length

__all__ = ["SIXTEENTH", "write_feet_inches", "write_inches"]

SIXTEENTH = Length(PER_INCH // 16)


def write_feet_inches(length: Length, *, nearest: Length | None = SIXTEENTH) -> str:
    r"""Write a length as feet, inches and a fraction.

    Parameters
    ----------
    length : Length
        The length to write.
    nearest : Length or None
        The finest mark shown; None writes every sixty-fourth.

    Examples
    --------
    >>> write_feet_inches(Length.of(feet=12, inches=6.5))
    '12\'-6 1/2"'
    >>> write_feet_inches(Length.of(inches=7.25))
    '7 1/4"'
    >>> write_feet_inches(Length.of(feet=15, inches=0.75))
    '15\'-0 3/4"'
    """
    shown = length if nearest is None else length.to_nearest(nearest)
    sign = "-" if shown.sixtyfourths < 0 else ""
    feet, rest = divmod(abs(shown.sixtyfourths), PER_FOOT)
    if not feet:
        return f'{sign}{_inches(rest)}"'
    none = "0 " if 0 < rest < PER_INCH else ""
    return f"{sign}{feet}'-{none}{_inches(rest)}\""


def write_inches(length: Length, *, nearest: Length | None = SIXTEENTH) -> str:
    """Write a length in inches and a fraction, however long it is.

    Parameters
    ----------
    length : Length
        The length to write.
    nearest : Length or None
        The finest mark shown; None writes every sixty-fourth.

    Examples
    --------
    >>> write_inches(Length.of(feet=8, inches=0.125))
    '96 1/8"'
    """
    shown = length if nearest is None else length.to_nearest(nearest)
    sign = "-" if shown.sixtyfourths < 0 else ""
    return f'{sign}{_inches(abs(shown.sixtyfourths))}"'


def _inches(sixtyfourths: int) -> str:
    whole, part = divmod(sixtyfourths, PER_INCH)
    if not part:
        return str(whole)
    fraction = Fraction(part, PER_INCH)
    written = f"{fraction.numerator}/{fraction.denominator}"
    return f"{whole} {written}" if whole else written
