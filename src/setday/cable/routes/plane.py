"""The open framing over the ceilings, or under the floor, as a net of lines that ways may follow.

The lines run with the house's two directions through every place a way may come from: in between them
nothing is gained, since a way along two directions is as long whatever the order of its legs.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.cable.routes.levels import NOWHERE, Levels

__all__ = ["Box", "Plane", "plane"]

Box = tuple[int, int, int, int]
"""West, south, east and north edges of something no way crosses [1/64 in]."""

Whole = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A net of lines on the plan.

    Parameters
    ----------
    xs, ys : array of int
        Where the lines run [1/64 in].
    up : array of int
        Level of every crossing, by x then y.
    there : array of bool
        Whether the crossing lies in the house.
    east, north : array of int
        Length of the step to the next crossing that way; below nothing where there is none.
    levels : tuple of arrays of int
        Level at which the step to the east begins, and ends, and the step to the north: framing that lies
        higher or lower than a crossing is climbed to.
    """

    xs: Whole
    ys: Whole
    up: Whole
    there: NDArray[np.bool_]
    east: Whole
    north: Whole
    levels: tuple[Whole, Whole, Whole, Whole]

    @property
    def count(self) -> int:
        """Number of crossings."""
        return self.up.size

    def number(self, x: int, y: int) -> int | None:
        """Return the number of the crossing at a plan point; None where there is none."""
        i, j = int(np.searchsorted(self.xs, x)), int(np.searchsorted(self.ys, y))
        if i >= len(self.xs) or j >= len(self.ys) or self.xs[i] != x or self.ys[j] != y:
            return None
        return i * len(self.ys) + j if self.there[i, j] else None

    def point(self, number: int) -> tuple[int, int, int]:
        """Return plan point and level of a crossing."""
        i, j = divmod(number, len(self.ys))
        return int(self.xs[i]), int(self.ys[j]), int(self.up[i, j])

    def steps(self) -> tuple[Whole, Whole, Whole]:
        """Return every step: from, to, length."""
        numbers = np.arange(self.count).reshape(self.up.shape)
        to_east, to_north = self.east >= 0, self.north >= 0
        return (
            np.concatenate([numbers[:-1, :][to_east], numbers[:, :-1][to_north]]),
            np.concatenate([numbers[1:, :][to_east], numbers[:, 1:][to_north]]),
            np.concatenate([self.east[to_east], self.north[to_north]]),
        )

    def climbs(self, a: int, b: int) -> tuple[int, int]:
        """Return the levels at which the step between two crossings side by side begins and ends."""
        (i, j), (k, _) = sorted((divmod(a, len(self.ys)), divmod(b, len(self.ys))))
        low, high = self.levels[:2] if k > i else self.levels[2:]
        ends = (int(low[i, j]), int(high[i, j]))
        return ends if a < b else ends[::-1]

    def step(self, a: int, b: int) -> int:
        """Return the length of the step between two crossings side by side [1/64 in]."""
        (i, j), (k, _) = sorted((divmod(a, len(self.ys)), divmod(b, len(self.ys))))
        return int(self.east[i, j] if k > i else self.north[i, j])

    def bend(self, first: int, last: int, *, east_first: bool) -> tuple[list[int], int] | None:
        """Return the crossings of a way with one bend and its length; None where something bars it."""
        i, j = divmod(first, len(self.ys))
        k, m = divmod(last, len(self.ys))
        row, column = (j, k) if east_first else (m, i)
        level = self.east[min(i, k) : max(i, k), row]
        across = self.north[column, min(j, m) : max(j, m)]
        if (level < 0).any() or (across < 0).any():
            return None
        wide = len(self.ys)
        to_east = [n * wide + row for n in _between(i, k)]
        to_north = [column * wide + n for n in _between(j, m)]
        legs = [*to_east, *to_north] if east_first else [*to_north, *to_east]
        return list(dict.fromkeys([first, *legs, last])), int(level.sum() + across.sum())


def plane(
    places: Iterable[tuple[int, int]],
    lines: tuple[Iterable[int], Iterable[int]],
    levels: Levels,
    boxes: Sequence[Box],
    *,
    flat: int | None,
) -> Plane:
    """Return the net through so many places.

    Parameters
    ----------
    places : iterable of (int, int)
        Plan points that ways come from [1/64 in].
    lines : (iterable of int, iterable of int)
        Further lines wanted, by x and by y: edges, ridges, the walls' middles.
    levels : Levels
    boxes : sequence of Box
        What no way crosses.
    flat : int or None
        One level for all of it, under the floor; None follows the ceilings and the tops of the walls.
    """
    points = list(places)
    edges_x = [edge for box in boxes for edge in (box[0], box[2])]
    edges_y = [edge for box in boxes for edge in (box[1], box[3])]
    xs = np.unique(np.array([*(x for x, _ in points), *lines[0], *edges_x], dtype=np.int64))
    ys = np.unique(np.array([*(y for _, y in points), *lines[1], *edges_y], dtype=np.int64))
    grid_x, grid_y = (a.astype(float) for a in np.meshgrid(xs, ys, indexing="ij"))
    owner = levels.owners(grid_x, grid_y)
    up = levels.height(owner, grid_x, grid_y) if flat is None else np.full(grid_x.shape, float(flat))
    here = _Here(grid_x, grid_y, owner, up, levels, boxes, level=flat is not None)
    east, *east_levels = here.steps(0)
    north, *north_levels = here.steps(1)
    return Plane(
        xs=xs,
        ys=ys,
        up=np.rint(up).astype(np.int64),
        there=owner != NOWHERE,
        east=east,
        north=north,
        levels=(east_levels[0], east_levels[1], north_levels[0], north_levels[1]),
    )


def _between(a: int, b: int) -> range:
    return range(a, b + 1) if b >= a else range(a, b - 1, -1)


@dataclass(frozen=True)
class _Here:
    """Crossings with their owners and levels, to be joined by steps."""

    x: NDArray[np.float64]
    y: NDArray[np.float64]
    owner: Whole
    up: NDArray[np.float64]
    levels: Levels
    boxes: Sequence[Box]
    level: bool

    def steps(self, axis: int) -> tuple[Whole, Whole, Whole]:
        """Return the length of every step along an axis, the climbs at both ends in it, and both levels."""
        ends = [slice(None, -1), slice(1, None)]
        cut = [tuple(end if n == axis else slice(None) for n in (0, 1)) for end in ends]
        (ax, bx), (ay, by) = ((grid[cut[0]], grid[cut[1]]) for grid in (self.x, self.y))
        middle_x, middle_y = (ax + bx) / 2, (ay + by) / 2
        between = self.levels.owners(middle_x, middle_y)
        apart = np.abs(bx - ax) + np.abs(by - ay)
        low, high = self.up[cut[0]], self.up[cut[1]]
        if not self.level:
            low = self.levels.height(between, ax, ay)
            high = self.levels.height(between, bx, by)
        climbs = np.abs(self.up[cut[0]] - low) + np.abs(self.up[cut[1]] - high)
        length = np.hypot(apart, high - low) + climbs
        barred = (between == NOWHERE) | (self.owner[cut[0]] == NOWHERE) | (self.owner[cut[1]] == NOWHERE)
        for west, south, east, north in self.boxes:
            barred |= (west < middle_x) & (middle_x < east) & (south < middle_y) & (middle_y < north)
        return _whole(np.where(barred, -1, length)), _whole(low), _whole(high)


def _whole(lengths: NDArray[np.float64]) -> Whole:
    return np.rint(lengths).astype(np.int64)
