"""Timetables from the records: a house and its classes as one problem, and what a search has kept."""

import json
from functools import lru_cache
from threading import Lock
from time import perf_counter
from typing import TYPE_CHECKING

from setday.web.houses.opening import opened
from setday.web.keeping.models import ClassFileVersion, HouseVersion, TimetableRun

if TYPE_CHECKING:
    from setday.actions.timetable.problem import ClassDay
    from setday.actions.timetable.solving import Timetable
    from setday.closein import GateStanding
    from setday.files import SavedTimetable
    from setday.roster import ClassPlan

__all__ = ["day_of", "forget", "plan_of", "saved_timetable", "timetable_of"]

_KEPT = 6
_one_at_a_time = Lock()


def plan_of(kept: ClassFileVersion) -> "ClassPlan":
    """Return the plan of a class file.

    Raises
    ------
    FileProblem
        When it cannot be used any more: an older form, read by a newer Setday.
    """
    return _plan(kept.text, kept.file_name)


@lru_cache(maxsize=_KEPT)
def _plan(text: str, name: str) -> "ClassPlan":
    from setday.actions.classes import usable_plan

    return usable_plan(text, name=name)[0]


def day_of(
    version: HouseVersion,
    kept: ClassFileVersion,
    *,
    since: int = 0,
    gates: "tuple[GateStanding, ...]" = (),
) -> "ClassDay":
    """Return the work of a house put into the periods of its classes.

    Parameters
    ----------
    version : HouseVersion
    kept : ClassFileVersion
    since : int
        Number of periods that are over.
    gates : tuple of GateStanding
        How far the gates of the house are by its records.

    Raises
    ------
    NoAnswer
        With everything that makes a timetable impossible, one sentence a line.
    """
    with _one_at_a_time:
        return _day(version.pk, version.text, kept.text, kept.file_name, since, gates)


@lru_cache(maxsize=_KEPT)
def _day(
    pk: int, _house: str, text: str, name: str, since: int, gates: "tuple[GateStanding, ...]"
) -> "ClassDay":
    from setday.actions.timetable.problem import class_day

    version = HouseVersion.objects.get(pk=pk)
    plan = _plan(text, name)
    return class_day(opened(version), plan, clock=perf_counter, since=since, gates=gates)


def saved_timetable(run: TimetableRun) -> "SavedTimetable":
    """Return what a run has kept, as if it were read from a file."""
    from setday.files import read_timetable

    return read_timetable(json.dumps(run.document).encode(), name=str(run))


def timetable_of(run: TimetableRun) -> "Timetable":
    """Return the timetable that a run has kept, by the files it was made from."""
    ended = run.ended_at.isoformat() if run.ended_at else ""
    return _timetable(run.pk, ended)


@lru_cache(maxsize=_KEPT)
def _timetable(pk: int, _ended: str) -> "Timetable":
    from setday.actions.timetable.solving import Timetable
    from setday.actions.timetable.standing import planned_rows

    run = TimetableRun.objects.select_related("version", "class_file").get(pk=pk)
    kept = run.document
    day = day_of(run.version, run.class_file, since=kept["periods_over"])
    return Timetable(
        day=day,
        rows=planned_rows(day, saved_timetable(run)),
        finish=kept["finish_periods"],
        bound=kept["bound_periods"],
        plain=kept["plain_list_periods"],
        status=kept["status"],
        undone=tuple(kept["left_undone"]),
        idle=kept["idle"],
        seconds=kept["seconds"],
        since=kept["periods_over"],
    )


def forget() -> None:
    """Forget what is kept in memory."""
    for kept in (_plan, _day, _timetable):
        kept.cache_clear()
