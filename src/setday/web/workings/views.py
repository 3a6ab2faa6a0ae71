"""Workings: every figure of a house, opened."""

from collections.abc import Iterable

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from setday.boards import count_by_area
from setday.web.boards.figuring import figured, run_in_force
from setday.web.buying.ordering import buying_for
from setday.web.houses.sheet import HouseSheet, built_sheet
from setday.working import Working

__all__ = ["working", "workings"]


@require_safe
def workings(request: HttpRequest, key: str) -> HttpResponse:
    """List every figure with its result."""
    sheet = built_sheet(request, key)
    run = run_in_force(sheet.version, request.GET.get("run"))
    groups = [(title, list(found)) for title, found in _groups(sheet, request)]
    return render(request, "workings/list.html", sheet.context(groups=groups, run=run))


@require_safe
def working(request: HttpRequest, key: str, working_key: str) -> HttpResponse:
    """Show one figure step by step, with its sources."""
    sheet = built_sheet(request, key)
    everything = {each.key: each for _title, found in _groups(sheet, request) for each in found}
    if working_key not in everything:
        raise Http404
    run = run_in_force(sheet.version, request.GET.get("run"))
    return render(request, "workings/one.html", sheet.context(working=everything[working_key], run=run))


def _groups(sheet: HouseSheet, request: HttpRequest) -> Iterable[tuple[str, Iterable[Working]]]:
    run = run_in_force(sheet.version, request.GET.get("run"))
    if run is None:
        yield _("Boards"), (_by_area(sheet),)
        return
    yield _("Boards"), figured(run).workings
    yield _("Buying list"), (line.working for line in buying_for(run).buying.lines)


def _by_area(sheet: HouseSheet) -> Working:
    from setday.actions.boards import rules_for

    opened = sheet.opened
    return count_by_area(opened.built(), choices=opened.boards, rules=rules_for(opened)).working
