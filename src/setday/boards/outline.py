"""Outlines on the grid of sixty-fourths: moved, cut and lowered, always inward."""

from collections.abc import Iterable
from fractions import Fraction
from math import floor, isqrt

from setday.boards.problem import Corner

__all__ = [
    "Ring",
    "bounds",
    "clipped",
    "lengthened",
    "lowered",
    "rectangle",
    "shifted",
    "slant",
    "without_doubles",
]

Ring = tuple[Corner, ...]
"""Corners of a closed line, counter-clockwise [1/64 in]."""


def bounds(ring: Ring) -> tuple[int, int, int, int]:
    """Return left, bottom, right and top of the box around a ring."""
    return (
        min(x for x, _ in ring),
        min(y for _, y in ring),
        max(x for x, _ in ring),
        max(y for _, y in ring),
    )


def rectangle(left: int, bottom: int, right: int, top: int) -> Ring:
    """Return the ring of a rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def shifted(ring: Ring, dx: int, dy: int) -> Ring:
    """Return the ring moved by (dx, dy)."""
    return tuple((x + dx, y + dy) for x, y in ring)


def lowered(ring: Ring, drop: int) -> Ring:
    """Return the ring with every edge that looks up lowered by `drop`.

    In a counter-clockwise ring those are the edges that run to the left.
    """
    after = (*ring[1:], ring[0])
    before = (ring[-1], *ring[:-1])
    return tuple(
        (x, y - drop) if nxt[0] < x or x < prv[0] else (x, y)
        for prv, (x, y), nxt in zip(before, ring, after, strict=True)
    )


def lengthened(ring: Ring, left: int, right: int) -> Ring:
    """Return the ring with its leftmost and rightmost corners moved outward by `left` and `right`."""
    low, _, high, _ = bounds(ring)
    return tuple((x - left if x == low else x + right if x == high else x, y) for x, y in ring)


def clipped(ring: Ring, box: tuple[int, int, int, int]) -> Ring:
    """Return the part of the ring inside a box (left, bottom, right, top); empty where nothing is left.

    New corners on a slope are rounded down, so that a board cut to the ring is never too high.
    """
    for axis, limit, keep_above in (
        (0, box[0], True),
        (1, box[1], True),
        (0, box[2], False),
        (1, box[3], False),
    ):
        ring = _half(ring, axis=axis, limit=limit, keep_above=keep_above)
    tidy = without_doubles(ring)
    return tidy if len(tidy) > 2 else ()


def _half(ring: Ring, *, axis: int, limit: int, keep_above: bool) -> Ring:
    def inside(corner: Corner) -> bool:
        return corner[axis] >= limit if keep_above else corner[axis] <= limit

    kept: list[Corner] = []
    for here, after in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        if inside(here):
            kept.append(here)
        if inside(here) != inside(after):
            kept.append(_crossing(here, after, axis, limit))
    return tuple(kept)


def _crossing(a: Corner, b: Corner, axis: int, limit: int) -> Corner:
    other = 1 - axis
    share = Fraction(limit - a[axis], b[axis] - a[axis])
    at = floor(a[other] + share * (b[other] - a[other]))
    return (limit, at) if axis == 0 else (at, limit)


def without_doubles(ring: Iterable[Corner]) -> Ring:
    """Return the ring without doubled corners and without corners on a straight edge."""
    corners = list(dict.fromkeys(ring))
    kept = []
    for n, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = corners[n - 1], corners[(n + 1) % len(corners)]
        if (x - ax) * (by - y) != (y - ay) * (bx - x):
            kept.append((x, y))
    return tuple(kept)


def slant(thickness: int, rise: int) -> int:
    """Return how far a sloped layer reaches downward, measured plumb, rounded up [1/64 in].

    Parameters
    ----------
    thickness : int
        Of the layer, square to the slope [1/64 in].
    rise : int
        Rise of the slope over 12 in of run [1/64 in].

    Examples
    --------
    >>> slant(32, 0), slant(32, 12 * 64)
    (32, 46)
    """
    run = 12 * 64
    square = thickness**2 * (run**2 + rise**2)
    root = isqrt(square)
    root += root * root < square
    return -(-root // run)
