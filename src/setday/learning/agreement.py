"""How well a number that was written agrees with one that was worked out."""

from dataclasses import dataclass
from math import exp, log

from setday.learning.tree import Line

__all__ = ["Written", "agreement", "by_chance", "means_the_same"]

_EXACT, _CUT_OFF = 0.86, 0.07
"""Of numbers rightly worked out so many are rounded, so many cut off; the rest is loosely rounded."""
_LOOSE = 0.0006
"""A loosely rounded number is off by about this share of itself."""
_TAPE_IN = 0.5
"""A tape read so far off is still a tape read right [in]; the carpenter's tolerance, common practice."""
_TAPE_NEAR_IN = 0.125
"""Half of all readings are so near [in]; our own choice."""
_WIDTH = 0.35
"""Wrong numbers spread about the right one by about this, in logarithms; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A number a student wrote for a line.

    Parameters
    ----------
    line : str
        Key of the line.
    value : float
        In the line's unit.
    step : float
        What the last written digit counts.
    worked : float or None
        What the arithmetic beside it comes to when done again, in the line's unit.
    """

    line: str
    value: float
    step: float
    worked: float | None = None


def agreement(value: float, *, step: float, right: float, line: Line, loose: float = 1.0) -> float:
    """Return how likely this number is written where `right` was meant.

    Parameters
    ----------
    value : float
        As written.
    step : float
        What its last digit counts.
    right : float
        What was meant.
    line : Line
        A measure may be off as far as tapes are; a count of pieces not at all.
    loose : float
        More where earlier lines were rounded, too, and are not at hand.
    """
    off = abs(value - right)
    if line.measured is not None:
        near = 0.5 / (2 * _TAPE_NEAR_IN) if off <= _TAPE_NEAR_IN else 0.0
        return min(1.0, step * (near + 0.4 / (2 * _TAPE_IN))) if off <= _TAPE_IN else 0.0
    if line.decimals == 0:
        return _EXACT if off <= step / 2 + 1e-9 else 0.0
    scale = max(step * 0.6, _LOOSE * abs(right)) * loose
    tail = (1 - _EXACT - _CUT_OFF) * loose * min(1.0, step / (2 * scale)) * exp(-off / scale)
    if off <= step / 2 + 1e-6 * max(1.0, step):
        return _EXACT + tail
    return (_CUT_OFF if off < step else 0.0) + tail


def by_chance(value: float, *, step: float, right: float) -> float:
    """Return how likely a number is written by somebody who went wrong in a way nobody knows.

    Parameters
    ----------
    value, step : float
    right : float
        Wrong numbers are more often near the right one.
    """
    if value <= 0 or right <= 0:
        return min(0.02, step * 0.02)
    spread = exp(-abs(log(value / right)) / _WIDTH) / (2 * _WIDTH * value)
    return min(0.5, step * spread + 1e-9)


def means_the_same(written: Written, right: float, line: Line) -> bool:
    """Tell whether what was written is what was meant, rounded or cut off.

    Parameters
    ----------
    written : Written
    right : float
    line : Line
    """
    off = abs(written.value - right)
    if line.measured is not None:
        return off <= _TAPE_IN
    if line.decimals == 0:
        return off <= written.step / 2 + 1e-9
    return off < max(0.999 * written.step, 2 * _LOOSE * abs(right)) + 1e-9
