"""An exact area, from lengths."""

from dataclasses import dataclass
from fractions import Fraction

from setday.measure.length import PER_FOOT, PER_INCH, Length

__all__ = ["Area"]


@dataclass(frozen=True, slots=True, order=True)
class Area:
    """An area, kept exactly in square inches.

    Parameters
    ----------
    sqin : Fraction
        The area [in2].

    Examples
    --------
    >>> Area.rectangle(Length.of(feet=12), Length.of(feet=8)).sqft
    96.0
    """

    sqin: Fraction

    @classmethod
    def rectangle(cls, width: Length, height: Length) -> "Area":
        """Return the area of a rectangle."""
        return cls(Fraction(width.sixtyfourths * height.sixtyfourths, PER_INCH**2))

    @classmethod
    def polygon(cls, corners: tuple[tuple[Length, Length], ...]) -> "Area":
        """Return the area inside a closed line through `corners`, by cross products."""
        twice = 0
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
            twice += x0.sixtyfourths * y1.sixtyfourths - x1.sixtyfourths * y0.sixtyfourths
        return cls(Fraction(abs(twice), 2 * PER_INCH**2))

    @property
    def sqft(self) -> float:
        """The area in square feet [ft2]."""
        return float(self.sqin * PER_INCH**2 / PER_FOOT**2)

    def __add__(self, other: "Area") -> "Area":
        return Area(self.sqin + other.sqin)

    def __sub__(self, other: "Area") -> "Area":
        return Area(self.sqin - other.sqin)

    def __mul__(self, times: int | Fraction) -> "Area":
        return Area(self.sqin * times)

    __rmul__ = __mul__

    def __str__(self) -> str:
        return f"{self.sqft:,.1f} ft2"
