"""The plan of gates: every surface marked, then the table, the inspections, what has no place any more."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.access import Role, may, role_of
from setday.web.gates.house import GateSheet, gate_sheet
from setday.web.gates.pictures import plan_picture
from setday.web.gates.withheld import withheld_here
from setday.web.gates.words import astray_words, state_word
from setday.web.keeping.models import ClosedSurface, GateSettings, House

__all__ = ["helpers", "houses", "plan"]

_MOST_TOLD = 40
"""Marks without a place that are listed one by one; our own."""


@require_safe
def houses(request: HttpRequest) -> HttpResponse:
    """Show the houses, for crews: one press to the gates of theirs."""
    found = House.objects.of(request.school).filter(put_away=False)
    return render(request, "gates/list.html", {"houses": found})


@require_safe
def plan(request: HttpRequest, key: str) -> HttpResponse:
    """Show every surface by the state of its gate."""
    sheet = gate_sheet(request, key)
    gates = sheet.gates
    states = {surface: gate.state for surface, gate in gates.by_surface.items()}
    teaching = may(role_of(request), "gates:record")
    words: dict[str, Any] = {
        "drawings": None if withheld_here(request, sheet).anything else plan_picture(sheet, states),
        "rows": _rows(sheet),
        "inspections": sheet.place.inspections,
        "rules": list(sheet.place.rules),
        "wired": sheet.place.wired is not None,
        "astray": _astray(sheet) if teaching else [],
        "records": _records(sheet) if teaching else [],
        "may_set": role_of(request) in {Role.INSTRUCTOR, Role.KEEPER},
        "helper_confirms": sheet.store.helper_confirms,
        "counts": _counts(sheet),
    }
    return render(request, "gates/plan.html", sheet.context(request, **words))


def _rows(sheet: GateSheet) -> list[dict[str, Any]]:
    return [
        {
            "gate": gate,
            "state": state_word(gate.state),
            "missing": len(gate.missing),
            "waiting": len(gate.waiting),
            "items": len(gate.items) + len(gate.behind),
        }
        for gate in sheet.gates.by_surface.values()
    ]


def _counts(sheet: GateSheet) -> dict[str, int]:
    gates = sheet.gates.by_surface.values()
    return {
        "all": len(gates),
        "closed": sum(gate.closing is not None for gate in gates),
        "ready": sum(gate.state.may_close for gate in gates),
        "to_see": len({stand.item.name for gate in gates for stand in gate.waiting}),
    }


def _astray(sheet: GateSheet) -> list[dict[str, Any]]:
    told = sheet.gates.astray[-_MOST_TOLD:]
    return [{"mark": each.mark, "why": astray_words(each)} for each in told]


def _records(sheet: GateSheet) -> list[dict[str, Any]]:
    """Return every closing on record, newest first, of surfaces too that the house no longer has."""
    found = ClosedSurface.objects.filter(house=sheet.sheet.house).order_by("-pk")
    rows = found.values_list("entry", "surface", "made_at")
    labels = sheet.asked.labels
    return [{"entry": e, "label": labels.get(s, s), "at": at} for e, s, at in rows]


@require_POST
def helpers(request: HttpRequest, key: str) -> HttpResponse:
    """Set whether helpers may confirm and refuse at the gates of a house."""
    sheet = gate_sheet(request, key)
    let = request.POST.get("helper_confirms") == "yes"
    GateSettings.objects.update_or_create(house=sheet.sheet.house, defaults={"helper_confirms": let})
    messages.success(
        request, _("Helpers may confirm now.") if let else _("Only the instructor confirms now.")
    )
    return redirect("gates:plan", key=key)
