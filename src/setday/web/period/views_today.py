"""What crews see: their own tasks on the tablet, all crews on the wall screen."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from setday.web.entries import who_enters
from setday.web.keeping.models import ClassPeriod, PeriodCrew, SealedOffer
from setday.web.people.who import members_present
from setday.web.period.bells import bells_of
from setday.web.period.early import early_words
from setday.web.period.forms import FixForm, NoteForm
from setday.web.period.shown import crew_cards

__all__ = ["crew_of", "today", "today_words", "wall"]


@require_safe
def today(request: HttpRequest) -> HttpResponse:
    """Show a crew its tasks of the period that is on."""
    if not members_present(request):
        return redirect("period:list")
    return render(request, "period/today.html", today_words(request))


def today_words(request: HttpRequest) -> dict[str, Any]:
    """Return what a crew's sheet shows: its own card and nothing of others."""
    here = members_present(request)
    period = _on_now(request)
    crew = crew_of(request, period) if period is not None else None
    cards = _cards(request, period, crew) if period is not None and crew is not None else []
    return {
        "period": period,
        "card": cards[0] if cards else None,
        "here": here,
        "fix_form": FixForm(prefix="fix"),
        "note_form": NoteForm(prefix="note"),
        "who": who_enters(request),
        "mine": True,
        "sealed": period is not None and _something_sealed(period),
    }


def _cards(request: HttpRequest, period: ClassPeriod, crew: PeriodCrew) -> list[dict[str, Any]]:
    """Return the card of a crew with its bell sheet."""
    cards = crew_cards(period, only=crew)
    for card in cards:
        bells_of(period, card, request.member)
        left = [each["task"] for each in card["tasks"] if not each["done"]]
        card["early"] = early_words(crew, left or [each["task"] for each in card["tasks"]], card["members"])
    return cards


def _something_sealed(period: ClassPeriod) -> bool:
    """Return whether a figure of the house waits for the class: then no quantity of the house may tell it."""
    offers = SealedOffer.objects.filter(school_class=period.school_class_id, opened_at__isnull=True)
    return bool(offers.filter(version__house=period.house_id).exists())


def _on_now(request: HttpRequest) -> ClassPeriod | None:
    """Return the period of the class that is open and began last."""
    rows = ClassPeriod.objects.of(request.school).filter(
        school_class=request.member.school_class, closed_at__isnull=True, begins__lte=timezone.now()
    )
    found: ClassPeriod | None = (
        rows.select_related("house", "school_class", "school").order_by("-begins").first()
    )
    return found


def crew_of(request: HttpRequest, period: ClassPeriod) -> PeriodCrew | None:
    """Return the crew in which the one who signed in sits; who is ticked beside them does not count."""
    rows = PeriodCrew.objects.filter(period=period, seats__member=request.member)
    found: PeriodCrew | None = rows.select_related("period").first()
    return found


@require_safe
def wall(request: HttpRequest, number: int) -> HttpResponse:
    """Show all crews large, for the screen on the wall; names as crews read them."""
    from setday.web.period.views_periods import period_of

    period = period_of(request, number)
    return render(request, "period/wall.html", {"period": period, "crews": crew_cards(period)})
