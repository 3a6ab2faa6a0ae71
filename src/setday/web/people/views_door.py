"""The door of crews, helpers and readers: a card, a one-time code, a device's code."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from setday.web.desk.door import (
    CARD,
    DEVICE,
    forget_tries,
    leads_to_cards,
    minutes_to_wait,
    note_wrong_try,
    wait_words,
)
from setday.web.keeping.models import Card, MemberRole
from setday.web.people.accounts import account_of, admit, may_come_in
from setday.web.people.codes import card_of, code_read, fits
from setday.web.people.devices import may_be_served, remember, take_code
from setday.web.people.forms_door import CardForm, ChooseForm, DeviceCodeForm

__all__ = ["card", "choose", "device"]


@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def card(request: HttpRequest) -> HttpResponse:
    """Let a crew member in who types the digits of their card."""
    form = CardForm(request.POST if request.method == "POST" else None)
    asked = request.POST.get("next") or request.GET.get("next") or ""
    if request.method == "POST" and form.is_valid():
        found = _held_card(request, form, crew=True)
        if found is not None:
            admit(request, found.member)
            response = redirect(_back(request, asked))
            leads_to_cards(response, yes=True)
            return response
    status = 422 if request.method == "POST" else 200
    return render(request, "people/card.html", {"form": form, "next": asked, "keys": _KEYS}, status=status)


_KEYS = ("1", "2", "3", "4", "5", "6", "7", "8", "9")


def _held_card(request: HttpRequest, form: CardForm | ChooseForm, *, crew: bool) -> Card | None:
    """Return the card of the code in a form, or say in the form why it opens nothing."""
    address, now = request.META.get("REMOTE_ADDR", ""), timezone.now()
    lookup, secret = code_read(form.cleaned_data["code"])
    if not lookup:
        form.add_error("code", _("A code has nine digits. Type all of them."))
        return None
    wait = minutes_to_wait(who=lookup, address=address, now=now, what=CARD)
    if wait:
        form.add_error(None, wait_words(wait))
        return None
    found = card_of(lookup)
    right = fits(found, secret)
    if found is None or not right or not _opens(found, crew=crew):
        note_wrong_try(who=lookup, address=address, now=now, what=CARD)
        form.add_error("code", _("No card has these digits. Read them once more, or ask the instructor."))
        return None
    forget_tries(who=lookup, address=address, what=CARD)
    if not may_be_served(request, found.member.school):
        form.add_error(None, _("This device was not chosen. Ask the instructor for a device code."))
        return None
    return found


def _opens(found: Card, *, crew: bool) -> bool:
    """Return whether a card is in force, at this door: a crew's, or that of a one-time code."""
    if found.ends_at is not None and found.ends_at < timezone.now():
        return False
    return may_come_in(found.member) and (found.member.role == MemberRole.CREW) is crew


@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def choose(request: HttpRequest) -> HttpResponse:
    """Let the holder of a one-time code choose a name and a password."""
    form = ChooseForm(request.POST if request.method == "POST" else None)
    if request.method != "POST":
        return render(request, "people/choose.html", {"form": form})
    form.is_valid()
    found = _held_card(request, form, crew=False) if "code" in form.cleaned_data else None
    if found is not None and "name" in form.cleaned_data:
        form.check_name(found.member.user.username if found.member.user else "")
    if found is None or not form.is_valid():
        return render(request, "people/choose.html", {"form": form}, status=422)
    user = account_of(found.member)
    user.username, user.is_active = form.cleaned_data["name"], True
    user.set_password(form.cleaned_data["password"])
    user.save()
    found.delete()
    admit(request, found.member)
    response = redirect("houses:list")
    leads_to_cards(response, yes=False)
    return response


@require_http_methods(["GET", "HEAD", "POST"])
def device(request: HttpRequest) -> HttpResponse:
    """Take the one-time code that makes this device one of the chosen."""
    form = DeviceCodeForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        took = _taken_device(request, form)
        if took is not None:
            messages.success(request, _("This device is chosen: %(name)s.") % {"name": took[0].name})
            response = redirect("people:card")
            remember(response, took[1])
            leads_to_cards(response, yes=True)
            return response
    status = 422 if request.method == "POST" else 200
    return render(request, "people/device.html", {"form": form}, status=status)


def _taken_device(request: HttpRequest, form: DeviceCodeForm) -> Any:
    address, now = request.META.get("REMOTE_ADDR", ""), timezone.now()
    wait = minutes_to_wait(who=address, address=address, now=now, what=DEVICE)
    if wait:
        form.add_error(None, wait_words(wait))
        return None
    took = take_code(form.cleaned_data["code"])
    if took is None:
        note_wrong_try(who=address, address=address, now=now, what=DEVICE)
        form.add_error("code", _("No device waits for this code, or its half hour is over. Ask for another."))
    return took


def _back(request: HttpRequest, asked: str) -> str:
    ours = url_has_allowed_host_and_scheme(
        asked, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    address: str = asked if ours and asked != "/" else reverse("people:mine")
    return address
