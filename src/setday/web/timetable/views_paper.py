"""What is ahead, and the sheets on paper: bell sheets of a day, the timetable, what is to be ordered."""

from datetime import timedelta
from typing import TYPE_CHECKING

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_safe

from setday.web.file_form import handed_out
from setday.web.houses.opening import opened
from setday.web.period.bells import pictures_of
from setday.web.timetable.figured import plan_of, timetable_of
from setday.web.timetable.gated import gates_standing
from setday.web.timetable.handing import class_of
from setday.web.timetable.material import material_of
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet
from setday.web.timetable.views_period import timetable_at

if TYPE_CHECKING:
    from setday.sheets import Ahead

__all__ = ["ahead", "ahead_pdf", "bells", "calendar", "gates", "pdf"]

_DAYS = 14


@require_safe
def bells(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Hand out the bell sheets of a period: the wall's, the instructor's, one a crew."""
    from setday.actions.bells.sheets import bell_periods, bells_pdf

    sheet = timetable_sheet(request, key)
    timetable = timetable_at(sheet, number)
    meeting = timetable.day.meetings[number]
    pictures = pictures_of(sheet.standing().version, class_of(sheet.house, timetable, meeting), paper=True)
    periods = bell_periods(timetable, meeting.date, pictures=pictures, school_class=meeting.school_class)
    return _pdf(
        bells_pdf(timetable, periods, dated=timezone.localdate()), f"{key}-bells-{meeting.date.isoformat()}"
    )


@require_safe
def ahead(request: HttpRequest, key: str) -> HttpResponse:
    """Show what is to be ordered, delivered and booked in the next two weeks, and what is late."""
    sheet = timetable_sheet(request, key)
    listed = _ahead(sheet)
    return render(request, "timetable/ahead.html", sheet.context(ahead=listed))


@require_safe
def ahead_pdf(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out what is ahead, with the pictures of the timetable."""
    from setday.actions.timetable.sheets import ahead_pdf as on_paper

    sheet = timetable_sheet(request, key)
    timetable = timetable_of(sheet.standing())
    return _pdf(on_paper(timetable, _ahead(sheet), dated=timezone.localdate()), f"{key}-ahead")


def _ahead(sheet: TimetableSheet) -> "Ahead":
    from setday.actions.timetable.ahead import ahead_of, ahead_rows

    run = sheet.standing()
    timetable = timetable_of(run)
    meetings = timetable.day.meetings
    since = meetings[min(timetable.since, len(meetings) - 1)].date
    until = since + timedelta(days=_DAYS)
    found = ahead_of(
        timetable,
        since=since,
        until=until,
        local=opened(run.version).local,
        material=material_of(run.version),
    )
    return ahead_rows(found, since=since, until=until)


@require_safe
def pdf(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Hand out the pictures and lists of a timetable."""
    from setday.actions.timetable.sheets import timetable_pdf

    sheet = timetable_sheet(request, key)
    run = sheet.run(number)
    if not run.is_timetable:
        raise Http404
    name = f"{key}-timetable-{number}"
    return _pdf(timetable_pdf(timetable_of(run), dated=timezone.localdate()), name)


@require_safe
def gates(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the gates as they stand on record, for `setday timetable --gates`."""
    from setday.files import write_gates

    sheet = timetable_sheet(request, key)
    version = sheet.house_sheet.version
    text = write_gates(gates_standing(sheet.house, version), house=sheet.house.name)
    return handed_out(text, name=f"{key}-gates.yaml", kind="application/yaml")


@require_safe
def calendar(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the meetings, days off, guests and set day as a calendar file (iCalendar, RFC 5545)."""
    from setday.files import write_calendar
    from setday.roster import meetings

    sheet = timetable_sheet(request, key)
    if sheet.class_file is None:
        raise Http404
    plan = plan_of(sheet.class_file)
    listed = meetings(plan.calendar, plan.classes)
    data = write_calendar(plan, listed, stamp=timezone.localtime())
    response = HttpResponse(data, content_type="text/calendar; charset=utf-8")
    response.headers["Content-Disposition"] = content_disposition_header(True, f"{key}-class.ics")
    return response


def _pdf(data: bytes, name: str) -> HttpResponse:
    response = HttpResponse(data, content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(False, f"{name}.pdf")
    return response
