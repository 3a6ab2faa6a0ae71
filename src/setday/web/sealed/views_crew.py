"""A crew's own sheets of sealed figures: the list, and one figure to try; nothing sealed is on them."""

from typing import TYPE_CHECKING, Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from setday.errors import SetdayError
from setday.web.entries import fresh_entry, kept, not_theirs, refused, who_enters
from setday.web.keeping.models import Member, SealedEntry, SealedOffer
from setday.web.people.who import members_present
from setday.web.sealed.entering import Handed, hand_in, read_form, sealed_for
from setday.web.sealed.figures import diagnoser_of, figure_in
from setday.web.sealed.shown import laid_bare
from setday.web.sealed.words import hint_words

if TYPE_CHECKING:
    from setday.learning import SealedFigure

__all__ = ["mine", "sheet", "state_of"]

_ROWS_SHOWN = 4


@require_safe
def mine(request: HttpRequest) -> HttpResponse:
    """List the figures that wait for this crew member."""
    here = members_present(request)
    if not here:
        return redirect("houses:list")
    rows = [
        {"offer": offer, "figure": figure_in(offer), "state": state_of(offer, here[0])}
        for offer in sealed_for(here[0])
    ]
    return render(request, "sealed/mine.html", {"rows": rows, "member": here[0]})


def state_of(offer: SealedOffer, member: Member) -> "SealedFigure":
    from setday.learning import SealedFigure

    tries = SealedEntry.objects.filter(offer=offer, member=member).count()
    return SealedFigure(figure=offer.figure, tries_allowed=offer.tries, tries=tries, opened=offer.opened)


@require_http_methods(["GET", "HEAD", "POST"])
def sheet(request: HttpRequest, number: int) -> HttpResponse:
    """Show one figure to try, and take what is handed in."""
    here = members_present(request)
    if not here:
        return redirect("houses:list")
    offer = get_object_or_404(sealed_for(here[0]), pk=number)
    if offer.by_layout:
        return redirect("sealed:lay", number=number)
    if request.method != "POST":
        return _shown(request, offer, here[0], Handed())
    turned = not_theirs(request)
    if turned is not None:
        return turned
    handed = read_form(request.POST, figure_in(offer))
    if not handed.refused:
        try:
            hand_in(request, offer, handed)
        except SetdayError as error:
            handed.refused.append(str(error))
    if handed.refused:
        return refused(request, _shown(request, offer, here[0], handed), said=" ".join(handed.refused))
    return kept(request, reverse("sealed:try", kwargs={"number": number}), said=_("Handed in."))


def _shown(request: HttpRequest, offer: SealedOffer, member: Member, handed: Handed) -> HttpResponse:
    """Show the sheet: the question and what this member wrote; the answer only once it is opened."""
    entries = list(SealedEntry.objects.filter(offer=offer, member=member).order_by("pk"))
    state, figure = state_of(offer, member), figure_in(offer)
    words: dict[str, Any] = {
        "offer": offer,
        "title": figure.title,
        "ask": figure.ask,
        "unit": figure.unit,
        "taken_for_granted": figure.assumptions,
        "state": state,
        "left": max(0, offer.tries - len(entries)),
        "entries": entries,
        "member": member,
        "who": who_enters(request),
        "handed": handed,
        "first_rows": handed.rows[:_ROWS_SHOWN],
        "more_rows": handed.rows[_ROWS_SHOWN:],
        "more_open": len(handed.lines) > _ROWS_SHOWN,
        "entry": request.POST.get("entry") or fresh_entry(),
        "hints": _hints(offer, entries),
    }
    if state.may_see:
        words |= laid_bare(offer, entries)
    return render(request, "sealed/try.html", words)


def _hints(offer: SealedOffer, entries: list[SealedEntry]) -> list[str]:
    """Return what kind of slip the last entry may have; only where the instructor allows hints."""
    if not offer.hints or offer.opened or not entries:
        return []
    from setday.learning import hints_for
    from setday.web.sealed.entering import matched_lines

    diagnoser = diagnoser_of(offer)
    lines = matched_lines(diagnoser.figure, entries[-1])
    return [hint_words(each) for each in hints_for(diagnoser.diagnose([line.written for line in lines]))]
