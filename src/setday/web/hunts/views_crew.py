"""The crews' sheets: in by a code, the room as it stands, naming the fault.

Nothing here may tell more of the fault than the room has shown, until the instructor opens the answer.
"""

from typing import Any

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from setday.errors import SetdayError
from setday.web.access import BENCH_CREW, HUNT_CREW
from setday.web.desk.door import minutes_to_wait, note_wrong_try, wait_words
from setday.web.hunts.asking import taken
from setday.web.hunts.crews import (
    code_read,
    come_back,
    come_in,
    crew_here,
    ground_in,
    keep_log,
    log_of,
)
from setday.web.hunts.forms import EnterForm
from setday.web.hunts.naming import NameForm
from setday.web.hunts.room import room_context
from setday.web.hunts.said import cautions
from setday.web.keeping.models import Hunt, HuntCrew

__all__ = ["enter", "leave", "name_it", "room"]

_CODES = "hunt code"


@require_http_methods(["GET", "HEAD", "POST"])
def enter(request: HttpRequest) -> HttpResponse:
    """Let a crew in that has the code of a hunt."""
    if request.method != "POST":
        words = {"form": EnterForm(), "crew": crew_here(request), "cautions": cautions()}
        return render(request, "hunts/enter.html", words)
    form = EnterForm(request.POST)
    crew = _come_in(request, form) if form.is_valid() else None
    if crew is None:
        return render(request, "hunts/enter.html", {"form": form, "cautions": cautions()}, status=422)
    request.session.pop(BENCH_CREW, None)
    request.session[HUNT_CREW] = crew.pk
    return redirect("hunts:room")


def _come_in(request: HttpRequest, form: EnterForm) -> HuntCrew | None:
    """Return the crew that comes in, or say in the form why it does not.

    Right codes do not wipe out wrong tries: who has one code must not be able to guess at others.
    """
    address, now = request.META.get("REMOTE_ADDR", ""), timezone.now()
    wait = minutes_to_wait(who=_CODES, address=address, now=now)
    if wait:
        form.add_error(None, wait_words(wait))
        return None
    code, key = code_read(form.cleaned_data["code"])
    hunt = Hunt.objects.filter(code=code).first()
    crew = come_back(code, key) if key else None
    if hunt is None or (key and crew is None):
        note_wrong_try(who=_CODES, address=address, now=now)
        form.add_error("code", _("No hunt has this code. Read it once more."))
        return None
    if crew is not None:
        return crew
    if hunt.closed or hunt.opened:
        form.add_error("code", _("This hunt is over. Ask the instructor for another code."))
        return None
    name = " ".join(form.cleaned_data["name"].split())
    if not name:
        form.add_error("name", _("Give your crew a name."))
        return None
    crew = come_in(code, name)
    if crew is None:
        words = _(
            "A crew of this name hunts already, or the hunt is full. "
            "Take another name, or come back with your nine signs."
        )
        form.add_error("name", words)
    return crew


@require_http_methods(["GET", "HEAD", "POST"])
def room(request: HttpRequest) -> HttpResponse:
    """Show the room as it stands, and do what the crew asks."""
    crew = crew_here(request)
    if crew is None:
        request.session.pop(HUNT_CREW, None)
        return redirect("hunts:enter")
    if request.method == "POST":
        return _asked(request, crew)
    return render(request, "hunts/room.html", room_context(crew))


def _asked(request: HttpRequest, crew: HuntCrew) -> HttpResponse:
    try:
        with transaction.atomic():
            locked = HuntCrew.objects.select_for_update().select_related("hunt").get(pk=crew.pk)
            if _over(locked):
                messages.info(request, _("Nothing more can be asked in this hunt."))
                return redirect("hunts:room")
            ground, log = ground_in(locked.hunt), log_of(locked)
            after = taken(request.POST, log, ground=ground, planted=ground.planted(locked.hunt.planted))
            if len(after.seen) == len(log.seen) and after.opened == log.opened:
                messages.info(
                    request, _("You asked this before: it stands in your log, and does not count again.")
                )
            keep_log(locked, after)
    except SetdayError as error:
        context = room_context(crew, form=request.POST, wrong=f"{error.message} {error.do}".strip())
        return render(request, "hunts/room.html", context, status=422)
    return redirect("/hunt/room/#now")


def _over(crew: HuntCrew) -> bool:
    """Return whether a crew can ask and name nothing more."""
    return bool(crew.named) or crew.hunt.closed or crew.hunt.opened


@require_http_methods(["GET", "HEAD", "POST"])
def name_it(request: HttpRequest) -> HttpResponse:
    """Let the crew name the fault: its kind first, then where; once, for good."""
    crew = crew_here(request)
    if crew is None or _over(crew):
        return redirect("hunts:enter" if crew is None else "hunts:room")
    ground = ground_in(crew.hunt)
    given = request.POST if request.method == "POST" else request.GET
    form = NameForm(ground, given)
    if request.method == "POST" and form.is_complete:
        with transaction.atomic():
            locked = HuntCrew.objects.select_for_update().select_related("hunt").get(pk=crew.pk)
            if not _over(locked):
                locked.named = form.record
                locked.save(update_fields=["named", "changed_at"])
        return redirect("hunts:room")
    words: dict[str, Any] = {"crew": crew, "hunt": crew.hunt, "form": form, "tests": len(crew.lines)}
    words["cautions"] = cautions()
    return render(request, "hunts/name.html", words, status=422 if request.method == "POST" else 200)


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """Let the tablet go to another crew."""
    request.session.pop(HUNT_CREW, None)
    return redirect("hunts:enter")
