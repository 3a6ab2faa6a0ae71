"""From the old timetable towards an earlier finish, and from one planned from nothing towards the old one.

Two searches run side by side: a timetable from nothing, which shows what finish is possible, and small
changes of the old plan.  From the better of both the crews are then brought nearer to the old ones.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from setday.solving import Limits
from setday.timetable.odds import ends_of
from setday.timetable.repair.naming import crews_of, named, trimmed
from setday.timetable.repair.nothing import SHARE, FromNothing
from setday.timetable.repair.outcome import Repair
from setday.timetable.repair.plans import Plans
from setday.timetable.repair.prices import Prices

__all__ = ["Nearing"]

Ints = NDArray[np.int32]
OnProgress = Callable[[Repair], bool | None]

_STEPS = ((0.65, 0), (1.0, Prices.WAITING))
"""Shares of the time left, and what a period of waiting counts: begins first, with tasks that may wait; then
fewer waits.  Asked for at once, the search finds neither."""
_PAUSE = 0.5
"""Least time between two tellings of progress [s]."""


class Nearing:
    """The search for a repair that finishes in time and changes little.

    Parameters
    ----------
    plans : Plans
    limits : Limits
    on_progress : callable or None
        Told the best repair so far, at most twice a second; answers False to stop.
    """

    def __init__(self, plans: Plans, limits: Limits, on_progress: OnProgress | None) -> None:
        self.plans, self.limits, self.on_progress = plans, limits, on_progress
        self.deadline = limits.start()
        self.told, self.goes_on = limits.clock(), True

    def run(self) -> Repair:
        """Return the best repair found in the time."""
        plans = self.plans
        found = [plans.at_once(), *self._begun()]
        best = self._best(found)
        if self.goes_on and best.finish <= len(plans.problem.periods):
            found.append(self._nearer(best))
        best = self._best(found)
        in_time = [one for one in found if one.finish <= plans.problem.set_period and not one.broken]
        if in_time and best.finish > plans.problem.set_period:
            best = min(in_time, key=plans.price)
        return replace(best, possible=min(one.finish for one in found))

    def _best(self, found: list[Repair]) -> Repair:
        """Return the best, the earliest finish of them all being possible."""
        whole = [one.finish for one in found if not one.broken]
        if whole:
            self.plans.allow(min(whole) - self.plans.since)
        return min(found, key=self.plans.price)

    def _begun(self) -> list[Repair]:
        """Return the old plan changed a little, and a timetable from nothing where there is a whole one."""
        plans, number = self.plans, 0
        beside = FromNothing(plans.rest, plans.since, plans.pins, self.limits)
        beside.start()
        while beside.is_alive() and self.goes_on:
            if self.limits.workers == 1:
                beside.join(_PAUSE)
            else:
                number += 1
                part = self.deadline.spent / max(SHARE * self.limits.seconds, 1e-9)
                plans.spell(1000 * self.limits.seed + number, part)
                plans.allow(beside.finish)
            self._tell(plans.at_once)
        beside.stopped = not self.goes_on
        beside.join()
        found = [plans.at_once()]
        if beside.rows:
            found.append(plans.told(beside.rows, beside.finish))
        return found

    def _nearer(self, best: Repair) -> Repair:
        """Return a repair that costs less than `best`, or `best`."""
        from setday.timetable.repair.cpsat import nearer  # loads slowly

        plans = self.plans
        hint = trimmed(crews_of(self._on(best), len(plans.work)), plans.arrays, plans.work, plans.kept)
        latest, found = hint, best

        def follow(crews: Ints) -> bool:
            nonlocal latest, found
            if not np.array_equal(crews, latest):
                latest, found = crews, self._filled(crews, found)
            return self._tell(lambda: found)

        crews, finish = hint, best.finish - plans.since
        for share, waiting in _STEPS:
            prices = plans.prices(waiting=waiting)
            limits = replace(self.limits, seconds=share * self.deadline.left)
            if self.goes_on:
                crews = nearer(plans.crews, crews, finish, prices=prices, limits=limits, on_better=follow)
        return self._filled(crews, found)

    def _on(self, made: Repair) -> Ints:
        """Return the number of the task or -1 by period and student."""
        plans = self.plans
        on = np.full_like(plans.kept.old, -1)
        for period, row in enumerate(made.rows[plans.since :]):
            on[period] = [plans.rest.number.get(key, -1) for key in row]
        return on

    def _filled(self, crews: Ints, found: Repair) -> Repair:
        """Return the repair with these crews and names for them, if it costs less than `found`."""
        plans = self.plans
        crews = trimmed(crews, plans.arrays, plans.work, plans.kept)
        on = named(crews, plans.arrays, plans.kept, plans.near)
        if on is None:
            return found
        keys = [task.key for task in plans.rest.tasks]
        made = [[keys[n] if n >= 0 else "" for n in row] for row in on.tolist()]
        made += [[""] * len(row) for row in plans.kept.old[len(made) :]]
        ends = ends_of(plans.rest, made)
        if any(keys[n] not in ends for n in plans.rest.work):
            return found
        finish = 1 + max((ends[keys[n]] for n in plans.rest.work), default=-1)
        return min(found, plans.told(made[:finish], finish), key=plans.price)

    def _tell(self, found: Callable[[], Repair]) -> bool:
        """Tell progress now and then; return whether to go on."""
        if self.on_progress is not None and self.goes_on and self.limits.clock() - self.told >= _PAUSE:
            self.goes_on = self.on_progress(found()) is not False
            self.told = self.limits.clock()
        return self.goes_on
