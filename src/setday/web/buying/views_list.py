"""The buying list: what to order for a house."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_safe

from setday.materials import BuyingLine
from setday.measure import Length
from setday.web.boards.figuring import run_in_force
from setday.web.buying.ordering import buying_for, wiring_is_on_it
from setday.web.clock import on_site
from setday.web.houses.sheet import HouseSheet, built_sheet
from setday.web.keeping.lists import newest
from setday.web.keeping.models import BoardRun, PriceList

if TYPE_CHECKING:
    from setday.actions.buying import Buying, LengthPlan

__all__ = ["as_file", "buying_list", "line"]


@require_safe
def buying_list(request: HttpRequest, key: str) -> HttpResponse:
    """Show what to buy, and what it costs by phase, place and delivery."""
    sheet = built_sheet(request, key)
    run = run_in_force(sheet.version, request.GET.get("run"))
    if run is None:
        return render(request, "buying/not_yet.html", sheet.context())
    bought = buying_for(run)
    in_force = newest(PriceList, school=sheet.house.school)
    words = {
        "run": run,
        "bought": bought.buying,
        "categories": _by_category(bought.buying.lines),
        "parts": (("phase", bought.buying.by_phase()), ("place", bought.buying.by_place())),
        "plans": [_plan(plan) for plan in bought.plans],
        "newer_prices": in_force if in_force is not None and in_force != run.prices else None,
        "findings": bought.buying.findings,
        "wired": wiring_is_on_it(sheet.version),
    }
    return render(request, "buying/list.html", sheet.context(**words))


@require_safe
def line(request: HttpRequest, key: str, item: str) -> HttpResponse:
    """Show one line of the list: who needs it where, and how its quantity was come by."""
    sheet = built_sheet(request, key)
    run = _run(sheet, request)
    found = next((each for each in buying_for(run).buying.lines if each.item == item), None)
    if found is None:
        raise Http404
    workings = [found.working, *(need.working for need in found.needs if need.working)]
    unique = list({working.key: working for working in workings}.values())
    return render(request, "buying/line.html", sheet.context(line=found, run=run, workings=unique))


@require_safe
def as_file(request: HttpRequest, key: str, kind: str) -> HttpResponse:
    """Hand the list out as CSV, spreadsheet or PDF."""
    sheet = built_sheet(request, key)
    if kind not in _KINDS:
        raise Http404
    run = _run(sheet, request)
    content_type, write = _KINDS[kind]
    response = HttpResponse(write(buying_for(run), sheet.house.name), content_type=content_type)
    name = f"{sheet.house.key}-buying-list.{kind}"
    response.headers["Content-Disposition"] = content_disposition_header(kind != "pdf", name)
    return response


def _run(sheet: HouseSheet, request: HttpRequest) -> BoardRun:
    run = run_in_force(sheet.version, request.GET.get("run"))
    if run is None:
        raise Http404
    return run


def _by_category(lines: tuple[BuyingLine, ...]) -> list[tuple[str, list[BuyingLine]]]:
    found: dict[str, list[BuyingLine]] = {}
    for each in lines:
        found.setdefault(each.category, []).append(each)
    return list(found.items())


def _plan(plan: "LengthPlan") -> dict[str, Any]:
    labels = {stock.key: stock.label or stock.key for stock in plan.problem.stocks}
    sticks = plan.outcome.plan.sticks if plan.outcome.plan else ()
    return {
        "label": plan.label,
        "status": plan.outcome.status.value,
        "gap": plan.outcome.gap,
        "method": plan.outcome.bound.method,
        "why_none": plan.outcome.why_none,
        "sticks": [
            {
                "number": stick.number,
                "stock": labels.get(stick.stock, stick.stock),
                "pieces": [(Length(piece.length), piece.label) for piece in stick.pieces],
                "rest": Length(stick.remnant),
            }
            for stick in sticks
        ],
    }


def _csv(bought: "Buying", house: str) -> bytes:
    from setday.files import buying_csv

    return buying_csv(bought.buying).encode("utf-8-sig")


def _xlsx(bought: "Buying", house: str) -> bytes:
    from setday.files import buying_xlsx

    return buying_xlsx(bought.buying, made=on_site(timezone.now()).replace(tzinfo=None))


def _pdf(bought: "Buying", house: str) -> bytes:
    from setday.actions.sheets import buying_sheets

    return buying_sheets(house, bought, dated=on_site(timezone.now()).date())


_KINDS: dict[str, tuple[str, Callable[["Buying", str], bytes]]] = {
    "csv": ("text/csv; charset=utf-8", _csv),
    "xlsx": ("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", _xlsx),
    "pdf": ("application/pdf", _pdf),
}
