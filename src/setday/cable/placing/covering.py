"""Fewest places along a line so that no point of it is too far from one of them."""

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Spot", "fewest_spots"]

_PLAY = 1e-6
_OFF_PENALTY = 1e5
"""A spot away from a stud counts for more than any uneven spacing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place that may be taken: how far along the line it is [in], and whether it is second choice."""

    at: float
    second_choice: bool = False


def fewest_spots(spots: Sequence[Spot], *, length: float, reach: float) -> tuple[int, ...] | None:
    """Return which spots to take, as few as can be, and of those the most evenly spread.

    Parameters
    ----------
    spots : sequence of Spot
        In order along the line.
    length : float
        Of the line [in].
    reach : float
        Farthest any point may be from a taken spot [in].

    Returns
    -------
    tuple of int or None
        Places in `spots`; None where even all of them leave a point too far away.

    Examples
    --------
    >>> fewest_spots([Spot(at=10), Spot(at=72), Spot(at=140)], length=144, reach=72)
    (1,)
    """
    count = _least_count(spots, length, reach)
    return None if count is None else _spread(spots, length, reach, count)


def _least_count(spots: Sequence[Spot], length: float, reach: float) -> int | None:
    """Count by taking the farthest spot that still covers the first point left bare."""
    covered, count = 0.0, 0
    while covered < length - _PLAY:
        ahead = [spot.at for spot in spots if covered - reach - _PLAY <= spot.at <= covered + reach + _PLAY]
        if not ahead or max(ahead) + reach <= covered + _PLAY:
            return None
        covered = max(ahead) + reach
        count += 1
    return count


def _spread(spots: Sequence[Spot], length: float, reach: float, count: int) -> tuple[int, ...] | None:
    """Choose `count` spots that cover, nearest to even spacing, by the best way to reach each spot."""
    best: dict[int, tuple[float, tuple[int, ...]]] = {
        n: (_cost(spot, length, count, 0), (n,)) for n, spot in enumerate(spots) if spot.at <= reach + _PLAY
    }
    for rank in range(1, count):
        further: dict[int, tuple[float, tuple[int, ...]]] = {}
        for n, spot in enumerate(spots):
            ways = [
                (cost, taken)
                for m, (cost, taken) in best.items()
                if m < n and spot.at - spots[m].at <= 2 * reach + _PLAY
            ]
            if ways:
                cost, taken = min(ways)
                further[n] = (cost + _cost(spot, length, count, rank), (*taken, n))
        best = further
    ended = [way for n, way in best.items() if length - spots[n].at <= reach + _PLAY]
    return min(ended)[1] if ended else None


def _cost(spot: Spot, length: float, count: int, rank: int) -> float:
    even = length * (2 * rank + 1) / (2 * count)
    return (spot.at - even) ** 2 + (_OFF_PENALTY if spot.second_choice else 0.0)
