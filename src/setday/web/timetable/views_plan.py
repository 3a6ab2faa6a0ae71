"""The timetable in force: pictures first, its tasks beneath, and the ways on."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.timetable.sheet import timetable_sheet
from setday.web.timetable.shown import shown

__all__ = ["plan", "undo"]


@require_safe
def plan(request: HttpRequest, key: str) -> HttpResponse:
    """Show the timetable of a house."""
    sheet = timetable_sheet(request, key)
    return render(request, "timetable/plan.html", sheet.context(**shown(sheet, sheet.kept)))


@require_POST
def undo(request: HttpRequest, key: str) -> HttpResponse:
    """Put the timetable in force back, so that the one before it is in force again; or take that back."""
    sheet = timetable_sheet(request, key)
    number = request.POST.get("number", "")
    kept = sheet.kept
    if request.POST.get("do") == "again":
        back = sheet.run(int(number)) if number.isdecimal() and len(number) < 9 else None
        if back is not None and back.put_back:
            back.put_back = False
            back.save(update_fields=["put_back"])
            messages.success(request, _("Timetable %(number)d counts again.") % {"number": back.number})
        return redirect("timetable:plan", key=key)
    if kept is None or str(kept.number) != number:
        messages.error(request, _("Another timetable is in force since. Look at it first."))
        return redirect("timetable:plan", key=key)
    kept.put_back = True
    kept.save(update_fields=["put_back"])
    messages.success(request, _("Timetable %(number)d is put back.") % {"number": kept.number})
    return redirect("timetable:plan", key=key)
