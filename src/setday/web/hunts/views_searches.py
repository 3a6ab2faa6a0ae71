"""Searches for a real fault: all of them, and beginning, widening and stopping one."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.files import write_observation
from setday.web.hunts.said import cautions
from setday.web.hunts.sources import source_of
from setday.web.hunts.worker import ask_to_stop, begin_two
from setday.web.keeping.models import FaultSearch, RunState

__all__ = ["begin_search", "look_for_two", "searches", "stop"]


@require_safe
def searches(request: HttpRequest) -> HttpResponse:
    """List the searches, the newest first."""
    words = {"searches": FaultSearch.objects.of(request.school), "cautions": cautions()}
    return render(request, "hunts/searches.html", words)


@require_POST
def begin_search(request: HttpRequest, source: str, key: str) -> HttpResponse:
    """Begin a search in a hookup, with what its file says was observed."""
    found = source_of(request.school, kind=source, key=key)
    hookup = found.read.sound()
    last = FaultSearch.objects.of(request.school).first()
    search = FaultSearch.objects.create(
        school=request.school,
        name=found.name[:200],
        file_name=found.file_name[:200],
        text=found.text,
        lines=[write_observation(each, hookup) for each in found.read.observed],
        likely=last.likely if last else {},
    )
    return redirect("hunts:search", number=search.pk)


@require_POST
def look_for_two(request: HttpRequest, number: int) -> HttpResponse:
    """Put the search for two faults at once in line."""
    search = get_object_or_404(FaultSearch.objects.of(request.school), pk=number)
    if not search.lines:
        messages.info(request, _("Type first what was observed: without that every two faults explain it."))
    elif not search.at_work:
        search.state, search.pairs, search.share = RunState.WAITING, None, 0.0
        search.stop_asked, search.message = False, ""
        search.save()
        begin_two(search)
    return redirect("hunts:search", number=number)


@require_POST
def stop(request: HttpRequest, number: int) -> HttpResponse:
    """End the search for two faults and keep what it found."""
    search = get_object_or_404(FaultSearch.objects.of(request.school), pk=number)
    if search.at_work:
        ask_to_stop(search)
    return redirect("hunts:search", number=number)
