"""A repair after a period: what the log says, pins, and the repair begun."""

from datetime import date
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.web.keeping.models import ClassPeriod, TimetableKind
from setday.web.timetable.figured import day_of
from setday.web.timetable.forms import PinForm
from setday.web.timetable.logged import logged
from setday.web.timetable.past import nothing_to_plan
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet
from setday.web.timetable.worker import begin, new_run

if TYPE_CHECKING:
    from setday.actions.timetable.problem import ClassDay

__all__ = ["repair"]


@require_http_methods(["GET", "HEAD", "POST"])
def repair(request: HttpRequest, key: str) -> HttpResponse:
    """Show what a repair would go by, and begin one."""
    sheet = timetable_sheet(request, key)
    if sheet.kept is None or sheet.class_file is None:
        messages.error(request, _("There is no timetable to repair. Search for one first."))
        return redirect("timetable:plan", key=key)
    try:
        day = day_of(sheet.house_sheet.version, sheet.class_file)
    except SetdayError as error:
        return render(request, "timetable/repair.html", sheet.context(wrong=str(error)), status=422)
    if request.method != "POST":
        return _page(request, sheet, day, PinForm(day=day))
    form = PinForm(request.POST, day=day)
    over = nothing_to_plan(sheet.class_file)
    if form.is_valid() and over:
        form.add_error(None, over)
    if not form.is_valid():
        return _page(request, sheet, day, form, status=422)
    pins = [text for text in request.POST.getlist("pin") if text in sheet.kept.options.get("pins", ())]
    made = new_run(
        sheet.house,
        version=sheet.house_sheet.version,
        class_file=sheet.class_file,
        before=sheet.kept,
        kind=TimetableKind.REPAIRED,
        options={"seconds": form.cleaned_data["seconds"], "pins": [*pins, *form.pins]},
    )
    begin(made)
    return redirect("timetable:run", key=key, number=made.number)


def _page(
    request: HttpRequest, sheet: TimetableSheet, day: "ClassDay", form: PinForm, *, status: int = 200
) -> HttpResponse:
    words = sheet.context(form=form, **_words(sheet, day))
    return render(request, "timetable/repair.html", words, status=status)


def _words(sheet: TimetableSheet, day: "ClassDay") -> dict[str, Any]:
    log = logged(sheet.house, day)
    behind = ClassPeriod.objects.filter(house=sheet.house, closed_at__isnull=True, begins__date__lt=_today())
    pins = sheet.kept.options.get("pins", []) if sheet.kept else []
    names = dict(day.names)
    return {
        "log": [_line(entry, day, names) for entry in reversed(log.periods)],
        "left_out": log.left_out,
        "open_periods": behind.order_by("begins", "pk").select_related("school_class"),
        "pins": pins,
    }


def _today() -> date:
    from django.utils import timezone

    today: date = timezone.localdate()
    return today


def _line(entry: Any, day: "ClassDay", names: dict[str, str]) -> dict[str, Any]:
    works = [
        {"label": day.works[each.task].label, "done": each.done, "many": len(each.students)}
        for each in entry.worked or ()
        if each.task in day.works
    ]
    return {
        "date": entry.date,
        "begin": entry.begin,
        "absent": [names.get(key, key) for key in entry.absent],
        "works": works,
        "as_planned": entry.worked is None,
    }
