"""Chosen devices: where a school closes the site to all others, only they are served.

A device is known by a cookie whose digest is in the records.  It gets the cookie for a one-time code that
the instructor reads to it; the instructor's own device is known before the site is closed.
"""

import secrets
from datetime import timedelta
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.crypto import salted_hmac
from django.utils.translation import gettext as _

from setday.web.errors import error_page
from setday.web.keeping.models import Device, Member, School
from setday.web.people.codes import one_time_code, one_time_digest

__all__ = [
    "device_here",
    "from_chosen_device",
    "know_this_one",
    "may_be_served",
    "may_serve",
    "not_this_device",
    "offer",
    "remember",
    "take_code",
]

_COOKIE = "setday_device"
_KEPT = timedelta(days=400)
_CODE_HOLDS = timedelta(minutes=30)


def may_serve(request: HttpRequest) -> bool:
    """Return whether the device of a request may see its school."""
    return request.school is None or may_be_served(request, request.school)


def may_be_served(request: HttpRequest, school: School) -> bool:
    """Return whether a school is open to the device of a request."""
    return not school.only_devices or device_here(request, school) is not None


def from_chosen_device(request: HttpRequest, user: Any) -> bool:
    """Return whether the school of an account is open to the device of a request."""
    member = Member.objects.filter(user=user).select_related("school").first()
    return member is None or may_be_served(request, member.school)


def device_here(request: HttpRequest, school: School) -> Device | None:
    """Return the chosen device that a request comes from."""
    token = request.COOKIES.get(_COOKIE, "")
    if not token:
        return None
    found: Device | None = Device.objects.of(school).filter(digest=_digest(token)).first()
    return found


def not_this_device(request: HttpRequest) -> HttpResponse:
    """Answer a device that was not chosen."""
    return error_page(
        request,
        status=403,
        title=_("This device was not chosen"),
        message=_("The instructor has closed the site to all but chosen devices."),
        do=_("Ask the instructor for a device code, and type it under: Sign in, This device has a code."),
    )


def offer(school: School, *, name: str) -> tuple[Device, str]:
    """Write a device down that is to take a one-time code, and return both."""
    code = one_time_code()
    ends = timezone.now() + _CODE_HOLDS
    made = Device.objects.create(school=school, name=name, code=one_time_digest(code), code_ends_at=ends)
    return made, code


def take_code(typed: str) -> tuple[Device, str] | None:
    """Use up a one-time code; return the device and what its browser is to keep."""
    digest = one_time_digest(typed)
    waiting = Device.objects.filter(code=digest, code_ends_at__gte=timezone.now()) if digest else ()
    for device in waiting:
        token = secrets.token_urlsafe(32)
        took = Device.objects.filter(pk=device.pk, code=digest).update(digest=_digest(token), code="")
        if took:
            return device, token
    return None


def know_this_one(request: HttpRequest, response: HttpResponse, *, school: School, name: str) -> None:
    """Choose the device of a request, unless it is chosen already."""
    if device_here(request, school) is None:
        token = secrets.token_urlsafe(32)
        Device.objects.create(school=school, name=name, digest=_digest(token))
        remember(response, token)


def remember(response: HttpResponse, token: str) -> None:
    """Give the browser what makes it known."""
    response.set_cookie(
        _COOKIE,
        token,
        max_age=int(_KEPT.total_seconds()),
        samesite="Lax",
        httponly=True,
        secure=settings.SESSION_COOKIE_SECURE,
    )


def _digest(token: str) -> str:
    digest: str = salted_hmac("setday.device", token, algorithm="sha256").hexdigest()
    return digest
