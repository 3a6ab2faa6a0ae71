"""What the sheets of a timetable show: when all is done, pictures, tables, its periods, the searches."""

from typing import TYPE_CHECKING, Any

from setday.errors import SetdayError
from setday.web.keeping.models import TimetableRun
from setday.web.timetable.figured import timetable_of
from setday.web.timetable.forms import SearchForm
from setday.web.timetable.gated import held_boards
from setday.web.timetable.pictures import next_drawings, places_drawings, tasks_drawings
from setday.web.timetable.sheet import TimetableSheet

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Timetable

__all__ = ["period_rows", "shown"]

_RUNS = 12
_COMING = 10
"""Periods listed at once; all of them are folded beneath."""
_TENTHS = 10


def shown(sheet: TimetableSheet, run: TimetableRun | None) -> dict[str, Any]:
    """Return what the sheet of a timetable shows.

    Parameters
    ----------
    sheet : TimetableSheet
    run : TimetableRun or None
        None before the first timetable.
    """
    runs = TimetableRun.objects.filter(house=sheet.house).order_by("-number")[:_RUNS]
    words: dict[str, Any] = {"form": SearchForm(), "runs": runs, "run": run, "told": run.told if run else {}}
    if run is None:
        return words
    try:
        timetable = timetable_of(run)
    except SetdayError as error:  # its files are read anew, and rules may have changed since
        return {**words, "unreadable": str(error)}
    return {**words, **_pictured(sheet, timetable), **_files(sheet, run), **_gates(sheet, run)}


def _pictured(sheet: TimetableSheet, timetable: "Timetable") -> dict[str, Any]:
    from setday.actions.timetable.pictures import tasks_table
    from setday.actions.timetable.sheets import hours_table

    periods = period_rows(timetable)
    return {
        "timetable": timetable,
        "set_day": timetable.day.plan.calendar.set_day,
        "late_days": -(timetable.margin_days or 0),
        "earliest": timetable.day.ready_on(timetable.bound) if timetable.bound else None,
        "gap": max(0, timetable.finish - timetable.bound) if timetable.bound else None,
        "pictures": tasks_drawings(timetable),
        "places": places_drawings(timetable),
        "near": next_drawings(timetable),
        "tasks": tasks_table(timetable),
        "hours": hours_table(timetable) if sheet.names else None,
        "periods": periods,
        "coming": periods[timetable.since : timetable.since + _COMING],
        "next": min(timetable.since, len(timetable.rows) - 1),
        "findings": timetable.day.findings if sheet.changes else (),
    }


def _files(sheet: TimetableSheet, run: TimetableRun) -> dict[str, Any]:
    """Return whether the files it was made from are still in force."""
    class_file = sheet.class_file
    return {
        "house_changed": run.version_id != sheet.house_sheet.version.pk,
        "class_changed": class_file is not None and run.class_file_id != class_file.pk,
    }


def _gates(sheet: TimetableSheet, run: TimetableRun) -> dict[str, Any]:
    """Return which gates hold what until when; of the timetable in force alone."""
    if sheet.kept is None or sheet.kept.pk != run.pk:
        return {}
    try:
        held = held_boards(run)
    except SetdayError as error:  # the files have changed since it was made
        return {"gates_unread": str(error)}
    return {"held_boards": held, "boards_too_early": any(each.too_early for each in held)}


def period_rows(timetable: "Timetable") -> list[dict[str, Any]]:
    """Return a line for each period that has work or people: crews, attention, who is left over."""
    day = timetable.day
    groups = {group.key: group.name for group in day.plan.classes}
    rows = []
    for meeting, crews in zip(day.meetings, timetable.crews, strict=False):
        busy = {key for crew in crews for key in crew.students}
        eyes = sum(day.works[crew.work].attention for crew in crews if crew.work in day.works)
        rows.append(
            {
                "meeting": meeting,
                "number": meeting.number,
                "class": groups.get(meeting.school_class, meeting.school_class),
                "crews": len(crews),
                "works": [day.works[crew.work].label for crew in crews if crew.work in day.works],
                "eyes": eyes / _TENTHS,
                "eyes_there": meeting.attention / _TENTHS,
                "without": len(day.problem.periods[meeting.number].present - busy),
                "over": meeting.number < timetable.since,
            }
        )
    return rows
