"""One period changed by hand: told at once what it breaks, kept only when the instructor says so.

What sends somebody past a missing sign-off or a limit for minors is not kept, whoever says so.
"""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.web.timetable.changing import Changed, changed, keep_changed, standing_timetable
from setday.web.timetable.sheet import timetable_sheet

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Timetable

__all__ = ["change"]


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show who does what in a period as choices; check or keep what was chosen."""
    sheet = timetable_sheet(request, key)
    kept = sheet.standing()
    try:
        before = standing_timetable(kept)
    except SetdayError as error:
        messages.error(request, str(error))
        return redirect("timetable:period", key=key, number=number)
    if number >= len(before.rows):
        raise Http404
    if number < before.since:
        messages.error(request, _("This period is over; what happened stays."))
        return redirect("timetable:period", key=key, number=number)
    if request.method != "POST":
        return render(request, "timetable/change.html", sheet.context(**_words(before, number, None)))
    found = changed(before, number, _wanted(request, before, number))
    words = sheet.context(**_words(before, number, found))
    if request.POST.get("do") != "keep":
        return render(request, "timetable/change.html", {**words, "checked": True})
    unsaid = found.breaks and request.POST.get("anyway") != "yes"
    if not found.moved or found.kept_off or unsaid:
        return render(
            request, "timetable/change.html", {**words, "checked": True, "refused": True}, status=422
        )
    made = keep_changed(kept, found)
    messages.success(request, _("Kept as timetable %(number)d.") % {"number": made.number})
    return redirect("timetable:period", key=key, number=number)


def _wanted(request: HttpRequest, before: "Timetable", number: int) -> dict[str, str]:
    """Return the tasks chosen for students who are there; what is no task of the timetable is passed over."""
    known = {"", *before.day.problem.number}
    present = before.day.problem.periods[number].present
    wanted = {}
    for place, student in enumerate(before.day.problem.students):
        chosen = request.POST.get(f"student-{place}")
        if student.key in present and chosen in known:
            wanted[student.key] = chosen
    return wanted


def _words(before: "Timetable", number: int, found: Changed | None) -> dict[str, Any]:
    day = before.day
    shown = found.timetable if found else before
    present = day.problem.periods[number].present
    people = [
        {"place": place, "name": day.names[student.key], "task": shown.rows[number][place]}
        for place, student in enumerate(day.problem.students)
        if student.key in present
    ]
    chosen = {each["task"] for each in people}
    return {
        "meeting": day.meetings[number],
        "number": number,
        "people": people,
        "options": [
            {"key": task.key, "label": task.label, "place": task.place}
            for task in day.problem.tasks
            if task.key in chosen or task.filler or _open(before, task.key, number)
        ],
        "found": found,
    }


def _open(timetable: "Timetable", key: str, number: int) -> bool:
    """Return whether some of a task is still to be done when a period begins."""
    task = timetable.day.problem.tasks[timetable.day.problem.number[key]]
    done = sum(
        row.count(key) * period.minutes
        for row, period in zip(timetable.rows[:number], timetable.day.problem.periods, strict=False)
    )
    return done < task.work
