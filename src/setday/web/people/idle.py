"""A crew's tablet that nobody touches is signed out, so that the next hand on it is nobody's."""

import time
from collections.abc import Callable

from django.contrib import messages
from django.contrib.auth import logout
from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _

from setday.web.keeping.models import MemberRole

__all__ = ["SignOutWhenIdle"]

_TOUCHED = "touched"
_NOTED_EVERY = 20
"""Seconds between two notes of it in the records."""


class SignOutWhenIdle:
    """Ends a crew member's session when nobody touched it for the minutes the school says."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if request.member is not None and request.member.role == MemberRole.CREW:
            self._watch(request)
        return self.get_response(request)

    def _watch(self, request: HttpRequest) -> None:
        now = time.time()
        touched = request.session.get(_TOUCHED, now)
        if now - touched > 60 * request.school.idle_minutes:
            logout(request)
            request.member = request.school = None
            messages.info(request, _("You were signed out: nobody had touched this tablet for a while."))
        elif _by_hand(request) and (_TOUCHED not in request.session or now - touched > _NOTED_EVERY):
            request.session[_TOUCHED] = now


def _by_hand(request: HttpRequest) -> bool:
    """Return whether a person did this: parts of pages also ask by themselves how things stand, and what is
    kept on a tablet is sent by itself; a page follows where a person pressed the button.
    """
    if request.headers.get("X-Setday-Entry"):
        return False
    return request.method == "POST" or request.headers.get("HX-Request") != "true"
