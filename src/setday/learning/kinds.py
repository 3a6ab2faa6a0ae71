"""The kinds of slips, what a teacher would say to each, and how often each happens to begin with.

How often is our own starting point, no source: a class's own counts soon outweigh it
(`setday.learning.odds`).
"""

from enum import StrEnum

__all__ = ["HINTS", "SENTENCES", "STARTING_SHARES", "SlipKind"]


class SlipKind(StrEnum):
    """One recognised kind of mistake in a student's figure."""

    PART_FORGOTTEN = "part-forgotten"
    PART_TWICE = "part-twice"
    OPENING_FORGOTTEN = "opening-forgotten"
    OPENING_ADDED = "opening-added"
    CEILING_FORGOTTEN = "ceiling-forgotten"
    ONE_FACE = "one-face"
    FACES_TWICE = "faces-twice"
    DECIMAL_FEET = "decimal-feet"
    INCHES_AS_FEET = "inches-as-feet"
    TAPE_FOOT = "tape-foot"
    BY_TWELVE = "by-twelve"
    WRONG_UNIT = "wrong-unit"
    OTHER_MEASURE = "other-measure"
    CORNER_TWICE = "corner-twice"
    ROUNDED_DOWN = "rounded-down"
    UNROUNDED = "unrounded"
    WASTE_FORGOTTEN = "waste-forgotten"
    WASTE_TWICE = "waste-twice"
    ALLOWANCE_FORGOTTEN = "allowance-forgotten"
    ALLOWANCE_TWICE = "allowance-twice"
    END_FORGOTTEN = "end-forgotten"
    END_TWICE = "end-twice"
    HALF_FORGOTTEN = "half-forgotten"
    DIGITS_SWAPPED = "digits-swapped"
    ARITHMETIC = "arithmetic"


STARTING_SHARES: dict[SlipKind, float] = {
    SlipKind.PART_FORGOTTEN: 14,
    SlipKind.PART_TWICE: 8,
    SlipKind.OPENING_FORGOTTEN: 12,
    SlipKind.OPENING_ADDED: 8,
    SlipKind.CEILING_FORGOTTEN: 6,
    SlipKind.ONE_FACE: 8,
    SlipKind.FACES_TWICE: 3,
    SlipKind.DECIMAL_FEET: 12,
    SlipKind.INCHES_AS_FEET: 5,
    SlipKind.TAPE_FOOT: 5,
    SlipKind.BY_TWELVE: 6,
    SlipKind.WRONG_UNIT: 4,
    SlipKind.OTHER_MEASURE: 7,
    SlipKind.CORNER_TWICE: 4,
    SlipKind.ROUNDED_DOWN: 8,
    SlipKind.UNROUNDED: 4,
    SlipKind.WASTE_FORGOTTEN: 8,
    SlipKind.WASTE_TWICE: 4,
    SlipKind.ALLOWANCE_FORGOTTEN: 10,
    SlipKind.ALLOWANCE_TWICE: 4,
    SlipKind.END_FORGOTTEN: 10,
    SlipKind.END_TWICE: 3,
    SlipKind.HALF_FORGOTTEN: 6,
    SlipKind.DIGITS_SWAPPED: 6,
    SlipKind.ARITHMETIC: 9,
}
"""Of a hundred and more slips, so many are of each kind; our own starting point, no source."""

SENTENCES: dict[SlipKind, str] = {
    SlipKind.PART_FORGOTTEN: "%(about)s is missing from %(line)s.",
    SlipKind.PART_TWICE: "%(about)s is counted twice in %(line)s.",
    SlipKind.OPENING_FORGOTTEN: "%(about)s was not taken off in %(line)s.",
    SlipKind.OPENING_ADDED: "%(about)s was added instead of taken off in %(line)s.",
    SlipKind.CEILING_FORGOTTEN: "The ceiling is missing from %(line)s.",
    SlipKind.ONE_FACE: "%(line)s counts one side of the wall only; a partition has two.",
    SlipKind.FACES_TWICE: "%(line)s counts both sides of the wall twice.",
    SlipKind.DECIMAL_FEET: "In %(line)s, %(about)s was read as a decimal: the inches are twelfths of a foot.",
    SlipKind.INCHES_AS_FEET: "In %(line)s, the inches of %(about)s were used as feet.",
    SlipKind.TAPE_FOOT: "%(line)s was read a foot off on the tape.",
    SlipKind.BY_TWELVE: "In %(line)s, square inches were divided by 12; a square foot has 144.",
    SlipKind.WRONG_UNIT: "The number may be right, but %(line)s is given in another unit than was asked.",
    SlipKind.OTHER_MEASURE: "In %(line)s, another measure was taken in place of %(about)s.",
    SlipKind.CORNER_TWICE: "In %(line)s, a corner is counted with both of its walls.",
    SlipKind.ROUNDED_DOWN: "%(line)s was rounded down; a part of a piece still takes a whole one.",
    SlipKind.UNROUNDED: "%(line)s was not rounded up; pieces come whole.",
    SlipKind.WASTE_FORGOTTEN: "Waste was not added in %(line)s.",
    SlipKind.WASTE_TWICE: "Waste was added twice in %(line)s.",
    SlipKind.ALLOWANCE_FORGOTTEN: "%(about)s was not added in %(line)s.",
    SlipKind.ALLOWANCE_TWICE: "%(about)s was added twice in %(line)s.",
    SlipKind.END_FORGOTTEN: "The one more at the end was not added in %(line)s: spaces were counted.",
    SlipKind.END_TWICE: "One too many was added at the end in %(line)s.",
    SlipKind.HALF_FORGOTTEN: "In %(line)s, the triangle was not halved.",
    SlipKind.DIGITS_SWAPPED: "In %(line)s, two digits changed places.",
    SlipKind.ARITHMETIC: "The arithmetic of %(line)s is wrong; what was to be worked out is right.",
}
"""What a teacher would say, with the line and what on it."""

HINTS: dict[SlipKind, str] = {
    SlipKind.PART_FORGOTTEN: "Something that belongs to it may be missing.",
    SlipKind.PART_TWICE: "Something may be counted twice.",
    SlipKind.OPENING_FORGOTTEN: "Look at the openings.",
    SlipKind.OPENING_ADDED: "Look at what is added and what is taken off.",
    SlipKind.CEILING_FORGOTTEN: "Look at which surfaces belong to it.",
    SlipKind.ONE_FACE: "Think of how many sides a wall has.",
    SlipKind.FACES_TWICE: "Think of how many sides a wall has.",
    SlipKind.DECIMAL_FEET: "Look at how inches become feet.",
    SlipKind.INCHES_AS_FEET: "Look at the units of the measures.",
    SlipKind.TAPE_FOOT: "Measure once more.",
    SlipKind.BY_TWELVE: "Look at how square inches become square feet.",
    SlipKind.WRONG_UNIT: "Look at the unit that was asked for.",
    SlipKind.OTHER_MEASURE: "Look at which measure goes where.",
    SlipKind.CORNER_TWICE: "Look at the corners.",
    SlipKind.ROUNDED_DOWN: "Look at the rounding.",
    SlipKind.UNROUNDED: "Look at the rounding.",
    SlipKind.WASTE_FORGOTTEN: "Think of waste.",
    SlipKind.WASTE_TWICE: "Think of waste.",
    SlipKind.ALLOWANCE_FORGOTTEN: "Think of what is added beyond the way itself.",
    SlipKind.ALLOWANCE_TWICE: "Think of what is added beyond the way itself.",
    SlipKind.END_FORGOTTEN: "Pieces or spaces: which were counted?",
    SlipKind.END_TWICE: "Pieces or spaces: which were counted?",
    SlipKind.HALF_FORGOTTEN: "Look at the shape.",
    SlipKind.DIGITS_SWAPPED: "Read the numbers over once more.",
    SlipKind.ARITHMETIC: "Do the arithmetic once more.",
}
"""Names the kind of slip, never a number or a place."""
