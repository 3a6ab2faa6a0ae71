"""The instructor looks at what was handed in, opens the figure, and marks the right slip."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.houses.sheet import HouseSheet, house_sheet
from setday.web.keeping.models import SealedOffer, SlipMark
from setday.web.sealed.counts import area_and_layout
from setday.web.sealed.figures import diagnoser_of, figure_in
from setday.web.sealed.pictures import figure_pictures, spread_pictures
from setday.web.sealed.shown import laid_bare
from setday.web.sealed.walls import best_known, laid_row
from setday.web.sealed.words import kind_words

__all__ = ["mark", "offer", "open_up"]


def _of_house(request: HttpRequest, key: str, number: int) -> tuple[HouseSheet, SealedOffer]:
    sheet = house_sheet(request, key)
    offers = SealedOffer.objects.of(request.school).filter(version__house=sheet.house)
    return sheet, get_object_or_404(offers.select_related("version", "school_class"), pk=number)


@require_safe
def offer(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show a sealed figure with all that was handed in, the right working and the slips."""
    sheet, found = _of_house(request, key, number)
    figure = figure_in(found)
    entries = list(found.entries.select_related("member", "mark").order_by("member__shown_as", "pk"))
    if found.by_layout:
        return _laid(request, sheet, found, entries)
    bare = laid_bare(found, entries)
    built = HouseSheet(house=sheet.house, version=found.version, newest=sheet.newest)
    return render(
        request,
        "sealed/offer.html",
        sheet.context(
            offer=found,
            figure=figure,
            crew=found.members.order_by("shown_as", "pk"),
            drawings=figure_pictures(built, figure),
            spread=spread_pictures(figure, diagnoser_of(found), bare["shown"]),
            kinds=_kinds(found),
            counts=area_and_layout(found, diagnoser_of(found)),
            **bare,
        ),
    )


def _laid(request: HttpRequest, sheet: HouseSheet, found: SealedOffer, entries: list[Any]) -> HttpResponse:
    """Show what was laid: each wall with its boards, what the check holds against it, the best known."""
    rows = [laid_row(found, entry) for entry in entries]
    words = sheet.context(offer=found, figure=figure_in(found), rows=rows, best=best_known(found))
    return render(request, "sealed/laid.html", words)


def _kinds(found: SealedOffer) -> list[tuple[str, str]]:
    from setday.learning import UNKNOWN, slips_of

    kinds = dict.fromkeys(str(slip.kind) for slip in slips_of(figure_in(found)))
    named = sorted(((kind, kind_words(kind)) for kind in kinds), key=lambda each: each[1])
    return [*named, (UNKNOWN, kind_words(UNKNOWN))]


@require_POST
def open_up(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Open a figure: from now on the students see the answer and their own slips."""
    _sheet, found = _of_house(request, key, number)
    if not found.opened:
        found.opened_at = timezone.now()
        found.save(update_fields=["opened_at"])
        messages.success(request, _("Opened: the students see the answer and their own slips now."))
    return redirect("sealed:offer", key=key, number=number)


@require_POST
def mark(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Mark the kind of slip that was the right one; the odds of the class learn from it."""
    _sheet, found = _of_house(request, key, number)
    entry = found.entries.filter(pk=_number(request.POST.get("of", ""))).first()
    if entry is None:
        raise Http404
    kind = request.POST.get("kind", "")
    if kind in dict(_kinds(found)):
        SlipMark.objects.update_or_create(
            entry=entry, defaults={"kind": kind, "school_class": found.school_class}
        )
        messages.success(request, _("Marked: %(kind)s.") % {"kind": kind_words(kind)})
    else:
        messages.error(request, _("Choose a kind of slip of the list."))
    return redirect("sealed:offer", key=key, number=number)


def _number(text: str) -> Any:
    return int(text) if text.isdecimal() and len(text) < 12 else None
