"""One period of the timetable: its crews, who is left over, and handing it to the class."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.errors import SetdayError
from setday.web.period.watching import watch_row
from setday.web.timetable.figured import timetable_of
from setday.web.timetable.handing import hand_over, period_there
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet
from setday.web.timetable.shown import period_rows

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Crew, Timetable

__all__ = ["crew_rows", "hand", "meeting_page", "period"]


@require_safe
def period(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show who does what in one period."""
    sheet = timetable_sheet(request, key)
    timetable = timetable_at(sheet, number)
    return render(request, "timetable/period.html", sheet.context(**meeting_page(sheet, timetable, number)))


def timetable_at(sheet: TimetableSheet, number: int) -> "Timetable":
    """Return the timetable in force, where it has a period of that number."""
    timetable = timetable_of(sheet.standing())
    if number >= len(timetable.rows):
        raise Http404
    return timetable


def meeting_page(sheet: TimetableSheet, timetable: "Timetable", number: int) -> dict[str, Any]:
    """Return what the page of one period shows."""
    day = timetable.day
    meeting = day.meetings[number]
    busy = {key for crew in timetable.crews[number] for key in crew.students}
    present = day.problem.periods[number].present
    last = len(timetable.rows) - 1
    return {
        "meeting": meeting,
        "row": period_rows(timetable)[number],
        "number": number,
        "crews": crew_rows(timetable, number),
        "watch": _watched(timetable, number) if sheet.names else [],
        "absent": [day.names[key] for key in sorted(meeting.absent)],
        "without": [day.names[key] for key in sorted(present - busy)],
        "over": number < timetable.since,
        "before": number - 1 if number else None,
        "after": number + 1 if number < last else None,
        "there": period_there(sheet.house, timetable, meeting) if sheet.names else None,
    }


def crew_rows(timetable: "Timetable", number: int) -> list[dict[str, Any]]:
    """Return the crews of a period: what, where, who, and with how much of the instructor's attention."""
    return [_crew(timetable, crew) for crew in timetable.crews[number]]


def _watched(timetable: "Timetable", number: int) -> list[dict[str, Any]]:
    """Return who needs watching, and when, the crew that takes most attention first."""
    from setday.timetable.tasks import kinds_of_work

    day, rows = timetable.day, []
    for crew in timetable.crews[number]:
        work = day.works.get(crew.work)
        if work is not None and not work.filler:
            who, kind = [day.names[key] for key in crew.students], kinds_of_work()[work.kind]
            rows.append(
                watch_row(crew.number, work.label, work.place, who, work.attention, kind, guest=work.guest)
            )
    return sorted(rows, key=lambda row: (-row["tenths"], row["number"]))


def _crew(timetable: "Timetable", crew: "Crew") -> dict[str, Any]:
    work = timetable.day.works.get(crew.work)
    task = timetable.day.problem.tasks[timetable.day.problem.number[crew.work]]
    return {
        "number": crew.number,
        "key": crew.work,
        "what": task.label,
        "where": task.place,
        "trade": task.trade,
        "who": [timetable.day.names[key] for key in crew.students],
        "many": len(crew.students),
        "tenths": task.attention,
        "signoffs": ", ".join(work.signoffs) if work else "",
        "guest": work.guest if work else "",
    }


@require_POST
def hand(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Hand a period of the timetable to the class."""
    sheet = timetable_sheet(request, key)
    timetable = timetable_at(sheet, number)
    try:
        handed = hand_over(sheet.house, timetable, timetable.day.meetings[number])
    except SetdayError as error:
        messages.error(request, str(error))
        return redirect("timetable:period", key=key, number=number)
    messages.success(request, _("The crews of the period are written."))
    for words in handed.left_out:
        messages.warning(request, words)
    return redirect("period:sheet", number=handed.period.pk)
