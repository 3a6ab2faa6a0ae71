"""An exact length: a whole number of sixty-fourths of an inch."""

from dataclasses import dataclass
from fractions import Fraction
from typing import overload

__all__ = ["FOOT", "INCH", "PER_FOOT", "PER_INCH", "ZERO", "Length"]

PER_INCH = 64
PER_FOOT = 12 * PER_INCH


@dataclass(frozen=True, slots=True, order=True)
class Length:
    r"""A length in whole sixty-fourths of an inch, the finest mark of a framing rule.

    Parameters
    ----------
    sixtyfourths : int
        Count of 1/64 in; may be negative (an offset to the left, a fall).

    Examples
    --------
    >>> Length.of(feet=12, inches=Fraction(13, 2))
    Length(sixtyfourths=9632)
    >>> str(Length.of(feet=12, inches=Fraction(13, 2)))
    '12\'-6 1/2"'
    """

    sixtyfourths: int

    @classmethod
    def of(cls, *, feet: int | Fraction = 0, inches: float | Fraction = 0) -> "Length":
        """Return the length nearest to so many feet and inches, on the 1/64 in grid.

        Parameters
        ----------
        feet : int or Fraction
            Feet [ft].
        inches : int, float or Fraction
            Inches [in], added to the feet.
        """
        total = Fraction(feet) * PER_FOOT + Fraction(inches) * PER_INCH
        return cls(round_half_up(total))

    @property
    def inches(self) -> float:
        """The length in inches; exact, since a float holds every sixty-fourth [in]."""
        return self.sixtyfourths / PER_INCH

    @property
    def feet(self) -> float:
        """The length in feet [ft]."""
        return self.sixtyfourths / PER_FOOT

    @property
    def exact_inches(self) -> Fraction:
        """The length in inches as a fraction [in]."""
        return Fraction(self.sixtyfourths, PER_INCH)

    def to_nearest(self, mark: "Length") -> "Length":
        """Return the length read off a tape whose finest mark is `mark`, halves upward."""
        if mark.sixtyfourths <= 0:
            raise ValueError("the finest mark of a tape is more than nothing")
        return Length(round_half_up(Fraction(self.sixtyfourths, mark.sixtyfourths)) * mark.sixtyfourths)

    def __add__(self, other: "Length") -> "Length":
        return Length(self.sixtyfourths + other.sixtyfourths)

    def __sub__(self, other: "Length") -> "Length":
        return Length(self.sixtyfourths - other.sixtyfourths)

    def __neg__(self) -> "Length":
        return Length(-self.sixtyfourths)

    def __abs__(self) -> "Length":
        return Length(abs(self.sixtyfourths))

    def __mul__(self, times: int) -> "Length":
        return Length(self.sixtyfourths * times)

    __rmul__ = __mul__

    @overload
    def __floordiv__(self, other: "Length") -> int: ...
    @overload
    def __floordiv__(self, other: int) -> "Length": ...
    def __floordiv__(self, other: "Length | int") -> "int | Length":
        if isinstance(other, Length):
            return self.sixtyfourths // other.sixtyfourths
        return Length(self.sixtyfourths // other)

    def __mod__(self, other: "Length") -> "Length":
        return Length(self.sixtyfourths % other.sixtyfourths)

    def __truediv__(self, other: "Length") -> Fraction:
        return Fraction(self.sixtyfourths, other.sixtyfourths)

    def __bool__(self) -> bool:
        return self.sixtyfourths != 0

    def __str__(self) -> str:
        from setday.measure.writing import write_feet_inches

        return write_feet_inches(self)


def round_half_up(value: Fraction) -> int:
    """Return the whole number nearest to `value`; a half goes away from zero, as on a tape."""
    sign = -1 if value < 0 else 1
    return sign * int(abs(value) + Fraction(1, 2))


ZERO = Length(0)
INCH = Length(PER_INCH)
FOOT = Length(PER_FOOT)
