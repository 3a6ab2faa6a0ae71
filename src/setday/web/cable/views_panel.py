"""The panel: its directory, its legs, and the load behind it."""

from itertools import zip_longest

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.web.cable.sheet_words import cable_context, cable_sheet

__all__ = ["panel"]


@require_safe
def panel(request: HttpRequest, key: str) -> HttpResponse:
    """Show the panel's directory and how the load was worked out."""
    sheet, cable = cable_sheet(request, key)
    directory, worked = cable.figure.plan.directory, cable.figure.worked
    numbers = {each.name: n for n, each in enumerate(cable.figure.plan.circuits, start=1)}
    by_name = {each.name: each for each in cable.figure.plan.circuits}
    slots = [(slot, numbers.get(slot.circuit, 0), by_name.get(slot.circuit)) for slot in directory.slots]
    words = {
        "directory": directory,
        "rows": list(zip_longest(slots[0::2], slots[1::2])),
        "service": worked.service,
        "workings": (worked.standard, worked.optional, worked.neutral, worked.legs.working,
                     worked.service.working),
    }  # fmt: skip
    return render(request, "cable/panel.html", cable_context(sheet, cable, **words))
