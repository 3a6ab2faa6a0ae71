"""The list of houses."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.houses.opening import glance
from setday.web.keeping.models import BoardRun, House

__all__ = ["away", "house_list", "put_away"]


@require_safe
def house_list(request: HttpRequest) -> HttpResponse:
    """Show the houses."""
    houses = House.objects.of(request.school).filter(put_away=False)
    away = House.objects.of(request.school).filter(put_away=True).count()
    return render(request, "houses/list.html", {"cards": [_card(house) for house in houses], "away": away})


@require_safe
def away(request: HttpRequest) -> HttpResponse:
    """Show the houses that were put away."""
    houses = House.objects.of(request.school).filter(put_away=True)
    return render(request, "houses/away.html", {"houses": houses})


@require_POST
def put_away(request: HttpRequest, key: str) -> HttpResponse:
    """Take a house off the list, or back onto it; nothing is deleted."""
    house = get_object_or_404(House.objects.of(request.school), key=key)
    house.put_away = request.POST.get("back") != "yes"
    house.save(update_fields=["put_away"])
    words = _("%(house)s was put away.") if house.put_away else _("%(house)s is back on the list.")
    messages.info(request, words % {"house": house.name})
    return redirect("houses:list")


def _card(house: House) -> dict[str, object]:
    runs = BoardRun.objects.filter(version__house=house)
    newest = house.newest
    return {
        "house": house,
        "version": newest,
        "picture": glance(newest),
        "at_work": next((run for run in runs if run.at_work), None),
        "run": runs.filter(cost_cents__isnull=False).first(),
    }
