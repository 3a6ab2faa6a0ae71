"""One hookup: flipped and looked at, judged, printed."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_safe

from setday.web.clock import on_site
from setday.web.switching.judging import judgment_words
from setday.web.switching.live import live_words, position_wanted
from setday.web.switching.sheet import sound_sheet

__all__ = ["hookup", "judged", "pdf"]


@require_safe
def hookup(request: HttpRequest, key: str) -> HttpResponse:
    """Show the drawing in one position, and every position in a table."""
    sheet = sound_sheet(request, key)
    trial = sheet.trial
    position = position_wanted(trial, request.GET.get("at", ""))
    words = live_words(trial, position, key="hookup")
    words["sealed"] = bool(trial.hookup.joins) and not sheet.kept.plan_opened
    words["asked"] = "at" in request.GET
    return render(request, "switching/hookup.html", sheet.context(**words))


@require_safe
def judged(request: HttpRequest, key: str) -> HttpResponse:
    """Judge the hookup as it was kept, and say what would mend it."""
    sheet = sound_sheet(request, key)
    words = judgment_words(sheet.hookup, mend=True)
    return render(request, "switching/judge.html", sheet.context(**words))


@require_safe
def pdf(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the printed sheets: the diagram on one page, joins and positions after it."""
    from setday.actions.switching.hookups import hookup_pages

    sheet = sound_sheet(request, key)
    pages = hookup_pages((sheet.hookup,), dated=on_site(timezone.now()).date())
    response = HttpResponse(pages, content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(False, f"{sheet.kept.key}.pdf")
    return response
