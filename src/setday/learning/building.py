"""Lines of the correct workings, as the builders of figures write them."""

from collections.abc import Iterable, Sequence

from setday.learning.tree import Line, Number, Of, Over, Part, Product, Role, Sum, Up
from setday.measure import Length
from setday.rules import Source

__all__ = ["added", "feet_area", "inch_area", "measure", "per_piece", "summed", "times"]

SQIN = 144.0
"""Square inches of a square foot."""


def measure(key: str, label: str, length: Length) -> Line:
    """Return a line that is read off the tape.

    Parameters
    ----------
    key, label : str
    length : Length
    """
    shown = Length.of(inches=round(length.inches * 16) / 16)
    return Line(
        key=key,
        label=label,
        node=Number(value=shown.inches, about=label, words=str(shown)),
        unit="in",
        measured=shown,
    )


def feet_area(key: str, label: str, width: str, height: str, *, half: bool = False) -> Line:
    """Return a line that multiplies two measures in feet [ft2].

    Parameters
    ----------
    key, label : str
    width, height : str
        Keys of their lines.
    half : bool
        For a triangle.
    """
    parts = [Part(node=Of(line=width, feet=True)), Part(node=Of(line=height, feet=True))]
    if half:
        parts.append(Part(node=Number(value=0.5, words="1/2"), role=Role.HALF))
    return Line(key=key, label=label, node=Product(parts=tuple(parts)), unit="ft2")


def inch_area(key: str, label: str, width: str, height: str) -> Line:
    """Return a line that multiplies two measures in inches and divides by 144 [ft2].

    Parameters
    ----------
    key, label : str
    width, height : str
        Keys of their lines.
    """
    product = Product(parts=(Part(node=Of(line=width)), Part(node=Of(line=height))))
    return Line(key=key, label=label, node=Over(top=product, bottom=Number(value=SQIN)), unit="ft2")


def added(line: Line, role: Role = Role.SIDE, *, sign: int = 1, feet: bool = False, about: str = "") -> Part:
    """Return a part of a sum that is the result of a line.

    Parameters
    ----------
    line : Line
    role : Role
    sign : int
    feet : bool
        Read it in feet.
    about : str
        What it stands for; empty for the line's label.
    """
    return Part(node=Of(line=line.key, feet=feet), role=role, sign=sign, about=about or line.label)


def summed(key: str, label: str, parts: Iterable[Part], *, unit: str = "ft2", corner: float = 0.0) -> Line:
    """Return a line that adds up and takes off.

    Parameters
    ----------
    key, label : str
    parts : iterable of Part
    unit : str
    corner : float
        What one corner counts for when it is counted with both walls.
    """
    listed = tuple(parts)
    alone = sum(part.role is Role.SIDE for part in listed) < 2 and len(listed) < 2
    if alone:
        listed = tuple(
            Part(node=each.node, sign=each.sign, about=each.about, role=Role.PLAIN) for each in listed
        )
    return Line(key=key, label=label, node=Sum(parts=listed), unit=unit, corner=corner)


def times(
    key: str,
    label: str,
    line: Line,
    factors: Sequence[Part],
    *,
    unit: str = "",
    feet: bool = False,
    source: Source | None = None,
) -> Line:
    """Return a line that multiplies the result of another.

    Parameters
    ----------
    key, label : str
    line : Line
    factors : sequence of Part
    unit : str
        Empty for that of `line`.
    feet : bool
        Read `line` in feet.
    source : Source or None
    """
    first = Part(node=Of(line=line.key, feet=feet))
    node = Product(parts=(first, *factors))
    return Line(key=key, label=label, node=node, unit=unit or line.unit, source=source)


def per_piece(
    key: str, label: str, line: Line, piece: Number, *, unit: str, source: Source | None = None
) -> Line:
    """Return a line that divides by what one piece covers and rounds up.

    Parameters
    ----------
    key, label : str
    line : Line
    piece : Number
    unit : str
    source : Source or None
    """
    node = Up(node=Over(top=Of(line=line.key), bottom=piece))
    return Line(key=key, label=label, node=node, unit=unit, decimals=0, source=source)
