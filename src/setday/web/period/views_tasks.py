"""The tasks of a house: what is done, what is ready, what waits and for what."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.errors import SetdayError
from setday.web.houses.sheet import HouseSheet, house_sheet
from setday.web.keeping.class_files import class_file_of
from setday.web.period.figured import house_log
from setday.web.period.forms import TaskForm
from setday.web.period.shown import STATES
from setday.web.period.tasks import keep_typed, standings, take_tasks
from setday.web.timetable.figured import plan_of

__all__ = ["new", "take", "tasks"]


@require_safe
def tasks(request: HttpRequest, key: str) -> HttpResponse:
    """List the tasks of a house."""
    sheet = house_sheet(request, key)
    return render(request, "period/tasks.html", _words(sheet, TaskForm()))


def _words(sheet: HouseSheet, form: TaskForm) -> dict[str, Any]:
    listed = standings(sheet.house, house_log(sheet.house))
    rows = [
        {"standing": each, "state": STATES[each.progress.state], "percent": round(100 * each.share)}
        for each in listed
    ]
    return sheet.context(rows=rows, form=form, done=sum(each.share >= 1 for each in listed))


@require_POST
def take(request: HttpRequest, key: str) -> HttpResponse:
    """Bring the tasks of the house file and the class file in force into the list."""
    sheet = house_sheet(request, key)
    class_file = class_file_of(sheet.house)
    try:
        count = take_tasks(sheet.house, plan_of(class_file) if class_file is not None else None)
    except SetdayError as error:
        messages.error(request, str(error))
    else:
        messages.success(request, _("%(count)d tasks are on the list.") % {"count": count})
    return redirect("period:tasks", key=sheet.house.key)


@require_http_methods(["POST"])
def new(request: HttpRequest, key: str) -> HttpResponse:
    """Put a task on the list that no trade figures."""
    sheet = house_sheet(request, key)
    form = TaskForm(request.POST)
    if not form.is_valid():
        return render(request, "period/tasks.html", _words(sheet, form), status=422)
    given = form.cleaned_data
    signoffs = [each.strip() for each in given.pop("signoffs").split(",") if each.strip()]
    keep_typed(
        sheet.house,
        label=given["label"],
        trade=given["trade"],
        place=given["place"],
        quantity=given["quantity"] or 0.0,
        unit=given["unit"],
        signoffs=signoffs,
        exposures=given["exposures"],
    )
    messages.success(request, _("It is on the list."))
    return redirect("period:tasks", key=sheet.house.key)
