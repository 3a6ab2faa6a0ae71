"""The pull list, and the runs as they are pulled."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header, url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.drawing import home_run_table
from setday.errors import MeasureError
from setday.measure import Length, parse_length
from setday.web.cable.as_built import as_built_of, note_run, take_back
from setday.web.cable.coils import coils_of
from setday.web.cable.pictures import home_picture
from setday.web.cable.sheet_words import cable_context, cable_sheet
from setday.web.clock import on_site

if TYPE_CHECKING:
    from setday.actions.cable.pulling import AsBuilt

__all__ = ["pdf", "pulled", "pulls"]

_LONGEST_FT = 1000


@require_safe
def pulls(request: HttpRequest, key: str) -> HttpResponse:
    """Show every run by circuit, how far the pulling is, and the map of the home runs."""
    sheet, cable = cable_sheet(request, key)
    built = as_built_of(sheet, cable)
    groups = []
    for number, circuit in enumerate(cable.figure.plan.circuits, start=1):
        states = [state for state in built.runs if state.pull.circuit == circuit.name]
        groups.append(
            {
                "circuit": circuit,
                "number": number,
                "address": sheet.address("cable:circuit", number=str(number)),
                "states": states,
                "pulled": sum(state.used is not None for state in states),
            }
        )
    words = {
        "state": built,
        "groups": groups,
        "kinds": _by_kind(built),
        "coil_plans": coils_of(sheet),
        "drawings": home_picture(cable),
        "homes": home_run_table(cable.figure.routing.runs),
    }
    return render(request, "cable/pulls.html", cable_context(sheet, cable, **words))


def _by_kind(built: "AsBuilt") -> list[dict[str, Any]]:
    """Return planned, pulled and used lengths by kind of cable [ft]."""
    kinds: dict[str, dict[str, Any]] = {}
    for state in built.runs:
        row = kinds.setdefault(
            state.pull.kind, {"kind": state.pull.kind, "runs": 0, "planned": 0.0, "pulled": 0, "used": 0.0}
        )
        row["runs"] += 1
        row["planned"] += state.pull.cut.feet
        row["pulled"] += state.used is not None
        row["used"] += state.used.feet if state.used is not None else 0.0
    return sorted(kinds.values(), key=lambda row: row["kind"])


@require_POST
def pulled(request: HttpRequest, key: str, run: str) -> HttpResponse:
    """Note that a run is in, with its measured length, or take the note back."""
    sheet, cable = cable_sheet(request, key)
    found = next((each for each in cable.figure.pulls if each.number == run), None)
    if found is None:
        raise Http404
    back = request.POST.get("next", "")
    number = cable.figure.number_of(found.circuit)
    address = f"{sheet.address('cable:circuit', number=str(number))}#run-{run}"
    if url_has_allowed_host_and_scheme(back, allowed_hosts=None):
        address = back
    if request.POST.get("undo") == "yes":
        take_back(sheet, run)
        messages.success(request, _("Run %(run)s is taken back.") % {"run": run})
        return redirect(address)
    typed = request.POST.get("measured", "").strip()
    try:
        measured = _measured(typed)
    except MeasureError as error:
        messages.error(request, f"{_('Run')} {run}: {error}")
        return redirect(address)
    coil = request.POST.get("coil", "")
    known = {str(each.number) for each in coils_of(sheet).coils if each.kind == found.kind}
    note_run(
        sheet,
        number=run,
        ends=found.label,
        measured=measured,
        coil=int(coil) if coil in known else 0,
        by=request.user.get_username(),
    )
    messages.success(request, _("Run %(run)s is in.") % {"run": run})
    return redirect(address)


def _measured(typed: str) -> Length | None:
    """Read a measured length; nothing typed means nobody measured."""
    if not typed:
        return None
    length = parse_length(typed)
    if not 0 < length.feet <= _LONGEST_FT:
        raise MeasureError(
            _("%(length)s is no length of a run.") % {"length": length},
            do=_("Write it as on the tape, like 32' 6\"."),
        )
    return length


@require_safe
def pdf(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the printed sheets: pull lists, labels, home runs, panel, wiring plan."""
    from setday.actions.cable.sheets import cable_pages

    sheet, cable = cable_sheet(request, key)
    pages = cable_pages(
        sheet.house.name, cable, coils=coils_of(sheet).coils, dated=on_site(timezone.now()).date()
    )
    response = HttpResponse(pages, content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(
        False, f"{sheet.house.key}-cable.pdf"
    )
    return response
