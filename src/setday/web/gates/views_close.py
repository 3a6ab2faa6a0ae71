"""Closing a surface, opening it again, and the record of what is behind it."""

from typing import TYPE_CHECKING

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from setday.errors import SetdayError
from setday.web.clock import on_site
from setday.web.entries import entry_of
from setday.web.gates.house import gate_sheet
from setday.web.gates.pictures import recorded_picture
from setday.web.gates.saying import said_of
from setday.web.gates.views_mark import refused_again
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.gate_store import DjangoGates
from setday.web.keeping.models import House, Photo

if TYPE_CHECKING:
    from setday.closein import BehindRecord

__all__ = ["close", "pdf", "record", "reopen"]


@require_POST
def close(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Say that a surface is covered, and write down what is inside it."""
    from setday.actions.gates.closing import close_surface

    sheet = gate_sheet(request, key)
    sheet.gate(surface)
    try:
        said = said_of(request, entry=str(entry_of(request)))
        name = sheet.sheet.house.name
        zone = on_site(said.at).tzinfo
        closed = close_surface(sheet.store, sheet.place, surface, said=said, house_name=name, zone=zone)
    except SetdayError as error:
        return refused_again(request, sheet, surface, error)
    messages.success(request, _("%(surface)s is closed, and what is inside it is on record.")
                     % {"surface": closed.record.label})  # fmt: skip
    return redirect("gates:record", key=key, entry=closed.mark.entry)


@require_POST
def reopen(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Say that the boards came off again."""
    from setday.actions.gates.marks import reopen_surface

    sheet = gate_sheet(request, key)
    gate = sheet.gate(surface)
    try:
        reopen_surface(sheet.store, sheet.place, surface, said=said_of(request, entry=str(entry_of(request))))
    except SetdayError as error:
        return refused_again(request, sheet, surface, error)
    messages.success(request, _("%(surface)s is open again; its record stays.") % {"surface": gate.label})
    return redirect("gates:surface", key=key, surface=surface)


def _found(request: HttpRequest, key: str, entry: str) -> "tuple[House, BehindRecord]":
    """Return a record of a house of this school: as it was written, whatever the house file says now."""
    from setday.actions.gates.closing import kept_record

    house = get_object_or_404(House.objects.of(request.school), key=key)
    found = kept_record(DjangoGates(house=house), entry)
    if found is None:
        raise Http404
    return house, found


@require_safe
def record(request: HttpRequest, key: str, entry: str) -> HttpResponse:
    """Show what was inside a surface when it was closed."""
    house, found = _found(request, key, entry)
    newest = house.newest
    sheet = HouseSheet(house=house, version=newest, newest=newest.number)
    words = {
        "record": found,
        "entry": entry,
        "closed_at": parse_datetime(found.closed_at),
        "drawings": recorded_picture(found),
        "photos": _photos(house, found),
    }
    return render(request, "gates/record.html", sheet.context(**words))


def _photos(house: House, found: "BehindRecord") -> list[Photo]:
    return list(Photo.objects.filter(house=house, key__in=found.photos).order_by("pk"))


@require_safe
def pdf(request: HttpRequest, key: str, entry: str) -> HttpResponse:
    """Hand out the printed page of a record, for the owner."""
    from setday.actions.gates.sheets import behind_pages

    house, found = _found(request, key, entry)
    pictures = {
        str(photo.key): (photo.path.read_bytes(), photo.width, photo.height)
        for photo in _photos(house, found)
        if photo.path.is_file()
    }
    pages = behind_pages(found, photos=pictures, dated=on_site(timezone.now()).date())
    response = HttpResponse(pages, content_type="application/pdf")
    name = f"{house.key}-behind-{found.surface.replace('/', '-').replace(' ', '-')}.pdf"
    response.headers["Content-Disposition"] = content_disposition_header(False, name)
    return response
