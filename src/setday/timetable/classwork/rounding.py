"""What whole students need for a task where parts of students would do with less: rows that tighten the flow.

By mixed-integer rounding (L. Wolsey, Integer Programming, 2nd edition, 2020, chapter 8; from memory).
"""

from collections.abc import Collection
from fractions import Fraction

__all__ = ["wholes"]


def wholes(work: int, minutes: Collection[int]) -> list[tuple[dict[int, float], int]]:
    """Return what whole students have to add up to so that they do the work.

    Parameters
    ----------
    work : int
        Student-minutes.
    minutes : collection of int
        Lengths of the periods [min].

    Returns
    -------
    list of (weights, least)
        What a student counts by the length of the period, and the least that all count together.

    Examples
    --------
    >>> wholes(130, [60])
    [({60: 1.0}, 3)]
    """
    found = []
    for unit in sorted(set(minutes)):
        share = Fraction(work, unit)
        rest = share - int(share)
        if rest:
            weights = {
                m: float(m // unit + min(Fraction(1), Fraction(m % unit, unit) / rest)) for m in minutes
            }
            found.append((weights, int(share) + 1))
    return found
