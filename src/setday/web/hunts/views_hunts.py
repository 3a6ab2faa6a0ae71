"""The instructor's sheets of hunts: all of them, and one with its code, its crews and its answer."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.request import split_domain_port
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from setday.web.hunts.crews import ground_in, log_of, name_given
from setday.web.hunts.room import best_of
from setday.web.hunts.said import KINDS, LEVELS, cautions, line_of, named_words
from setday.web.hunts.sources import hookup_in
from setday.web.keeping.models import Hunt, HuntCrew
from setday.web.switching.pictures import rest_pictures

__all__ = ["change", "crews", "hunt", "hunts"]

_HERE = {"localhost", "127.0.0.1", "[::1]"}
_CHANGES: dict[str, dict[str, bool]] = {
    "open": {"opened": True},
    "seal": {"opened": False},
    "close": {"closed": True},
    "reopen": {"closed": False},
    "show-plan": {"plan_shown": True},
    "hide-plan": {"plan_shown": False},
}


@require_safe
def hunts(request: HttpRequest) -> HttpResponse:
    """List the hunts, the newest first."""
    listed = Hunt.objects.of(request.school).prefetch_related("crews")
    return render(request, "hunts/list.html", {"hunts": listed, "cautions": cautions()})


@require_safe
def hunt(request: HttpRequest, number: int) -> HttpResponse:
    """Show a hunt: its code, how its crews get on, its answer folded away."""
    found = get_object_or_404(Hunt.objects.of(request.school), pk=number)
    from setday.actions.switching.hunts import thrifty_way

    hookup = hookup_in(found.text, found.file_name)
    ground = ground_in(found)
    way = thrifty_way(ground, ground.planted(found.planted))
    words: dict[str, Any] = {
        "level": LEVELS.get(found.drawn.get("difficulty", ""), ""),
        "left_out": [words for kind, words in KINDS.items() if found.likely.get(kind) == 0.0],
        "way": [line_of(each, hookup) for each in way],
        "plan": rest_pictures(hookup, key="plan"),
        "cautions": cautions(),
        "this_machine_only": split_domain_port(request.get_host())[0] in _HERE,
        "door": request.build_absolute_uri(reverse("hunts:enter")),
        **_crews(found),
    }
    return render(request, "hunts/hunt.html", words)


@require_safe
def crews(request: HttpRequest, number: int) -> HttpResponse:
    """Show the part of the sheet that tells how the crews get on; nothing where it is as it was."""
    found = get_object_or_404(Hunt.objects.of(request.school), pk=number)
    if request.GET.get("as") == _as_of(found):
        return HttpResponse(status=204)
    return render(request, "hunts/part_crews.html", _crews(found))


@require_POST
def change(request: HttpRequest, number: int) -> HttpResponse:
    """Open or seal the answer, close the hunt or open it again, show or hide the plan."""
    found = get_object_or_404(Hunt.objects.of(request.school), pk=number)
    fields = _CHANGES.get(request.POST.get("do", ""), {})
    for name, value in fields.items():
        setattr(found, name, value)
    found.save(update_fields=list(fields))
    if request.POST.get("do") == "remove":
        found.crews.filter(pk=_number(request.POST.get("crew"))).delete()
    return redirect("hunts:hunt", number=number)


def _number(text: str | None) -> int:
    return int(text) if text and text.isdecimal() and len(text) < 10 else 0


def _crews(found: Hunt) -> dict[str, Any]:
    told = [_crew(each) for each in found.crews.select_related("hunt")]
    return {"hunt": found, "crews": told, "best": best_of(found), "as_of": _as_of(found)}


def _as_of(found: Hunt) -> str:
    """Return signs that change whenever the part that tells of the crews does."""
    last = max((crew.changed_at for crew in found.crews.all()), default=found.made_at)
    state = (found.opened, found.closed, found.best is not None, found.crews.count())
    return f"{last.timestamp():.6f}-" + "-".join(str(int(each)) for each in state)


def _crew(crew: HuntCrew) -> dict[str, Any]:
    from setday.actions.switching.hunts import outcome, standing

    ground, log, named = ground_in(crew.hunt), log_of(crew), name_given(crew)
    best = best_of(crew.hunt)
    hookup = ground.circuit.hookup
    told: dict[str, Any] = {
        "crew": crew,
        "lines": [line_of(each, hookup) for each in log.seen],
        "opened": log.opened,
        "left": len(standing(ground, log.seen).open),
        "named": named_words(named) if named else "",
    }
    if named and best is not None:
        planted = ground.planted(crew.hunt.planted)
        told["outcome"] = outcome(ground, planted, log, named=named, best=best)
    return told
