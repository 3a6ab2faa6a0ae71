"""The hookups of a house: the switched groups of its circuits, taken to the bench, and those kept."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.cable.figured import cable_of
from setday.web.houses.sheet import built_sheet, house_sheet
from setday.web.keeping.hookups import hookups_kept
from setday.web.switching.cards import hookup_card
from setday.web.switching.from_house import group_words, rows_of, taken

__all__ = ["of_house", "take"]


@require_safe
def of_house(request: HttpRequest, key: str) -> HttpResponse:
    """Show the switched groups of a house, and the hookups kept for it."""
    sheet = house_sheet(request, key)
    cards = [hookup_card(kept) for kept in hookups_kept(request.school, house=sheet.house)]
    addresses = {
        "take_address": sheet.address("switching:take"),
        "file_address": sheet.address("houses:file"),
    }
    words = {**addresses, **group_words(sheet)}
    return render(request, "switching/of_house.html", sheet.context(cards=cards, **words))


@require_POST
def take(request: HttpRequest, key: str) -> HttpResponse:
    """Keep a switched group of a house as a hookup, its plan sealed, and open the bench on it."""
    sheet = built_sheet(request, key)
    wanted = request.POST.get("group", "")
    rows = rows_of(sheet, cable_of(sheet))
    row = next((each for each in rows if each.found.group.name == wanted), None)
    if row is None:
        raise Http404
    kept = taken(
        sheet, row, note=_("from version %(number)d of the house file") % {"number": sheet.version.number}
    )
    if row.kept is None or row.older:
        messages.success(request, _("%(hookup)s is kept; its plan is sealed.") % {"hookup": kept.name})
    return redirect("switching:draw", key=kept.key)
