"""Who may see and do what: one table for the whole site.

A screen that is not in the table is refused to everybody, so that a new one cannot be left open by
forgetting.  Roles for crews, helpers and readers will be further words here.
"""

from collections.abc import Callable
from enum import StrEnum
from typing import Any
from urllib.parse import urlencode

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

__all__ = ["BENCH_CREW", "HUNT_CREW", "TABLE", "OnlyWhoMay", "Role", "may", "role_of"]


class Role(StrEnum):
    """What somebody is to the site."""

    OUTSIDER = "outsider"
    """Nobody signed in."""
    CREW = "crew"
    """Came in by the code of a hunt: sees that hunt as a crew, and nothing else that is not open to all."""
    BENCH = "bench"
    """Came in by the code of a bench: draws one hookup as a crew, sees no plan while sealed."""
    INSTRUCTOR = "instructor"
    """Sees and does everything."""


_ANYBODY = frozenset(Role)
_INSTRUCTOR = frozenset({Role.INSTRUCTOR})
_CREW = frozenset({Role.CREW, Role.INSTRUCTOR})
_BENCH = frozenset({Role.BENCH, Role.INSTRUCTOR})

HUNT_CREW = "hunt_crew"
"""Where the session keeps which crew of a hunt the tablet belongs to."""

BENCH_CREW = "bench_crew"
"""Where the session keeps at whose bench the tablet stands: the hookup, its code, the crew's name."""

TABLE: dict[str, frozenset[Role]] = {
    # the door
    "desk:begin": _ANYBODY,
    "desk:sign-in": _ANYBODY,
    "desk:sign-out": _ANYBODY,
    "desk:language": _ANYBODY,
    "desk:help": _ANYBODY,
    # houses
    "houses:list": _INSTRUCTOR,
    "houses:away": _INSTRUCTOR,
    "houses:put-away": _INSTRUCTOR,
    "houses:new": _INSTRUCTOR,
    "houses:keys": _INSTRUCTOR,
    "houses:check": _INSTRUCTOR,
    "houses:house": _INSTRUCTOR,
    "houses:rooms": _INSTRUCTOR,
    "houses:wall": _INSTRUCTOR,
    "houses:surface": _INSTRUCTOR,
    "houses:file": _INSTRUCTOR,
    "houses:edit": _INSTRUCTOR,
    "houses:download": _INSTRUCTOR,
    "houses:versions": _INSTRUCTOR,
    "houses:compare": _INSTRUCTOR,
    # boards
    "boards:runs": _INSTRUCTOR,
    "boards:run": _INSTRUCTOR,
    "boards:progress": _INSTRUCTOR,
    "boards:stop": _INSTRUCTOR,
    "boards:cuts": _INSTRUCTOR,
    "boards:rules": _INSTRUCTOR,
    "boards:by-room": _INSTRUCTOR,
    "boards:json": _INSTRUCTOR,
    "boards:surface": _INSTRUCTOR,
    "boards:cut": _INSTRUCTOR,
    "boards:what-if": _INSTRUCTOR,
    "boards:compare": _INSTRUCTOR,
    # buying
    "buying:prices": _INSTRUCTOR,
    "buying:prices-download": _INSTRUCTOR,
    "buying:stock": _INSTRUCTOR,
    "buying:stock-download": _INSTRUCTOR,
    "buying:list": _INSTRUCTOR,
    "buying:line": _INSTRUCTOR,
    "buying:file": _INSTRUCTOR,
    # hunts: the crews' sheets, then the instructor's
    "hunts:enter": _ANYBODY,
    "hunts:room": _CREW,
    "hunts:name": _CREW,
    "hunts:leave": _CREW,
    "hunts:list": _INSTRUCTOR,
    "hunts:new": _INSTRUCTOR,
    "hunts:plant": _INSTRUCTOR,
    "hunts:hunt": _INSTRUCTOR,
    "hunts:crews": _INSTRUCTOR,
    "hunts:change": _INSTRUCTOR,
    "hunts:searches": _INSTRUCTOR,
    "hunts:begin-search": _INSTRUCTOR,
    "hunts:search": _INSTRUCTOR,
    "hunts:likelihoods": _INSTRUCTOR,
    "hunts:progress": _INSTRUCTOR,
    "hunts:two": _INSTRUCTOR,
    "hunts:stop": _INSTRUCTOR,
    # workings and paper
    "workings:list": _INSTRUCTOR,
    "workings:one": _INSTRUCTOR,
    "paper:list": _INSTRUCTOR,
    "paper:pdf": _INSTRUCTOR,
    # switching: the crews' bench, then the instructor's
    "switching:enter": _ANYBODY,
    "switching:bench": _BENCH,
    "switching:bench-try": _BENCH,
    "switching:bench-judge": _BENCH,
    "switching:bench-plan": _BENCH,
    "switching:leave": _BENCH,
    "switching:crews": _INSTRUCTOR,
    "switching:list": _INSTRUCTOR,
    "switching:away": _INSTRUCTOR,
    "switching:new": _INSTRUCTOR,
    "switching:check": _INSTRUCTOR,
    "switching:build": _INSTRUCTOR,
    "switching:hookup": _INSTRUCTOR,
    "switching:judge": _INSTRUCTOR,
    "switching:draw": _INSTRUCTOR,
    "switching:try-drawn": _INSTRUCTOR,
    "switching:judge-drawn": _INSTRUCTOR,
    "switching:plan": _INSTRUCTOR,
    "switching:stage": _INSTRUCTOR,
    "switching:file": _INSTRUCTOR,
    "switching:edit": _INSTRUCTOR,
    "switching:download": _INSTRUCTOR,
    "switching:versions": _INSTRUCTOR,
    "switching:put-away": _INSTRUCTOR,
    "switching:pdf": _INSTRUCTOR,
    "switching:of-house": _INSTRUCTOR,
    "switching:take": _INSTRUCTOR,
    # cable
    "cable:plan": _INSTRUCTOR,
    "cable:check": _INSTRUCTOR,
    "cable:write": _INSTRUCTOR,
    "cable:device": _INSTRUCTOR,
    "cable:wall": _INSTRUCTOR,
    "cable:circuit": _INSTRUCTOR,
    "cable:panel": _INSTRUCTOR,
    "cable:pulls": _INSTRUCTOR,
    "cable:pulled": _INSTRUCTOR,
    "cable:pdf": _INSTRUCTOR,
}


def role_of(request: HttpRequest) -> Role:
    """Return what the person behind a request is to the site."""
    user = getattr(request, "user", None)
    if user is not None and user.is_authenticated and user.is_active and user.is_superuser:
        return Role.INSTRUCTOR
    session = getattr(request, "session", None)
    if session is not None and session.get(HUNT_CREW) is not None:
        return Role.CREW
    if session is not None and session.get(BENCH_CREW) is not None:
        return Role.BENCH
    return Role.OUTSIDER


def may(role: Role, screen: str) -> bool:
    """Return whether a role may open a screen, named as in the addresses: ``houses:house``."""
    return role in TABLE.get(screen, frozenset())


class OnlyWhoMay:
    """Lets a request through to its screen only as the table says."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., HttpResponse], args: Any, kwargs: Any
    ) -> HttpResponse | None:
        role = role_of(request)
        if may(role, request.resolver_match.view_name):
            return None
        if role in {Role.OUTSIDER, Role.CREW, Role.BENCH}:
            return _to_the_door(request)
        raise PermissionDenied


def _to_the_door(request: HttpRequest) -> HttpResponse:
    from setday.web.desk.door import nobody_yet

    screen = "desk:begin" if nobody_yet() else "desk:sign-in"
    back = request.get_full_path() if request.method in {"GET", "HEAD"} else "/"
    address = reverse(screen) if back == "/" else f"{reverse(screen)}?{urlencode({'next': back})}"
    if request.headers.get("HX-Request") == "true":  # a part of a page: the whole page must go to the door
        return HttpResponse(status=401, headers={"HX-Redirect": reverse(screen)})
    return redirect(address)
