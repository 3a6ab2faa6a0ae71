"""What the instructor adds to a gate: blocking at a place, an inspection, anything else."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from setday.closein import Added, BlockingFor, GateRefusal, ItemKind, Spot, usual_spot
from setday.errors import SetdayError
from setday.measure import Length, parse_length
from setday.web.entries import entry_of
from setday.web.gates.house import GateSheet, gate_sheet
from setday.web.gates.saying import signer_of
from setday.web.gates.views_mark import refused_again

__all__ = ["add", "strike"]


@require_POST
def add(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Ask for something more at the gate of a surface."""
    from setday.actions.gates.marks import add_to_gate

    sheet = gate_sheet(request, key)
    sheet.gate(surface)
    try:
        wanted = _wanted(request, sheet, surface)
        everywhere = request.POST.get("everywhere") == "yes"
        added = add_to_gate(sheet.store, sheet.place, wanted, everywhere=everywhere)
    except SetdayError as error:
        return refused_again(request, sheet, surface, error)
    messages.success(request, _("Asked for now: %(what)s") % {"what": added.item.label})
    return redirect("gates:surface", key=key, surface=surface)


def _wanted(request: HttpRequest, sheet: GateSheet, surface: str) -> Added:
    what = request.POST.get("what", "")
    blocking = {each.value for each in BlockingFor}
    if what not in {*blocking, "inspection", "added"}:
        raise GateRefusal(_("It is not said what to add."), do=_("Choose it from the list."))
    facts = {
        "key": str(entry_of(request)),
        "surface": surface,
        "by": signer_of(request),
        "at": timezone.now(),
    }
    words = " ".join(request.POST.get("words", "").split())[:200]
    if what not in blocking:
        return Added(**facts, kind=ItemKind(what), words=words, notice_days=_days(request))
    kind = BlockingFor(what)
    spot = _spot(request, sheet, surface, kind)
    return Added(**facts, kind=ItemKind.BLOCKING, what=kind, words=words, spot=spot)


def _days(request: HttpRequest) -> int:
    typed = request.POST.get("notice", "").strip()
    if not typed:
        return 0
    try:
        return int(typed)
    except ValueError as error:
        raise GateRefusal(
            _("%(days)s is no number of days.") % {"days": typed[:20]}, do=_("Write a whole number, like 2.")
        ) from error


def _spot(request: HttpRequest, sheet: GateSheet, surface: str, kind: BlockingFor) -> Spot | None:
    """Read a place; nothing typed takes the usual one, where there is one."""
    typed = {name: request.POST.get(name, "").strip() for name in ("x", "y", "w", "h")}
    found = sheet.place.house.surface(surface)
    if not any(typed.values()):
        return usual_spot(kind, found, rules=sheet.place.rules)
    lacking = [name for name, text in typed.items() if not text]
    if lacking:
        raise GateRefusal(
            _("The place is only half given."),
            do=_("Give how far from the left, how far up, how wide and how high; or leave all four empty."),
        )
    lengths: dict[str, Length] = {name: parse_length(text) for name, text in typed.items()}
    return Spot(**lengths)


@require_POST
def strike(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Ask for an added thing no longer."""
    from setday.actions.gates.marks import strike_from_gate

    sheet = gate_sheet(request, key)
    sheet.gate(surface)
    try:
        struck = strike_from_gate(
            sheet.store,
            sheet.place,
            surface,
            request.POST.get("added", ""),
            by=signer_of(request),
            words=request.POST.get("words", ""),
        )
    except SetdayError as error:
        return refused_again(request, sheet, surface, error)
    messages.success(request, _("Asked for no longer: %(what)s") % {"what": struck.item.label})
    return redirect("gates:surface", key=key, surface=surface)
