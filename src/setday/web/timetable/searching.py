"""The long work of timetables: a search from a record, a repair, the odds."""

from collections.abc import Callable
from time import perf_counter
from typing import TYPE_CHECKING, Any

from setday.solving import Limits
from setday.web.keeping.models import TimetableRun
from setday.web.timetable.figured import day_of, saved_timetable
from setday.web.timetable.logged import Logged, logged

if TYPE_CHECKING:
    from setday.actions.timetable import Progress, Timetable
    from setday.actions.timetable_problem import ClassDay
    from setday.actions.timetable_standing import Standing

__all__ = ["facts_of", "search", "standing_of"]

_WORKERS = 2

Watch = Callable[["Progress"], bool]


def limits_of(run: TimetableRun) -> Limits:
    """Return how long and with how many threads a run may search."""
    return Limits(
        seconds=float(run.options["seconds"]),
        clock=perf_counter,
        seed=1,
        workers=int(run.options.get("workers", _WORKERS)),
    )


def standing_of(run: TimetableRun) -> "tuple[ClassDay, Standing, Logged]":
    """Return how far the house of a run is: by the timetable it was made from, and the closed periods.

    Raises
    ------
    NoAnswer
        When no timetable can be made, or the log says what cannot be.
    """
    from setday.actions.timetable_standing import standing
    from setday.files import SavedTimetable

    day = day_of(run.version, run.class_file)
    log = logged(run.house, day)
    planned = (
        saved_timetable(run.before)
        if run.before is not None and run.before.document
        else SavedTimetable(house=run.house.name, periods=(), minutes={})
    )
    stand = standing(day, planned, log.periods)
    if stand.since:  # who may do what, and who can be booked, is asked as of the next period
        day = day_of(run.version, run.class_file, since=stand.since)
        stand = standing(day, planned, log.periods)
    return day, stand, log


def search(run: TimetableRun, *, on_progress: Watch) -> dict[str, Any]:
    """Search for a timetable from the next period on; return what is kept of it."""
    from dataclasses import replace

    from setday.actions.timetable import solve_timetable
    from setday.timetable.classwork import Fixed

    day, stand, log = standing_of(run)
    found = solve_timetable(
        replace(day, problem=stand.problem) if stand.since else day,
        limits=limits_of(run),
        fixed=Fixed(happened=stand.happened) if stand.since else None,
        on_progress=on_progress,
    )
    return facts_of(found, left_out=list(log.left_out))


def facts_of(found: "Timetable", **told: object) -> dict[str, Any]:
    """Return what a run keeps of a timetable; what it breaks is asked of the independent check."""
    from setday.actions.timetable_document import timetable_document

    broken = [said for said in found.broken() if said not in found.undone]
    return {
        "document": timetable_document(found),
        "finish": found.finish,
        "bound": found.bound or None,
        "ready": found.ready,
        "earliest": found.day.ready_on(found.bound) if found.bound else None,
        "seconds": found.seconds,
        "told": {"broken": broken, **told},
    }
