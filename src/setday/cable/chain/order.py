"""The order in which a cable reaches the boxes of a circuit: the shortest chain from the panel.

Up to fifteen boxes every order is weighed, set by set (Held and Karp, "A dynamic programming approach to
sequencing problems", 1962); beyond that the chain is a model for CP-SAT, with its bound.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from setday.measure import ZERO, Length
from setday.solving import Limits

__all__ = ["MOST_WEIGHED", "BoxOrder", "chain_length", "order_boxes"]

MOST_WEIGHED = 15
"""Up to so many boxes every order is weighed [count]."""

_NO_WAY = 10**9
"""Stands for the length between two boxes without a way [1/64 in]."""

Between = Callable[[str, str], Length | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxOrder:
    """Boxes in the order the cable reaches them.

    Parameters
    ----------
    boxes : tuple of str
    length : Length
        Of all ways of the chain together, the first from the start.
    bound : Length
        No order comes to less.
    proven : bool
        True when `length` equals `bound`.
    method : str
        In words, for the page and the sheet.
    """

    boxes: tuple[str, ...]
    length: Length
    bound: Length
    proven: bool
    method: str


def order_boxes(start: str, boxes: Sequence[str], *, between: Between, limits: Limits) -> BoxOrder:
    """Return the order of boxes that takes the least cable.

    Parameters
    ----------
    start : str
        Where the chain begins, usually the panel.
    boxes : sequence of str
        Each once.
    between : callable
        Length of the way between two boxes; None without a way.
    limits : Limits
        For more boxes than can be weighed.

    Returns
    -------
    BoxOrder

    Examples
    --------
    >>> at = {"panel": 0, "a": 5, "b": 2, "c": 9}
    >>> order_boxes(
    ...     "panel",
    ...     ["a", "b", "c"],
    ...     between=lambda p, q: Length(abs(at[p] - at[q])),
    ...     limits=Limits(seconds=1, clock=lambda: 0.0),
    ... ).boxes
    ('b', 'a', 'c')
    """
    names = (start, *boxes)
    if len(set(names)) != len(names):
        raise ValueError(f"a box stands twice among {names}")
    table = np.array([[_length(between, p, q) for q in names] for p in names], dtype=np.int64)
    if len(boxes) <= MOST_WEIGHED:
        chain, bound = _weighed(table), None
        method = "every order weighed"
    else:
        from setday.cable.chain.cpsat import shortest_chain

        chain, bound, method = shortest_chain(table, near_chain(table), limits)
    total = sum(int(table[p, q]) for p, q in pairwise([0, *chain]))
    least = total if bound is None else min(bound, total)
    return BoxOrder(
        boxes=tuple(names[n] for n in chain),
        length=Length(total),
        bound=Length(least),
        proven=least == total,
        method=method,
    )


def chain_length(start: str, boxes: Sequence[str], *, between: Between) -> Length:
    """Return the length of a chain of boxes in a given order; stretches without a way count nothing."""
    ways = (between(p, q) for p, q in pairwise((start, *boxes)))
    return sum((way for way in ways if way is not None), ZERO)


def _length(between: Between, p: str, q: str) -> int:
    if p == q:
        return 0
    way = between(p, q)
    return _NO_WAY if way is None else way.sixtyfourths


def _weighed(table: NDArray[np.int64]) -> list[int]:
    """Return the shortest chain from place 0 through all others, by the best way to reach each set."""
    count = len(table) - 1
    if count < 1:
        return []
    step = table[1:, 1:]
    far = np.iinfo(np.int64).max // 4
    best = np.full((1 << count, count), far, dtype=np.int64)
    for n in range(count):
        best[1 << n, n] = table[0, n + 1]
    sets = np.arange(1 << count)
    size = sum((sets >> n) & 1 for n in range(count))
    for many in range(2, count + 1):
        these = sets[size == many]
        for n in range(count):
            with_n = these[(these >> n) & 1 == 1]
            best[with_n, n] = (best[with_n ^ (1 << n)] + step[:, n]).min(axis=1)
    reached, chain = (1 << count) - 1, [int(best[-1].argmin())]
    while reached != 1 << chain[-1]:
        before = reached ^ 1 << chain[-1]
        chain.append(int((best[before] + step[:, chain[-1]]).argmin()))
        reached = before
    return [n + 1 for n in reversed(chain)]


def near_chain(table: NDArray[np.int64]) -> list[int]:
    """Return a good chain: always on to the nearest, then stretches turned round while that helps."""
    left, chain = set(range(1, len(table))), [0]
    while left:
        chain.append(min(sorted(left), key=lambda n: table[chain[-1], n]))
        left.remove(chain[-1])
    better = True
    while better:
        better = False
        for i in range(1, len(chain) - 1):
            for j in range(i + 1, len(chain)):
                turned = chain[:i] + chain[i : j + 1][::-1] + chain[j + 1 :]
                if _total(table, turned) < _total(table, chain):
                    chain, better = turned, True
    return chain[1:]


def _total(table: NDArray[np.int64], chain: Sequence[int]) -> int:
    return sum(int(table[p, q]) for p, q in pairwise(chain))
