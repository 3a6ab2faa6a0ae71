"""Board runs: what ran, and starting and stopping one."""

from typing import Any

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from setday.web.boards.forms import RunForm
from setday.web.boards.worker import ask_to_stop, begin
from setday.web.half_filled import TYPED, refill
from setday.web.houses.sheet import HouseSheet, built_sheet
from setday.web.keeping.models import BoardRun, House, PriceList

__all__ = ["new_run", "runs", "stop"]


@require_http_methods(["GET", "HEAD", "POST"])
def runs(request: HttpRequest, key: str) -> HttpResponse:
    """List the runs of a house, and start one."""
    sheet = built_sheet(request, key)
    form = RunForm(request.POST if request.method == "POST" else None, school=request.school)
    if request.method == "POST" and form.is_valid():
        asked = form.cleaned_data
        run = new_run(sheet, options=form.options, prices=asked["prices"], label=asked["label"])
        begin(run)
        return redirect("boards:run", key=key, number=run.number)
    refill(form, request)
    ran = BoardRun.objects.filter(version__house=sheet.house).select_related("version")
    status = 422 if request.method == "POST" else 200
    return render(request, "boards/runs.html", sheet.context(form=form, runs=ran, **TYPED), status=status)


@require_POST
def stop(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """End a run and keep its best layout."""
    house = get_object_or_404(House.objects.of(request.school), key=key)
    run = get_object_or_404(BoardRun, version__house=house, number=number)
    if run.at_work:
        ask_to_stop(run)
    return redirect("boards:run", key=key, number=number)


@transaction.atomic
def new_run(
    sheet: HouseSheet, *, options: dict[str, Any], prices: PriceList | None, label: str = "", group: int = 0
) -> BoardRun:
    """Write down a run of a house, under the next number."""
    House.objects.select_for_update().get(pk=sheet.house.pk)
    last = BoardRun.objects.filter(version__house=sheet.house).order_by("-number").first()
    return BoardRun.objects.create(
        version=sheet.version,
        number=last.number + 1 if last else 1,
        label=label[:200],
        prices=prices,
        options=options,
        group=group,
    )
