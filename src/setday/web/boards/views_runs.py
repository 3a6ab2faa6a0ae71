"""Board runs: what ran, and starting and stopping one."""

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from setday.web.boards.forms import RunForm
from setday.web.boards.worker import ask_to_stop, begin
from setday.web.houses.sheet import HouseSheet, built_sheet
from setday.web.keeping.models import BoardRun, House

__all__ = ["runs", "stop"]


@require_http_methods(["GET", "HEAD", "POST"])
def runs(request: HttpRequest, key: str) -> HttpResponse:
    """List the runs of a house, and start one."""
    sheet = built_sheet(request, key)
    form = RunForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        run = _new_run(sheet, form)
        begin(run)
        return redirect("boards:run", key=key, number=run.number)
    ran = BoardRun.objects.filter(version__house=sheet.house).select_related("version")
    status = 422 if request.method == "POST" else 200
    return render(request, "boards/runs.html", sheet.context(form=form, runs=ran), status=status)


@require_POST
def stop(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """End a run and keep its best layout."""
    run = get_object_or_404(BoardRun, version__house__key=key, number=number)
    if run.at_work:
        ask_to_stop(run)
    return redirect("boards:run", key=key, number=number)


@transaction.atomic
def _new_run(sheet: HouseSheet, form: RunForm) -> BoardRun:
    House.objects.select_for_update().get(pk=sheet.house.pk)
    last = BoardRun.objects.filter(version__house=sheet.house).order_by("-number").first()
    asked = form.cleaned_data
    return BoardRun.objects.create(
        version=sheet.version,
        number=last.number + 1 if last else 1,
        label=asked["label"],
        prices=asked["prices"],
        options={name: asked[name] for name in ("seconds", "offcuts", "longest")},
    )
