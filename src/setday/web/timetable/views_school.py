"""A school's calendar looked through: what it would mean for the class, ticked and taken in."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.web.file_form import as_text
from setday.web.keeping.class_files import add_class_file
from setday.web.keeping.models import ClassFileVersion
from setday.web.timetable.figured import plan_of
from setday.web.timetable.forms import LARGEST_CALENDAR, SchoolCalendarForm
from setday.web.timetable.sheet import timetable_sheet

if TYPE_CHECKING:
    from setday.files import SchoolCalendarFile

__all__ = ["school"]


@require_http_methods(["GET", "HEAD", "POST"])
def school(request: HttpRequest, key: str) -> HttpResponse:
    """Take a school's calendar file, list what it would mean, take in what is ticked."""
    sheet = timetable_sheet(request, key)
    if sheet.class_file is None:
        messages.error(request, _("Bring in a class file first."))
        return redirect("timetable:edit", key=key)
    page = "timetable/school.html"
    if request.method != "POST":
        return render(request, page, sheet.context(form=SchoolCalendarForm()))
    text = request.POST.get("calendar", "")
    if text and len(text) <= LARGEST_CALENDAR:
        return _take(request, key, sheet.class_file, text)
    form = SchoolCalendarForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, page, sheet.context(form=form), status=422)
    text = as_text(form.cleaned_data["file"].read())
    read = _read(sheet.class_file, text)
    return render(request, page, sheet.context(form=SchoolCalendarForm(), **_words(read, text)))


def _read(kept: ClassFileVersion, text: str) -> "SchoolCalendarFile":
    from setday.files import read_school_calendar
    from setday.roster import Stretch

    calendar = plan_of(kept).calendar
    within = Stretch(first=calendar.first_day, last=calendar.set_day)
    return read_school_calendar(text, name="calendar.ics", within=within, zone=calendar.zone)


def _words(read: "SchoolCalendarFile", text: str) -> dict[str, Any]:
    from setday.files import ProposalKind

    return {
        "calendar": text,
        "proposals": [
            {"number": number, "proposal": each}
            for number, each in enumerate(read.proposals)
            if each.kind is not ProposalKind.OTHER
        ],
        "others": sum(each.kind is ProposalKind.OTHER for each in read.proposals),
        "findings": read.findings,
    }


def _take(request: HttpRequest, key: str, kept: ClassFileVersion, text: str) -> HttpResponse:
    from setday.files import take_in_proposals

    read = _read(kept, text)
    ticked = set(request.POST.getlist("take"))
    accepted = [each for number, each in enumerate(read.proposals) if str(number) in ticked]
    try:
        changed = take_in_proposals(kept.text, accepted)
    except SetdayError as error:
        messages.error(request, str(error))
        return redirect("timetable:school", key=key)
    note = _("%(count)d taken from the school's calendar") % {"count": len(accepted)}
    made = add_class_file(kept.house, file_name=kept.file_name, text=changed, note=note)
    messages.success(request, _("Kept as version %(number)d.") % {"number": made.number})
    return redirect("timetable:file", key=key)
