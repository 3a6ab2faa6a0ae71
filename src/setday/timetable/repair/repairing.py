"""Repair of a timetable after a period was logged: at once by keeping, then better while there is time."""

from collections.abc import Callable, Sequence

from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Pin
from setday.timetable.repair.nearing import Nearing
from setday.timetable.repair.outcome import Repair
from setday.timetable.repair.plans import Plans

__all__ = ["repair", "repair_at_once"]

Rows = Sequence[Sequence[str]]

_NEAR = 10
"""Periods that are near: two weeks of a class that meets every school day."""


def repair_at_once(
    problem: ClassProblem,
    *,
    happened: Rows,
    old: Rows,
    pins: Sequence[Pin] = (),
    near: int = _NEAR,
    name: Callable[[int], str] | None = None,
) -> Repair:
    """Repair a timetable by a few changes tried, in parts of a second.

    Parameters
    ----------
    problem : ClassProblem
        As it is now: work as it turned out (`carried_on`), material, absences and weather as known.
    happened : rows of the periods that are over, as they were
    old : rows of the timetable that was planned, from the first period of the calendar
    pins : sequence of Pin
    near : int
        How many periods after those that are over are near.
    name : callable, optional
        How a period is called where it is said, as "12 May"; its number otherwise.

    Returns
    -------
    Repair
        Verified.

    Raises
    ------
    NoAnswer
        When what is given does not fit together, or no period is left.
    """
    return Plans(problem, happened, old, pins, near, name).at_once()


def repair(
    problem: ClassProblem,
    *,
    happened: Rows,
    old: Rows,
    limits: Limits,
    pins: Sequence[Pin] = (),
    near: int = _NEAR,
    name: Callable[[int], str] | None = None,
    on_progress: Callable[[Repair], bool | None] | None = None,
) -> Repair:
    """Repair a timetable so that little of it changes and little time is lost.

    What is done stays; what runs goes on with its crew where it can; the rest is planned anew near the old
    plan.  Beside it a timetable is sought from nothing; finishes up to one period later than that are as
    good, and where only that one makes set day, it is taken.

    Parameters
    ----------
    problem, happened, old, pins, near, name
        As for `repair_at_once`.
    limits : Limits
    on_progress : callable, optional
        Told the repair at once, then better ones; answers False to stop and keep the latest.

    Returns
    -------
    Repair

    Raises
    ------
    NoAnswer
        As for `repair_at_once`.
    """
    plans = Plans(problem, happened, old, pins, near, name)
    first = plans.at_once()
    if plans.unchanged or (on_progress is not None and on_progress(first) is False):
        return first
    return Nearing(plans, limits, on_progress).run()
