"""A hookup drawn by hand: tap an end, tap another, joined; try it, judge it."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.keeping.hookups import drawing_of
from setday.web.switching.bench import cards
from setday.web.switching.drawing_kept import drawn_on, picked_words, taken
from setday.web.switching.judging import judgment_words
from setday.web.switching.live import live_words, position_wanted
from setday.web.switching.sheet import HookupSheet, sound_sheet

__all__ = ["draw", "judged", "tried"]


@require_http_methods(["GET", "HEAD", "POST"])
def draw(request: HttpRequest, key: str) -> HttpResponse:
    """Show the bench, and take what is tapped on it."""
    sheet = sound_sheet(request, key)
    said = ""
    if request.method == "POST":
        said = taken(sheet.kept, sheet.hookup, request.POST.dict())
        if request.headers.get("HX-Request") != "true":
            messages.info(request, said)
            return redirect(f"{sheet.address('switching:draw')}#bench")
    words = sheet.context(**_bench(sheet), told=said)
    name = "part_bench" if request.headers.get("HX-Request") == "true" else "draw"
    return render(request, f"switching/{name}.html", words)


def _bench(sheet: HookupSheet) -> dict[str, Any]:
    from setday.switching import stage_of

    drawing = drawing_of(sheet.kept)
    drawn = drawn_on(sheet.hookup, drawing)
    return {
        "stage": stage_of(sheet.hookup),
        "drawn": drawn,
        "cards": cards(drawn),
        "picked": drawing.picked,
        "picked_words": picked_words(sheet.hookup, drawing),
        "can_undo": drawing.at > 0,
        "can_redo": drawing.at < len(drawing.steps),
    }


@require_safe
def tried(request: HttpRequest, key: str) -> HttpResponse:
    """Show what was drawn in one position, and every position in a table."""
    from setday.switching import try_hookup

    sheet = sound_sheet(request, key)
    drawn = drawn_on(sheet.hookup, drawing_of(sheet.kept))
    trial = try_hookup(drawn)
    position = position_wanted(trial, request.GET.get("at", ""))
    words = live_words(trial, position, key="drawn")
    return render(request, "switching/try_drawn.html", sheet.context(**words, drawn=drawn))


@require_safe
def judged(request: HttpRequest, key: str) -> HttpResponse:
    """Judge what was drawn; what would mend it is told only once the plan is open."""
    sheet = sound_sheet(request, key)
    drawn = drawn_on(sheet.hookup, drawing_of(sheet.kept))
    words = judgment_words(drawn, mend=sheet.kept.plan_opened)
    return render(request, "switching/judge_drawn.html", sheet.context(**words, drawn=drawn))
