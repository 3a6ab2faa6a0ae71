"""A search for a timetable: started, watched, stopped, and what came of it."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.errors import SetdayError
from setday.web.keeping.models import ClassFileVersion, RunState, TimetableKind, TimetableRun
from setday.web.timetable.forms import SearchForm
from setday.web.timetable.past import nothing_to_plan
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet
from setday.web.timetable.shown import shown
from setday.web.timetable.worker import ask_to_stop, begin, new_run

__all__ = ["begin_search", "progress", "run", "stop"]

_BY_SHARE = {TimetableKind.ODDS, TimetableKind.REASONS}
"""Work that tells how much of it is done instead of a best timetable."""


@require_POST
def begin_search(request: HttpRequest, key: str) -> HttpResponse:
    """Start a search by the house file and the class file in force."""
    sheet = timetable_sheet(request, key)
    form = SearchForm(request.POST)
    if sheet.class_file is None:
        messages.error(request, _("A timetable needs a class file. Bring one in first."))
        return redirect("timetable:edit", key=key)
    if not form.is_valid() or _over(form, sheet.class_file):
        words = sheet.context(**{**shown(sheet, sheet.kept), "form": form})
        return render(request, "timetable/plan.html", words, status=422)
    made = new_run(
        sheet.house,
        version=sheet.house_sheet.version,
        class_file=sheet.class_file,
        before=sheet.kept,
        kind=TimetableKind.SOLVED,
        options={"seconds": form.cleaned_data["seconds"]},
    )
    begin(made)
    return redirect("timetable:run", key=key, number=made.number)


def _over(form: SearchForm, kept: ClassFileVersion) -> bool:
    """Tell whether nothing can be planned by a class file any more; the form says why."""
    try:
        said = nothing_to_plan(kept)
    except SetdayError as error:
        said = str(error)
    if said:
        form.add_error(None, said)
    return bool(said)


@require_safe
def run(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show a run: its progress while it works, then what came of it."""
    sheet = timetable_sheet(request, key)
    found = sheet.run(number)
    if found.document is not None and not found.is_timetable:
        return redirect(f"timetable:{found.kind}", key=key, number=number)
    if found.document is None:
        return render(request, "timetable/at_work.html", sheet.context(**_so_far(found)))
    words = sheet.context(**{**_so_far(found), **shown(sheet, found)})
    return render(request, "timetable/run.html", words)


@require_safe
def progress(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show the part of the page that tells how far a run is; the whole page anew once it has ended."""
    sheet = timetable_sheet(request, key)
    found = sheet.run(number)
    if not found.at_work:
        return HttpResponse(headers={"HX-Redirect": sheet.address("timetable:run", number=number)})
    return render(request, "timetable/part_progress.html", sheet.context(**_so_far(found)))


def _so_far(found: TimetableRun) -> dict[str, Any]:
    limit = float(found.options.get("seconds", 0))
    waiting = TimetableRun.objects.filter(state__in=[RunState.WAITING, RunState.RUNNING], pk__lt=found.pk)
    return {
        "run": found,
        "limit": limit,
        "spent": found.share * limit if found.kind in _BY_SHARE else min(found.seconds, limit),
        "ahead": waiting.count(),
        "reasons": found.message.splitlines(),
    }


@require_POST
def stop(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """End a run and keep its best timetable."""
    sheet: TimetableSheet = timetable_sheet(request, key)
    found = sheet.run(number)
    if found.at_work:
        ask_to_stop(found)
    return redirect("timetable:run", key=key, number=number)
