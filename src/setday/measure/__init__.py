"""Lengths and areas as written on site, exact in sixty-fourths of an inch."""

from setday.measure.area import Area
from setday.measure.length import FOOT, INCH, ZERO, Length
from setday.measure.parsing import parse_length
from setday.measure.writing import write_feet_inches, write_inches

__all__ = [
    "FOOT",
    "INCH",
    "ZERO",
    "Area",
    "Length",
    "parse_length",
    "write_feet_inches",
    "write_inches",
]
