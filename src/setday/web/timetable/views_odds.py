"""The odds of making set day, a picture first; and why it cannot be made, with what would help."""

from datetime import date
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.drawing import spread_picture, spread_table
from setday.web.keeping.models import TimetableKind
from setday.web.timetable.pictures import twice
from setday.web.timetable.sheet import timetable_sheet
from setday.web.timetable.worker import begin, new_run

__all__ = ["begin_odds", "begin_reasons", "odds", "reasons"]

_PLAYS_S = 10.0
"""What the plays usually take, for the bar of progress only [s]."""
_REASONS_S = 30.0
"""Time for the demands that clash, and for what would help [s]; our own."""


@require_POST
def begin_odds(request: HttpRequest, key: str) -> HttpResponse:
    """Play the timetable in force many times."""
    return _begin(request, key, kind=TimetableKind.ODDS, seconds=_PLAYS_S)


@require_POST
def begin_reasons(request: HttpRequest, key: str) -> HttpResponse:
    """Ask why set day is not made, or by how little it is, and what would help."""
    return _begin(request, key, kind=TimetableKind.REASONS, seconds=_REASONS_S)


def _begin(request: HttpRequest, key: str, *, kind: Any, seconds: float) -> HttpResponse:
    sheet = timetable_sheet(request, key)
    if sheet.kept is None or sheet.class_file is None:
        messages.error(request, _("There is no timetable yet. Search for one first."))
        return redirect("timetable:plan", key=key)
    made = new_run(
        sheet.house,
        version=sheet.house_sheet.version,
        class_file=sheet.class_file,
        before=sheet.kept,
        kind=kind,
        options={"seconds": seconds},
    )
    begin(made)
    return redirect("timetable:run", key=key, number=made.number)


@require_safe
def odds(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show how the finish spreads against set day, and what carries it."""
    sheet = timetable_sheet(request, key)
    run = sheet.run(number)
    if run.kind != TimetableKind.ODDS:
        raise Http404
    if run.document is None:
        return redirect("timetable:run", key=key, number=number)
    return render(
        request, "timetable/odds.html", sheet.context(run=run, told=run.told, **_words(run.document))
    )


def _words(kept: dict[str, Any]) -> dict[str, Any]:
    finishes = [(date.fromisoformat(day), many) for day, many in kept["spread"]]
    set_day = date.fromisoformat(kept["set_day"])
    ready = {int(share): date.fromisoformat(day) if day else None for share, day in kept["ready"].items()}
    marks = [(f"{share} %", day) for share, day in sorted(ready.items()) if day]
    spread = {"beyond": kept["beyond"], "set_day": set_day}
    title = "When all is done, in so many plays"
    return {
        "drawings": twice(
            lambda paper: spread_picture(finishes, marks=marks, title=title, paper=paper, **spread)
        ),
        "spread": spread_table(finishes, caption="When all is done", **spread),
        "chance": kept["chance"],
        "between": kept["between"],
        "simulations": kept["simulations"],
        "ready": [(f"{share} %", day) for share, day in sorted(ready.items())],
        "set_day": set_day,
        "carriers": kept["carriers"],
        "absent": kept["absent"],
    }


@require_safe
def reasons(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show which demands clash with set day, and what each help would change."""
    sheet = timetable_sheet(request, key)
    run = sheet.run(number)
    if run.kind != TimetableKind.REASONS:
        raise Http404
    if run.document is None:
        return redirect("timetable:run", key=key, number=number)
    kept = run.document
    helps = [
        {**each, "ready": _day(each["ready"]), "gained": each["chance"] - each["chance_without"]}
        for each in kept["helps"]
    ]
    first = kept["helps"][0] if kept["helps"] else None
    words = {
        "by": _day(kept["by"]),
        "said": kept["said"],
        "unproven": not kept["proven"],
        "fewer": kept["proven"] and not kept["smallest"],
        "helps": helps,
        "without": _day(first["without"]) if first else None,
        "chance_without": first["chance_without"] if first else None,
    }
    return render(request, "timetable/reasons.html", sheet.context(run=run, told=run.told, **words))


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None
