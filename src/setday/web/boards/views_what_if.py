"""What if: the same house laid out in several ways, side by side."""

from typing import Any

from django.db.models import Max
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from setday.drawing import Bar, comparison_bars
from setday.web.boards.forms import WhatIfForm
from setday.web.boards.views_runs import new_run
from setday.web.boards.worker import begin
from setday.web.half_filled import TYPED, refill
from setday.web.houses.sheet import HouseSheet, built_sheet, house_sheet
from setday.web.keeping.models import BoardRun

__all__ = ["compare", "what_if"]


@require_http_methods(["GET", "HEAD", "POST"])
def what_if(request: HttpRequest, key: str) -> HttpResponse:
    """Start one run for each way asked for."""
    sheet = built_sheet(request, key)
    sent = request.POST if request.method == "POST" else None
    form = WhatIfForm(sent, opened=sheet.opened, school=request.school)
    if request.method == "POST" and form.is_valid():
        group = _start(sheet, form)
        return redirect(f"{reverse('boards:compare', kwargs={'key': key})}?group={group}")
    refill(form, request)
    status = 422 if request.method == "POST" else 200
    return render(request, "boards/what_if.html", sheet.context(form=form, **TYPED), status=status)


@require_safe
def compare(request: HttpRequest, key: str) -> HttpResponse:
    """Show runs side by side: those started together, or those picked."""
    sheet = house_sheet(request, key)
    runs = list(_picked(sheet, request))
    done = [run for run in runs if run.cost_cents is not None]
    base = done[0] if done else None
    words = {
        "rows": [_row(run, base) for run in runs],
        "at_work": any(run.at_work for run in runs),
        "bars": _bars(done) if len(done) > 1 else "",
        "query": request.GET.urlencode(),
        "all_runs": BoardRun.objects.filter(version__house=sheet.house),
    }
    template = (
        "boards/part_compare.html" if request.headers.get("HX-Request") == "true" else "boards/compare.html"
    )
    return render(request, template, sheet.context(**words))


def _start(sheet: HouseSheet, form: WhatIfForm) -> int:
    runs = BoardRun.objects.filter(version__house=sheet.house)
    last = runs.aggregate(last=Max("group"))["last"] or 0
    group: int = last + 1
    for way in form.runs:
        begin(new_run(sheet, options=way.options, prices=way.prices, label=way.label, group=group))
    return group


def _picked(sheet: HouseSheet, request: HttpRequest) -> Any:
    runs = (
        BoardRun.objects.filter(version__house=sheet.house).select_related("version", "prices").order_by("pk")
    )
    group = request.GET.get("group", "")
    if group.isdecimal() and len(group) <= 9:
        return runs.filter(group=int(group), group__gt=0)
    numbers = [int(text) for text in request.GET.getlist("run") if text.isdecimal() and len(text) <= 9]
    return runs.filter(number__in=numbers)


def _row(run: BoardRun, base: BoardRun | None) -> dict[str, Any]:
    counted = (run.outcome or {}).get("layout") or {}
    differs = base is not None and run.cost_cents is not None and run.pk != base.pk
    return {
        "run": run,
        "boards": len(counted["boards"]) if counted else None,
        "pieces": len(counted["pieces"]) if counted else None,
        "butt_ft": run.outcome["butt_joint"] / 768 if run.outcome and "butt_joint" in run.outcome else None,
        "dearer_cents": run.cost_cents - base.cost_cents if differs and base else None,
    }


def _bars(runs: list[BoardRun]) -> str:
    bars = [
        Bar(
            label=f"{run.number} {run.label}".strip(),
            value=run.cost_cents / 100,
            written=f"${run.cost_cents / 100:,.2f}",
        )
        for run in runs
    ]
    return comparison_bars(bars, title="Cost of boards", key="what-if")
