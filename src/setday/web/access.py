"""Who may see and do what: one table for the whole site.

A screen that is not in the table is refused to everybody, so that a new one cannot be left open by
forgetting.  What somebody sees of a screen is their own school's: every view asks through `request.school`.
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
    MEMBER = "crew member"
    """A student, signed in with a card: sees the crews' sheets and their own records."""
    HELPER = "helper"
    """A second teacher or aide: works with the class, does not change houses, lists or people."""
    READER = "reader"
    """A principal, an inspector, parents: looks, and changes nothing."""
    INSTRUCTOR = "instructor"
    """Sees and does everything in their school."""
    KEEPER = "keeper"
    """The instructor who keeps the installation: as any instructor in their own school; makes others."""


_ANYBODY = frozenset(Role)
_KEEPER = frozenset({Role.KEEPER})
_INSTRUCTOR = frozenset({Role.INSTRUCTOR, Role.KEEPER})
_TEACHING = frozenset({Role.HELPER, *_INSTRUCTOR})
_LOOKING = frozenset({Role.READER, *_TEACHING})
_STUDENT = frozenset({Role.MEMBER, *_TEACHING})
_CREW = frozenset({Role.CREW, *_STUDENT})
_BENCH = frozenset({Role.BENCH, *_STUDENT})

_ROLES = {
    "crew member": Role.MEMBER,
    "helper": Role.HELPER,
    "reader": Role.READER,
    "instructor": Role.INSTRUCTOR,
}
"""The role of a member, as the records write it, to what they are to the site."""

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
    # the door of crews, helpers and readers; a crew's own sheets
    "people:card": _ANYBODY,
    "people:choose": _ANYBODY,
    "people:device": _ANYBODY,
    "people:mine": _STUDENT,
    "people:present": _STUDENT,
    # people
    "people:classes": _INSTRUCTOR,
    "people:class": _INSTRUCTOR,
    "people:class-edit": _INSTRUCTOR,
    "people:roster": _INSTRUCTOR,
    "people:member": _INSTRUCTOR,
    "people:sign-off": _INSTRUCTOR,
    "people:sign-off-away": _INSTRUCTOR,
    "people:sign-offs": _INSTRUCTOR,
    "people:cards": _INSTRUCTOR,
    "people:cards-pdf": _INSTRUCTOR,
    "people:accounts": _INSTRUCTOR,
    "people:account": _INSTRUCTOR,
    "people:devices": _INSTRUCTOR,
    "people:device-away": _INSTRUCTOR,
    "people:schools": _KEEPER,
    # houses
    "houses:list": _LOOKING,
    "houses:away": _TEACHING,
    "houses:put-away": _INSTRUCTOR,
    "houses:new": _INSTRUCTOR,
    "houses:keys": _TEACHING,
    "houses:check": _INSTRUCTOR,
    "houses:house": _LOOKING,
    "houses:rooms": _LOOKING,
    "houses:wall": _LOOKING,
    "houses:surface": _LOOKING,
    "houses:file": _TEACHING,
    "houses:edit": _INSTRUCTOR,
    "houses:download": _TEACHING,
    "houses:versions": _TEACHING,
    "houses:compare": _TEACHING,
    # boards
    "boards:runs": _TEACHING,
    "boards:run": _TEACHING,
    "boards:progress": _TEACHING,
    "boards:stop": _TEACHING,
    "boards:cuts": _TEACHING,
    "boards:rules": _TEACHING,
    "boards:by-room": _TEACHING,
    "boards:json": _TEACHING,
    "boards:surface": _TEACHING,
    "boards:cut": _TEACHING,
    "boards:what-if": _TEACHING,
    "boards:compare": _TEACHING,
    # buying
    "buying:prices": _INSTRUCTOR,
    "buying:prices-download": _INSTRUCTOR,
    "buying:stock": _INSTRUCTOR,
    "buying:stock-download": _INSTRUCTOR,
    "buying:list": _TEACHING,
    "buying:line": _TEACHING,
    "buying:file": _TEACHING,
    # hunts: the crews' sheets, then the instructor's
    "hunts:enter": _ANYBODY,
    "hunts:room": _CREW,
    "hunts:name": _CREW,
    "hunts:leave": _CREW,
    "hunts:list": _TEACHING,
    "hunts:new": _TEACHING,
    "hunts:plant": _TEACHING,
    "hunts:hunt": _TEACHING,
    "hunts:crews": _TEACHING,
    "hunts:change": _TEACHING,
    "hunts:searches": _TEACHING,
    "hunts:begin-search": _TEACHING,
    "hunts:search": _TEACHING,
    "hunts:likelihoods": _TEACHING,
    "hunts:progress": _TEACHING,
    "hunts:two": _TEACHING,
    "hunts:stop": _TEACHING,
    # workings and paper
    "workings:list": _TEACHING,
    "workings:one": _TEACHING,
    "paper:list": _TEACHING,
    "paper:pdf": _TEACHING,
    # switching: the crews' bench, then the instructor's
    "switching:enter": _ANYBODY,
    "switching:bench": _BENCH,
    "switching:bench-try": _BENCH,
    "switching:bench-judge": _BENCH,
    "switching:bench-plan": _BENCH,
    "switching:leave": _BENCH,
    "switching:crews": _TEACHING,
    "switching:list": _TEACHING,
    "switching:away": _INSTRUCTOR,
    "switching:new": _TEACHING,
    "switching:check": _TEACHING,
    "switching:build": _TEACHING,
    "switching:hookup": _TEACHING,
    "switching:judge": _TEACHING,
    "switching:draw": _TEACHING,
    "switching:try-drawn": _TEACHING,
    "switching:judge-drawn": _TEACHING,
    "switching:plan": _TEACHING,
    "switching:stage": _TEACHING,
    "switching:file": _TEACHING,
    "switching:edit": _TEACHING,
    "switching:download": _TEACHING,
    "switching:versions": _TEACHING,
    "switching:put-away": _INSTRUCTOR,
    "switching:pdf": _TEACHING,
    "switching:of-house": _TEACHING,
    "switching:take": _TEACHING,
    # cable
    "cable:plan": _TEACHING,
    "cable:check": _TEACHING,
    "cable:write": _INSTRUCTOR,
    "cable:device": _TEACHING,
    "cable:wall": _TEACHING,
    "cable:circuit": _TEACHING,
    "cable:panel": _TEACHING,
    "cable:pulls": _TEACHING,
    "cable:pulled": _TEACHING,
    "cable:pdf": _TEACHING,
    # photos: whose, and whether a reader may, the screen itself asks
    "photos:one": _STUDENT | {Role.READER},
    # periods: a crew's own sheets, then the teachers'
    "period:today": _STUDENT,
    "period:own-hours": _STUDENT,
    "period:mark": _STUDENT,
    "period:fix": _STUDENT,
    "period:note": _STUDENT,
    "period:list": _TEACHING,
    "period:new": _TEACHING,
    "period:sheet": _TEACHING,
    "period:wall": _TEACHING,
    "period:attendance": _TEACHING,
    "period:crews": _TEACHING,
    "period:take-back": _TEACHING,
    "period:close": _TEACHING,
    "period:record": _TEACHING,
    "period:record-pdf": _TEACHING,
    "period:tasks": _TEACHING,
    "period:progress": _LOOKING,
    "period:release": _INSTRUCTOR,
    "period:take": _INSTRUCTOR,
    "period:new-task": _INSTRUCTOR,
    "period:hours": _INSTRUCTOR,
    "period:class-hours": _INSTRUCTOR,
    "period:hours-csv": _INSTRUCTOR,
    "period:hours-pdf": _INSTRUCTOR,
    # gates
    "gates:list": _STUDENT | {Role.READER},
    "gates:plan": _STUDENT | {Role.READER},
    "gates:surface": _STUDENT | {Role.READER},
    "gates:mark": _STUDENT,
    "gates:judge": _TEACHING,
    "gates:overrule": _INSTRUCTOR,
    "gates:add": _INSTRUCTOR,
    "gates:strike": _INSTRUCTOR,
    "gates:close": _INSTRUCTOR,
    "gates:open": _INSTRUCTOR,
    "gates:helpers": _INSTRUCTOR,
    "gates:record": _TEACHING,
    "gates:record-pdf": _TEACHING,
    # sealed figures: the crews' sheets, then the instructor's
    "sealed:mine": _STUDENT,
    "sealed:try": _STUDENT,
    "sealed:lay": _STUDENT,
    "sealed:offers": _TEACHING,
    "sealed:offer": _TEACHING,
    "sealed:open": _TEACHING,
    "sealed:mark": _TEACHING,
    "sealed:odds": _INSTRUCTOR,
    # the timetable: a reader sees it without names
    "timetable:plan": _LOOKING,
    "timetable:file": _INSTRUCTOR,
    "timetable:edit": _INSTRUCTOR,
    "timetable:check": _INSTRUCTOR,
    "timetable:download": _INSTRUCTOR,
    "timetable:undo": _INSTRUCTOR,
    "timetable:begin": _INSTRUCTOR,
    "timetable:run": _LOOKING,
    "timetable:progress": _LOOKING,
    "timetable:stop": _INSTRUCTOR,
    "timetable:period": _LOOKING,
    "timetable:hand": _INSTRUCTOR,
    "timetable:change": _INSTRUCTOR,
    "timetable:bells": _TEACHING,
    "timetable:pdf": _TEACHING,
    "timetable:gates": _TEACHING,
    "timetable:ahead": _TEACHING,
    "timetable:ahead-pdf": _TEACHING,
    "timetable:calendar": _TEACHING,
    "timetable:school": _INSTRUCTOR,
    "timetable:repair": _INSTRUCTOR,
    "timetable:begin-odds": _INSTRUCTOR,
    "timetable:odds": _LOOKING,
    "timetable:begin-reasons": _INSTRUCTOR,
    "timetable:reasons": _TEACHING,
}


def role_of(request: HttpRequest) -> Role:
    """Return what the person behind a request is to the site."""
    user = getattr(request, "user", None)
    if user is not None and user.is_authenticated and user.is_active and user.is_superuser:
        return Role.KEEPER
    member = getattr(request, "member", None)
    if member is not None:
        return _ROLES[member.role]
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
    """Lets a request through to its screen only as the table says, and only from a device that may."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., HttpResponse], args: Any, kwargs: Any
    ) -> HttpResponse | None:
        screen = request.resolver_match.view_name
        if TABLE.get(screen) == _ANYBODY:
            return None
        role = role_of(request)
        if may(role, screen) and not _only_looks(role, request):
            return self._from_a_device_that_may(request)
        if role in {Role.OUTSIDER, Role.CREW, Role.BENCH}:
            return _to_the_door(request)
        if role is Role.MEMBER and screen == "houses:list":  # where every mark and every error page leads
            return redirect("people:mine")
        raise PermissionDenied

    def _from_a_device_that_may(self, request: HttpRequest) -> HttpResponse | None:
        from setday.web.people.devices import may_serve, not_this_device

        return None if may_serve(request) else not_this_device(request)


def _only_looks(role: Role, request: HttpRequest) -> bool:
    """Return whether a request would change something, from somebody who changes nothing."""
    return role is Role.READER and request.method not in {"GET", "HEAD"}


def _to_the_door(request: HttpRequest) -> HttpResponse:
    from setday.web.desk.door import door_of

    screen = door_of(request)
    back = request.get_full_path() if request.method in {"GET", "HEAD"} else "/"
    address = reverse(screen) if back == "/" else f"{reverse(screen)}?{urlencode({'next': back})}"
    if request.headers.get("HX-Request") == "true":  # a part of a page: the whole page must go to the door
        return HttpResponse(status=401, headers={"HX-Redirect": reverse(screen)})
    return redirect(address)
