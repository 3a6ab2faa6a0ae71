"""The crews' bench: in by a code, draw, try, judge; the plan only once the instructor has opened it.

Nothing here may show the joins of the kept hookup, or its plan, while the plan is sealed.
"""

from functools import wraps
from typing import Any, Protocol

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.access import BENCH_CREW, HUNT_CREW
from setday.web.desk.door import minutes_to_wait, note_wrong_try
from setday.web.keeping.models import HookupDrawing, KeptHookup
from setday.web.switching.forms import EnterForm
from setday.web.switching.judging import judgment_words
from setday.web.switching.seats import (
    MOST_CREWS,
    Seat,
    code_read,
    crew_seat,
    free_code,
    hookup_of_code,
)
from setday.web.switching.sheet import sound_sheet
from setday.web.switching.views_draw import at_bench, judged_at, tried_at
from setday.web.switching.views_plan import plan_words

__all__ = ["bench", "crews", "enter", "judged", "leave", "plan", "tried"]

_CODES = "bench code"


class _Sheet(Protocol):
    def __call__(self, request: HttpRequest, seat: Seat) -> HttpResponse: ...


def _seated(view: _Sheet) -> Any:
    """Give a sheet the crew's seat; a bench that was closed leads back to its door."""

    @wraps(view)
    def sheet(request: HttpRequest) -> HttpResponse:
        seat = crew_seat(request)
        if seat is None:
            request.session.pop(BENCH_CREW, None)
            messages.info(request, _("This bench is closed. What you drew is kept."))
            return redirect("switching:enter")
        return view(request, seat)

    return sheet


@require_http_methods(["GET", "HEAD", "POST"])
def enter(request: HttpRequest) -> HttpResponse:
    """Let a crew in that has the code of a bench."""
    if request.method != "POST":
        return render(request, "switching/enter.html", {"form": EnterForm()})
    form = EnterForm(request.POST)
    kept = _let_in(request, form) if form.is_valid() else None
    if kept is None:
        return render(request, "switching/enter.html", {"form": form}, status=422)
    name = " ".join(form.cleaned_data["name"].split())
    HookupDrawing.objects.get_or_create(hookup=kept, by=name)
    request.session.pop(HUNT_CREW, None)
    request.session[BENCH_CREW] = {"hookup": kept.pk, "code": kept.bench_code, "by": name}
    return redirect("switching:bench")


def _let_in(request: HttpRequest, form: EnterForm) -> KeptHookup | None:
    """Return the hookup a crew may draw, or say in the form why it may not."""
    address, now = request.META.get("REMOTE_ADDR", ""), timezone.now()
    wait = minutes_to_wait(who=_CODES, address=address, now=now)
    if wait:
        words = ngettext(
            "Too many wrong codes. Wait %(n)d minute.", "Too many wrong codes. Wait %(n)d minutes.", wait
        )
        form.add_error(None, words % {"n": wait})
        return None
    kept = hookup_of_code(code_read(form.cleaned_data["code"]))
    if kept is None:
        note_wrong_try(who=_CODES, address=address, now=now)
        form.add_error("code", _("No bench has this code. Read it once more."))
        return None
    crews = kept.drawings.exclude(by="")
    name = " ".join(form.cleaned_data["name"].split())
    if not crews.filter(by=name).exists() and crews.count() >= MOST_CREWS:
        form.add_error(None, _("This bench has as many crews as it takes. Ask the instructor."))
        return None
    return kept


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """Let a crew go; what it drew is kept."""
    request.session.pop(BENCH_CREW, None)
    return redirect("switching:enter")


@require_http_methods(["GET", "HEAD", "POST"])
@_seated
def bench(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Show the crew's bench, and take what is tapped on it."""
    return at_bench(request, seat)


@require_safe
@_seated
def tried(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Try what the crew drew."""
    return tried_at(request, seat)


@require_safe
@_seated
def judged(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Judge what the crew drew."""
    return judged_at(request, seat)


@require_safe
@_seated
def plan(request: HttpRequest, seat: Seat) -> HttpResponse:
    """Show the plan, once the instructor has opened it; before that there is no such sheet."""
    if not seat.kept.plan_opened:
        raise Http404
    newest = seat.kept.newest
    words = plan_words(newest.text, newest.file_name)
    return render(request, "switching/plan.html", seat.context(stage=seat.hookup, **words))


@require_http_methods(["GET", "HEAD", "POST"])
def crews(request: HttpRequest, key: str) -> HttpResponse:
    """Open and close the bench to crews; show how far each of them is."""
    sheet = sound_sheet(request, key)
    if request.method == "POST":
        sheet.kept.bench_code = free_code() if request.POST.get("do") == "open" else ""
        sheet.kept.save(update_fields=["bench_code"])
        return redirect("switching:crews", key=key)
    rows = [_row(sheet.kept, sheet.hookup, each) for each in sheet.kept.drawings.exclude(by="")]
    return render(request, "switching/crews.html", sheet.context(rows=rows))


def _row(kept: KeptHookup, hookup: Any, drawing: HookupDrawing) -> dict[str, Any]:
    seat = Seat(kept=kept, hookup=hookup, by=drawing.by)
    drawn = seat.drawn
    judgment = judgment_words(drawn, mend=False)["judgment"]
    return {
        "by": drawing.by,
        "joins": len(drawn.joins),
        "works": bool(drawn.wants) and judgment.works,
        "code": len(judgment.code),
        "changed_at": drawing.changed_at,
    }
