"""The tasks that carry the finish: each is given one period less to do, and the same chance is played."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from setday.timetable.odds.arrays import Ints
from setday.timetable.odds.simulation import Simulations

__all__ = ["Carrier", "carriers"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What one period gained on a task would be worth.

    Parameters
    ----------
    task : str
        Key.
    gain : int
        One period of its usual crew [student-minutes].
    earlier, later : float
        Shares of the simulations whose finish comes earlier or later by it.  Later ones are no mistake:
        crews that become free sooner may start on what hinders others.
    periods : float
        Mean of periods gained.
    periods_error : float
        Standard error of `periods`.
    chance : float
        Gain in the chance of making set day.
    chance_error : float
        Standard error of `chance`.
    simulations : int
    """

    task: str
    gain: int
    earlier: float
    later: float
    periods: float
    periods_error: float
    chance: float
    chance_error: float
    simulations: int

    @property
    def carries(self) -> float:
        """How much more often its finish comes earlier than later: how often the task carries it."""
        return max(0.0, self.earlier - self.later)


def carriers(
    ready: Simulations,
    *,
    simulations: int = 200,
    closer: int = 8,
    close: int = 2000,
    on_progress: Callable[[int, int], bool | None] | None = None,
) -> tuple[Carrier, ...]:
    """Return every task that has work, those first that carry the finish most.

    Parameters
    ----------
    ready : Simulations
    simulations : int
        For each task, the same chance for all.
    closer : int
        So many of the first are played again with `close` simulations.
    close : int
    on_progress : callable, optional
        Told (tasks done, tasks in all); answers False to stop and keep what there is.

    Returns
    -------
    tuple of Carrier
    """
    numbers = [n for n in ready.problem.work if ready.problem.tasks[n].work > 0]
    base = ready.finishes(0, max(simulations, close))
    many = len(numbers) + min(closer, len(numbers))
    found: dict[int, Carrier] = {}
    for done, number in enumerate(numbers):
        found[number] = _carrier(ready, number, base[:simulations])
        if on_progress is not None and on_progress(done + 1, many) is False:
            return _in_order(found)
    if close > simulations:
        best = sorted(found, key=lambda n: -found[n].periods)[:closer]
        for done, number in enumerate(best, start=len(numbers)):
            found[number] = _carrier(ready, number, base[:close])
            if on_progress is not None and on_progress(done + 1, many) is False:
                break
    return _in_order(found)


def _carrier(ready: Simulations, number: int, base: Ints) -> Carrier:
    gain = max(1, round(ready.plan.crews[number])) * _usual_minutes(ready)
    changed = ready.finishes(0, len(base), task=number, gain=gain)
    gained = (base - changed).astype(np.float64)
    set_period = ready.set_period - ready.since
    made = (changed <= set_period).astype(np.float64) - (base <= set_period)
    root = math.sqrt(len(base))
    return Carrier(
        task=ready.problem.tasks[number].key,
        gain=gain,
        earlier=float((gained > 0).mean()),
        later=float((gained < 0).mean()),
        periods=float(gained.mean()),
        periods_error=float(gained.std()) / root,
        chance=float(made.mean()),
        chance_error=float(made.std()) / root,
        simulations=len(base),
    )


def _usual_minutes(ready: Simulations) -> int:
    """Return the length of a period as most have it [min]."""
    return int(np.median([period.minutes for period in ready.problem.periods]))


def _in_order(found: dict[int, Carrier]) -> tuple[Carrier, ...]:
    return tuple(found[n] for n in sorted(found, key=lambda n: (-found[n].periods, n)))
