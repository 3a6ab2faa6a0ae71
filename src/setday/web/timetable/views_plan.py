"""The timetable in force: pictures first, its tasks beneath, and the ways on."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.web.keeping.models import TimetableRun
from setday.web.timetable.forms import SearchForm
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet

__all__ = ["plan", "plan_words"]

_SHOWN = 20


@require_safe
def plan(request: HttpRequest, key: str) -> HttpResponse:
    """Show the timetable of a house."""
    sheet = timetable_sheet(request, key)
    return render(request, "timetable/plan.html", sheet.context(**plan_words(sheet)))


def plan_words(sheet: TimetableSheet) -> dict[str, object]:
    """Return what the timetable in force shows."""
    runs = TimetableRun.objects.filter(house=sheet.house).order_by("-number")[:_SHOWN]
    return {"form": SearchForm(), "runs": runs}
