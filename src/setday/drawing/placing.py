"""Finding room for words inside a closed line."""

from collections.abc import Sequence

from setday.drawing.lettering import Box, Taken

__all__ = ["box_in_rings", "free_place", "inside", "upright_inside"]

Ring = Sequence[tuple[float, float]]


def inside(x: float, y: float, *rings: Ring) -> bool:
    """Say whether a point lies inside an odd number of rings."""
    odd = False
    for ring in rings:
        for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
                odd = not odd
    return odd


def box_in_rings(box: Box, *rings: Ring) -> bool:
    """Say whether a box lies wholly inside the outer ring and outside the holes."""
    if not inside((box.left + box.right) / 2, (box.top + box.bottom) / 2, *rings):
        return False
    edges = (pair for ring in rings for pair in zip(ring, (*ring[1:], ring[0]), strict=True))
    return not any(_enters(start, end, box) for start, end in edges)


def _enters(start: tuple[float, float], end: tuple[float, float], box: Box) -> bool:
    """Say whether a straight line passes through the inside of a box, by clipping it to the box."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    first, last = 0.0, 1.0
    for step, near, far in (
        (dx, box.left - start[0], box.right - start[0]),
        (dy, box.top - start[1], box.bottom - start[1]),
    ):
        if abs(step) < 1e-9:
            if near >= 0 or far <= 0:
                return False
            continue
        low, high = sorted((near / step, far / step))
        first, last = max(first, low), min(last, high)
    return first < last


def free_place(
    rings: Sequence[Ring], size: tuple[float, float], taken: Taken, *, margin: float = 1.0, steps: int = 12
) -> Box | None:
    """Take the free box of that size nearest the middle of a shape, or return None.

    Parameters
    ----------
    rings : sequence of rings
        The outer line first, then holes.
    size : tuple of float
        Width and height wanted [drawing units].
    taken : Taken
        Where something stands already; the place found is added.
    margin : float
        Kept free inside the lines.
    steps : int
        How finely places are tried in each direction.
    """
    xs, ys = [x for x, _ in rings[0]], [y for _, y in rings[0]]
    left, top = min(xs), min(ys)
    free_x, free_y = max(xs) - left - size[0], max(ys) - top - size[1]
    if free_x < 0 or free_y < 0:
        return None
    shares = [i / steps for i in range(steps + 1)]
    places = sorted(
        (round(((a - 0.5) * free_x) ** 2 + ((b - 0.5) * free_y) ** 2, 3), a, b)
        for a in shares
        for b in shares
    )
    for _, a, b in places:
        x, y = left + a * free_x, top + b * free_y
        box = Box(x, y, x + size[0], y + size[1])
        if taken.free(box) and box_in_rings(box.grown(margin), *rings):
            taken.take(box)
            return box
    return None


def upright_inside(ring: Ring, *, x: float, low: float, high: float) -> list[tuple[float, float]]:
    """Return the parts of an upright line that lie inside a closed line.

    On an upright edge of the line the inner side counts.

    Examples
    --------
    >>> upright_inside([(0, 0), (4, 0), (4, 2), (2, 4), (0, 2)], x=3, low=0, high=9)
    [(0, 3.0)]
    """
    at = min(max(x, min(px for px, _ in ring) + 1e-6), max(px for px, _ in ring) - 1e-6)
    cuts = sorted(
        round(y0 + (y1 - y0) * (at - x0) / (x1 - x0), 4)
        for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (x0 > at) != (x1 > at)
    )
    kept = ((max(low, a), min(high, b)) for a, b in zip(cuts[::2], cuts[1::2], strict=True))
    return [(a, b) for a, b in kept if b > a]
