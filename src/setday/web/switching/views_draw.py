"""A hookup drawn by hand: tap an end, tap another, joined; try it, judge it.

The same sheets serve the instructor and a crew; only who sits at the bench differs.
"""

from typing import Any

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.switching.bench import cards
from setday.web.switching.drawing_kept import picked_words, taken
from setday.web.switching.judging import judgment_words
from setday.web.switching.live import live_words, position_wanted
from setday.web.switching.seats import Seat, instructor_seat
from setday.web.switching.sheet import sound_sheet

__all__ = ["at_bench", "draw", "judged", "judged_at", "tried", "tried_at"]


@require_http_methods(["GET", "HEAD", "POST"])
def draw(request: HttpRequest, key: str) -> HttpResponse:
    """Show the instructor's bench, and take what is tapped on it."""
    return at_bench(request, instructor_seat(request, sound_sheet(request, key)))


@require_safe
def tried(request: HttpRequest, key: str) -> HttpResponse:
    """Show what was drawn in one position, and every position in a table."""
    return tried_at(request, instructor_seat(request, sound_sheet(request, key)))


@require_safe
def judged(request: HttpRequest, key: str) -> HttpResponse:
    """Judge what was drawn."""
    return judged_at(request, instructor_seat(request, sound_sheet(request, key)))


def at_bench(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Show a bench, and take what is tapped on it."""
    said, part = "", request.headers.get("HX-Request") == "true"
    if request.method == "POST":
        if seat.looking:
            raise PermissionDenied
        said = taken(seat.kept, seat.hookup, request.POST.dict(), by=seat.by)
        if not part:
            messages.info(request, said)
            return redirect(f"{seat.context()['draw_address']}#bench")
    words = seat.context(told=said, **_bench(seat))
    return render(request, f"switching/{'part_bench' if part else 'draw'}.html", words)


def _bench(seat: Seat) -> dict[str, Any]:
    from setday.switching import stage_of

    drawing, drawn = seat.drawing, seat.drawn
    return {
        "stage": stage_of(seat.hookup),
        "cards": cards(drawn),
        "picked": drawing.picked,
        "picked_words": picked_words(seat.hookup, drawing),
        "can_undo": drawing.at > 0,
        "can_redo": drawing.at < len(drawing.steps),
    }


def tried_at(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Show what was drawn at a bench in one position, and every position in a table."""
    from setday.switching import try_hookup

    trial = try_hookup(seat.drawn)
    position = position_wanted(trial, request.GET.get("at", ""))
    words = live_words(trial, position, key="drawn")
    return render(request, "switching/try_drawn.html", seat.context(**words))


def judged_at(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Judge what was drawn; what would mend it is told only once the plan is open."""
    words = judgment_words(seat.drawn, mend=seat.kept.plan_opened)
    return render(request, "switching/judge_drawn.html", seat.context(**words))
