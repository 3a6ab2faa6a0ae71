"""One board run: how far it is, and what came of it."""

from functools import partial
from typing import Any

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from setday.boards import Comparison, Progress, Surface, boards_document
from setday.drawing import (
    Bar,
    Paper,
    comparison_bars,
    house_boards_overview,
    progress_picture,
    progress_table,
)
from setday.web.boards.sheet import RunSheet, laid_out_sheet, run_sheet
from setday.web.houses.drawings import Drawings, both
from setday.web.keeping.models import BoardRun

__all__ = ["as_json", "progress", "rules", "run"]

_PER_FOOT = 768


@require_safe
def run(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show a run: its progress while it works, then what came of it."""
    sheet = run_sheet(request, key, number)
    if sheet.run.at_work or sheet.run.outcome is None:
        return render(request, "boards/run_at_work.html", sheet.context(**_so_far(sheet.run)))
    if sheet.figure.outcome.layout is None:
        words = {"why": sheet.figure.outcome.why_none, "findings": sheet.figure.findings}
        return render(request, "boards/run_without.html", sheet.context(**words))
    return render(request, "boards/run.html", sheet.context(**_result(sheet)))


@require_safe
def progress(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show the part of the page that tells how far a run is; the whole page anew once it has ended."""
    sheet = run_sheet(request, key, number)
    if not sheet.run.at_work:
        return HttpResponse(headers={"HX-Redirect": sheet.address("boards:run")})
    return render(request, "boards/part_progress.html", sheet.context(**_so_far(sheet.run)))


@require_safe
def rules(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show every rule the layout was made by, with its source."""
    sheet = laid_out_sheet(request, key, number)
    figure = sheet.figure
    words = {"settings": figure.settings, "method": figure.outcome.bound.method}
    return render(request, "boards/rules.html", sheet.context(**words))


@require_safe
def as_json(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Hand out the layout as one document for other programs."""
    sheet = laid_out_sheet(request, key, number)
    answer = JsonResponse(boards_document(sheet.figure), json_dumps_params={"indent": 1})
    answer.headers["Content-Disposition"] = f'attachment; filename="{key}-boards-{number}.json"'
    return answer


def _so_far(run: BoardRun) -> dict[str, Any]:
    reports = _reports(run)
    limit = float(run.options["seconds"])
    told = any(report.cost_cents for report in reports)
    return {
        "limit": limit,
        "spent": min(run.seconds, limit),
        "picture": progress_picture(reports, key="progress") if told else "",
        "ahead": BoardRun.objects.filter(state__in=["waiting", "running"], pk__lt=run.pk).count(),
    }


def _reports(run: BoardRun) -> list[Progress]:
    return [Progress(**report) for report in run.reports]


def _result(sheet: RunSheet) -> dict[str, Any]:
    figure = sheet.figure
    reports = _reports(sheet.run)
    return {
        "figure": figure,
        "gauges": _gauges(sheet),
        "overviews": _overviews(sheet),
        "surfaces": _surfaces(sheet),
        "comparison": figure.comparison,
        "bars": _bars(figure.comparison) if figure.comparison else None,
        "reports": progress_table(reports) if reports else None,
        "picture": progress_picture(reports, key="progress") if reports else "",
        "relaxed": sheet.layout.relaxed,
        "findings": figure.findings,
        "workings": figure.workings,
    }


def _gauges(sheet: RunSheet) -> dict[str, Any]:
    outcome, totals = sheet.figure.outcome, sheet.figure.totals
    assert totals is not None  # a layout has totals
    return {
        "cost_cents": outcome.cost_cents,
        "boards": totals.boards,
        "pieces": totals.pieces,
        "butt_ft": totals.butt_joint / _PER_FOOT,
        "bound_cents": outcome.bound.cost_cents,
        "gap": outcome.gap,
        "waste": 1 - totals.net_area / totals.board_area if totals.board_area else None,
        "status": outcome.status.value,
        "seconds": outcome.seconds,
    }


def _overviews(sheet: RunSheet) -> list[tuple[str, Drawings]]:
    surfaces = sheet.problem.surfaces
    rooms = dict.fromkeys(surface.room for surface in surfaces)
    found = []
    for number, room in enumerate(rooms):
        own = [surface for surface in surfaces if surface.room == room]
        drawings = both(partial(_overview, sheet, own, f"Boards of {room}"), key=f"over-{number}")
        found.append((room, drawings))
    return found


def _overview(sheet: RunSheet, surfaces: list[Surface], title: str, paper: Paper, key: str) -> str:
    boards = sheet.problem.boards
    return house_boards_overview(surfaces, sheet.layout, boards=boards, title=title, paper=paper, key=key)


def _surfaces(sheet: RunSheet) -> list[dict[str, Any]]:
    pieces = sheet.layout.pieces
    return [
        {
            "label": surface.label,
            "address": sheet.address("boards:surface", surface_id=surface.id),
            "kind": surface.board_kind,
            "pieces": sum(piece.surface == surface.id for piece in pieces),
            "boards": len({piece.board for piece in pieces if piece.surface == surface.id}),
        }
        for surface in sheet.problem.surfaces
    ]


def _bars(comparison: Comparison) -> str:
    bars = [
        Bar(
            label=_("by area: sheets with their waste"),
            value=comparison.sheets_sqft,
            written=f"{comparison.sheets_sqft:,.0f} ft2",
        ),
        Bar(
            label=_("by layout: the boards that are bought"),
            value=comparison.boards_sqft,
            written=f"{comparison.boards_sqft:,.0f} ft2",
        ),
        Bar(
            label=_("what is to be covered"),
            value=comparison.layout_net_sqft,
            written=f"{comparison.layout_net_sqft:,.0f} ft2",
        ),
    ]
    return comparison_bars(bars, title=_("Board area, two ways"), key="two-ways")
