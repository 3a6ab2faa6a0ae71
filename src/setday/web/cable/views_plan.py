"""The wiring plan, what the check found, a wall with what runs inside it."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.drawing import circuit_table, device_table, inside_wall_table
from setday.findings import Severity
from setday.web.cable.pictures import bare_pictures, plan_picture, wall_pictures
from setday.web.cable.sheet_words import cable_context, cable_sheet
from setday.web.houses.sheet import built_sheet
from setday.web.keeping.houses import add_version

__all__ = ["check", "plan", "wall", "write"]


@require_safe
def plan(request: HttpRequest, key: str) -> HttpResponse:
    """Show the devices and the circuits they are on."""
    sheet, cable = cable_sheet(request, key)
    figure = cable.figure
    words = {
        "drawings": plan_picture(sheet, cable),
        "tables": (circuit_table(figure.plan.circuits), device_table(figure.house, figure.plan.circuits)),
        "walls": [(each, sheet.address("cable:wall", name=each.name)) for each in figure.house.walls],
        "counts": _counts(figure.findings),
    }
    return render(request, "cable/plan.html", cable_context(sheet, cable, **words))


def _counts(findings: object) -> dict[str, int]:
    counts = {str(severity): 0 for severity in Severity}
    for each in findings:  # type: ignore[attr-defined]
        counts[str(each.severity)] += 1
    return counts


@require_safe
def check(request: HttpRequest, key: str) -> HttpResponse:
    """Show what was found on devices, circuits and routes, with a picture of every wall without an outlet."""
    sheet, cable = cable_sheet(request, key)
    bare = {each.finding for each in cable.figure.check.bare}
    rest = [each for each in cable.figure.findings if each not in bare]
    rooms = [
        (room, drawings, [each.finding for each in cable.figure.check.bare if each.room == room])
        for room, drawings in bare_pictures(cable).items()
    ]
    words = {"rooms": rooms, "rest": rest, "settings": cable.figure.settings}
    return render(request, "cable/check.html", cable_context(sheet, cable, **words))


@require_safe
def wall(request: HttpRequest, key: str, name: str) -> HttpResponse:
    """Show a wall from both sides: boxes, runs, holes, plates."""
    sheet, cable = cable_sheet(request, key)
    figure = cable.figure
    found = next((each for each in figure.house.walls if each.name == name), None)
    if found is None:
        raise Http404
    routing = figure.routing
    table = inside_wall_table(
        figure.house, found, runs=routing.runs, holes=routing.holes, plates=routing.plates
    )
    words = {
        "wall": found,
        "elevations": wall_pictures(sheet, cable, found),
        "table": table,
        "framing_address": sheet.address("houses:wall", name=name),
    }
    return render(request, "cable/wall.html", cable_context(sheet, cable, **words))


@require_POST
def write(request: HttpRequest, key: str) -> HttpResponse:
    """Write the proposed devices and circuits into the house file, as another version."""
    from setday.actions.cable.writing import with_wiring

    sheet = built_sheet(request, key)
    _sheet, cable = cable_sheet(request, key)
    if not sheet.is_newest:
        raise Http404
    text = with_wiring(sheet.opened, cable)
    kept = add_version(
        sheet.house,
        name=sheet.house.name,
        file_name=sheet.version.file_name,
        text=text,
        note=_("devices and circuits as proposed"),
    )
    messages.success(request, _("Kept as version %(number)d.") % {"number": kept.number})
    return redirect("cable:plan", key=key)
