"""Chance drawn by number: the same simulation draws the same for the same task, student or day, always.

Compiled.  Each draw is a function of the simulation's key and of what it is for (G. Steele, D. Lea and
C. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014), so threads, changed plans and
longer calendars leave it as it is.
"""

import numpy as np

from setday.solving import compiled_bare
from setday.timetable.odds.arrays import Floats

__all__ = ["AWAY", "LATE", "SHARED", "WEATHER", "WORK", "drawn", "key_of", "uniform"]

WORK, SHARED, LATE, WEATHER, AWAY = (kind << 40 for kind in range(5))
"""Where the draws of each kind begin."""

_STEP = np.uint64(0x9E3779B97F4A7C15)
_FIRST = np.uint64(0xBF58476D1CE4E5B9)
_SECOND = np.uint64(0x94D049BB133111EB)
_SHIFTS = (np.uint64(30), np.uint64(27), np.uint64(31), np.uint64(11))


@compiled_bare
def _mixed(x: np.uint64) -> np.uint64:
    x = (x ^ (x >> _SHIFTS[0])) * _FIRST
    x = (x ^ (x >> _SHIFTS[1])) * _SECOND
    return x ^ (x >> _SHIFTS[2])


@compiled_bare
def key_of(seed: int, simulation: int) -> np.uint64:
    """Return the key of one simulation."""
    return _mixed(_mixed(np.uint64(seed) * _STEP + _FIRST) + np.uint64(simulation) * _STEP)


@compiled_bare
def uniform(key: np.uint64, index: int) -> float:
    """Return the draw number `index` of a simulation, from 0 to below 1."""
    return float(_mixed(key + np.uint64(index) * _STEP) >> _SHIFTS[3]) * (1.0 / 9007199254740992.0)


@compiled_bare
def drawn(spreads: Floats, row: int, chance: float) -> float:
    """Return the value of a row of quantiles that is not exceeded with this chance, between its points."""
    at = chance * (spreads.shape[1] - 1)
    below = int(at)
    low = spreads[row, below]
    return float(low + (at - below) * (spreads[row, below + 1] - low))
