"""Entries made on tablets: each has a sign of its own, so that one sent twice is kept once.

The script `setday/entries.js` sends forms marked ``data-keep``, and keeps on the tablet what could not be
sent.  It asks for JSON; without the script a form is answered by a page as usual.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID, uuid4

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.web.people.devices import device_here

__all__ = [
    "NOBODY",
    "SignIn",
    "entered_at",
    "entry_of",
    "fresh_entry",
    "kept",
    "not_theirs",
    "refused",
    "sign_in_of",
    "who_enters",
]

_HEADER = "X-Setday-Entry"
_OLDEST = timedelta(days=14)


def fresh_entry() -> str:
    """Return a sign for a form that is about to be shown."""
    return str(uuid4())


def entry_of(request: HttpRequest) -> UUID:
    """Return the sign of an entry; a new one where the form brought none.

    Raises
    ------
    SetdayError
        When what it brought is no sign: kept under a new one, it might count twice.
    """
    typed = request.POST.get("entry", "")
    try:
        return UUID(typed) if typed else uuid4()
    except ValueError as error:
        raise SetdayError(
            _("The sign of this form is damaged."), do=_("Open the sheet again and send it once more.")
        ) from error


def entered_at(request: HttpRequest) -> datetime:
    """Return when the entry was made: as the tablet says if it waited there, else now."""
    now = timezone.now()
    said = request.POST.get("entered_at", "")
    try:
        at = parse_datetime(said)
    except ValueError:
        at = None
    if at is None or timezone.is_naive(at) or not now - _OLDEST <= at <= now:
        return now
    return at


def who_enters(request: HttpRequest) -> str:
    """Return a sign of who is signed in, so that what one kept on a tablet is not sent as another's."""
    member = getattr(request, "member", None)
    return f"member-{member.pk}" if member is not None else f"user-{request.user.pk}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SignIn:
    """Under whose sign-in, and at which chosen device, something was entered."""

    key: str = ""
    name: str = ""
    device: str = ""


NOBODY = SignIn()
"""No sign-in: nothing was entered by a form."""


def sign_in_of(request: HttpRequest) -> SignIn:
    """Return under which sign-in a request enters something, whoever it names as having done it."""
    member = getattr(request, "member", None)
    device = device_here(request, request.school) if request.school is not None else None
    return SignIn(
        key=who_enters(request),
        name=(member.name if member is not None else request.user.get_username())[:200],
        device=device.name[:200] if device is not None else "",
    )


def not_theirs(request: HttpRequest) -> HttpResponse | None:
    """Return the refusal of an entry that somebody else made on this tablet; None where it is their own."""
    said = request.POST.get("who", "")
    if not said or said == who_enters(request):
        return None
    words = _("This entry was made under another sign-in; it waits on the tablet until they come back.")
    if request.headers.get(_HEADER):
        return JsonResponse({"said": words, "wait": True}, status=409)
    messages.error(request, words)
    return redirect("/")


def kept(request: HttpRequest, to: str, *, said: str = "") -> HttpResponse:
    """Answer an entry that is kept: go on to a page, with a sentence."""
    if said:
        messages.success(request, said)
    if request.headers.get(_HEADER):
        return JsonResponse({"to": to})
    return redirect(to)


def refused(request: HttpRequest, page: HttpResponse, *, said: str) -> HttpResponse:
    """Answer an entry that cannot be taken: the page with what was typed, or the sentence alone."""
    if request.headers.get(_HEADER):
        return JsonResponse({"said": said}, status=422)
    page.status_code = 422
    return page
