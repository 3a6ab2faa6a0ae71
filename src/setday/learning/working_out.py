"""Working a figure out, with or without changes made to places of its lines."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import ceil, floor

from setday.learning.digits import decimal_feet, feet_and_inches_swapped, swapped_digits
from setday.learning.tree import Figure, Line, Node, Number, Of, Over, Product, Sum

__all__ = ["Change", "How", "Values", "close_up", "line_value", "work_out"]

_HAIR = 1e-7
"""So much above a whole number is the float's doing, not a further piece."""

Values = Mapping[str, float]


class How(StrEnum):
    """What is done to the value at a place."""

    TIMES = "times"
    PLUS = "plus"
    SET = "set"
    TAKE = "take"
    """Another line is read in its stead."""
    SQUARE = "square"
    FLOOR = "floor"
    UNROUNDED = "unrounded"
    DECIMAL = "decimal feet"
    DECIMAL_WHOLE = "decimal feet, fraction dropped"
    INCHES = "inches as feet"
    SUMMED = "inches added as feet"
    DIGITS = "digits swapped"
    FEET_INCHES = "feet and inches swapped"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change at one place; `number` and `line` are what `how` needs."""

    how: How
    number: float = 0.0
    line: str = ""
    decimals: int = 0


Changes = Mapping[str, Change]
_NONE: Changes = {}


def close_up(value: float) -> float:
    """Return the next whole number that is not less, a hair's breadth of the float forgiven."""
    return float(ceil(value - _HAIR))


def work_out(figure: Figure, changes: Changes = _NONE, *, own: Values | None = None) -> dict[str, float]:
    """Return the value of every line, in its own unit.

    Parameters
    ----------
    figure : Figure
    changes : mapping of str to Change
        By path.
    own : mapping of str to float or None
        What a student wrote for lines; later lines go on with it.
    """
    given = own or {}
    found: dict[str, float] = {}
    carried: dict[str, float] = {}
    for line in figure.lines:
        found[line.key] = line_value(line, changes, carried, figure)
        carried[line.key] = given.get(line.key, found[line.key])
    return found


def line_value(line: Line, changes: Changes, values: Values, figure: Figure) -> float:
    """Return the value of one line from the values of the earlier ones.

    Parameters
    ----------
    line : Line
    changes : mapping of str to Change
    values : mapping of str to float
    figure : Figure
    """
    value = _value(line.node, line.key, changes, values, figure)
    change = changes.get(f"={line.key}")
    return value if change is None else changed(value, change, values)


def _value(node: Node, path: str, changes: Changes, values: Values, figure: Figure) -> float:
    change = changes.get(path)
    if isinstance(node, Number):
        value = node.value
    elif isinstance(node, Of):
        return _read(node, change, values, figure)
    elif isinstance(node, Sum):
        value = 0.0
        for place, part in enumerate(node.parts):
            value += part.sign * _value(part.node, f"{path}/{place}", changes, values, figure)
    elif isinstance(node, Product):
        value = 1.0
        for place, part in enumerate(node.parts):
            value *= _value(part.node, f"{path}/{place}", changes, values, figure)
    elif isinstance(node, Over):
        bottom = _value(node.bottom, f"{path}/1", changes, values, figure)
        value = _value(node.top, f"{path}/0", changes, values, figure) / bottom if bottom else 0.0
    else:
        value = _value(node.node, f"{path}/0", changes, values, figure)
        return _rounded(value, change)
    return value if change is None else changed(value, change, values)


def _rounded(value: float, change: Change | None) -> float:
    if change is None:
        return close_up(value)
    if change.how is How.FLOOR:
        return float(floor(value + _HAIR))
    return value


def _read(node: Of, change: Change | None, values: Values, figure: Figure) -> float:
    line = node.line
    if change is not None and change.how is How.TAKE:
        line, change = change.line, None
    value = values[line]
    if change is not None:
        value = changed(value, change, values)
    inches = figure.by_key[line].unit == "in"
    return value / 12 if node.feet and inches else value


def changed(value: float, change: Change, values: Values) -> float:
    """Return a value after a change.

    Parameters
    ----------
    value : float
    change : Change
    values : mapping of str to float
        Of the lines, where the change reads one.
    """
    simple = {
        How.TIMES: value * change.number,
        How.PLUS: value + change.number,
        How.SET: change.number,
        How.SQUARE: value * value,
        How.INCHES: value * 12,
        How.SUMMED: 12 * (value // 12 + value % 12),
    }
    if change.how in simple:
        return simple[change.how]
    if change.how is How.TAKE:
        return values[change.line]
    if change.how is How.DIGITS:
        return swapped_digits(value, place=int(change.number), decimals=change.decimals)
    if change.how is How.FEET_INCHES:
        return feet_and_inches_swapped(value)
    return decimal_feet(value, whole=change.how is How.DECIMAL_WHOLE) * 12
