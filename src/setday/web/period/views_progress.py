"""What an outsider may see of a house: how far it is, hours in sum, photos that were released; no names."""

from collections import defaultdict
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.web.access import Role, role_of
from setday.web.houses.sheet import house_sheet
from setday.web.keeping.models import ClassPeriod, House, Photo
from setday.web.period.figured import house_log, spells_of
from setday.web.period.tasks import Standing, standings

__all__ = ["progress", "release"]

_SHOWN = 60


@require_safe
def progress(request: HttpRequest, key: str) -> HttpResponse:
    """Show how far a house is; the instructor also picks the photos that others may see."""
    sheet = house_sheet(request, key)
    teaching = role_of(request) is not Role.READER
    listed = [each for each in standings(sheet.house, house_log(sheet.house)) if not each.task.filler]
    photos = sheet.house.photos.order_by("-made_at", "-pk")
    words: dict[str, Any] = {
        "trades": _by_trade(listed),
        "share": _share(listed),
        "hours": round(_student_minutes(sheet.house) / 60),
        "photos": (photos if teaching else photos.filter(released=True))[:_SHOWN],
        "may_release": role_of(request) in {Role.INSTRUCTOR, Role.KEEPER},
    }
    return render(request, "period/progress.html", sheet.context(**words))


def _by_trade(listed: list[Standing]) -> list[tuple[str, int, int, int]]:
    """Return trade, tasks done, tasks in all, and how much of its work is done [percent]."""
    trades: dict[str, list[Standing]] = defaultdict(list)
    for each in listed:
        trades[each.task.trade].append(each)
    return [
        (trade, sum(each.share >= 1 for each in own), len(own), _share(own))
        for trade, own in sorted(trades.items())
    ]


def _share(listed: list[Standing]) -> int:
    """Return how much of the work is done, counted by its planned minutes [percent]."""
    planned = sum(each.task.minutes or 1 for each in listed)
    done = sum((each.task.minutes or 1) * each.share for each in listed)
    return round(100 * done / planned) if planned else 0


def _student_minutes(house: House) -> int:
    """Return the minutes of all students at a house in sum [min]."""
    periods = ClassPeriod.objects.filter(house=house)
    return sum(spell.minutes * len(spell.members) for period in periods for spell in spells_of(period))


@require_POST
def release(request: HttpRequest, key: str, photo: UUID) -> HttpResponse:
    """Let readers see a photo, or no longer."""
    sheet = house_sheet(request, key)
    found = get_object_or_404(Photo, house=sheet.house, key=photo)
    found.released = not found.released
    found.save(update_fields=["released"])
    messages.success(request, _("Readers see it now.") if found.released else _("Readers see it no longer."))
    return redirect("period:progress", key=sheet.house.key)
