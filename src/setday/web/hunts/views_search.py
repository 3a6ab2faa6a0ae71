"""One search for a real fault: what was observed, what explains it, what to do next and why."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from setday.errors import SetdayError
from setday.files import read_observation, read_test, write_observation
from setday.switching import Hookup, Measure, Test
from setday.web.hunts.forms import LikelihoodForm
from setday.web.hunts.observing import observation_in, observing_context
from setday.web.hunts.said import KINDS, asked_words, cautions, line_of, verdict_words
from setday.web.hunts.sources import hookup_in
from setday.web.hunts.views_plant import doubts
from setday.web.keeping.models import FaultSearch
from setday.web.switching.pictures import rest_pictures

if TYPE_CHECKING:
    from setday.actions.switching.faults import Explained

__all__ = ["likelihoods", "progress", "search"]


@require_http_methods(["GET", "HEAD", "POST"])
def search(request: HttpRequest, number: int) -> HttpResponse:
    """Show a search; take in what was observed, or take a line of it out."""
    found = get_object_or_404(FaultSearch.objects.of(request.school), pk=number)
    hookup = hookup_in(found.text, found.file_name)
    if request.method != "POST":
        return render(request, "hunts/search.html", _context(found, hookup))
    try:
        _noted(request, number, hookup)
    except SetdayError as error:
        words = f"{error.message} {error.do}".strip()
        context = _context(found, hookup, form=request.POST, wrong=words)
        return render(request, "hunts/search.html", context, status=422)
    return redirect("hunts:search", number=number)


@transaction.atomic
def _noted(request: HttpRequest, number: int, hookup: Hookup) -> None:
    """Add what was observed, or take a line out; what was found of two faults before no longer holds."""
    found = FaultSearch.objects.of(request.school).select_for_update().get(pk=number)
    if found.at_work:
        messages.info(request, _("Stop the search for two faults first."))
        return
    before = list(found.lines)
    if request.POST.get("remove", "").isdecimal():
        place = int(request.POST["remove"][:6])
        found.lines = [line for at, line in enumerate(before) if at != place]
    else:
        line = write_observation(observation_in(request.POST, hookup), hookup)
        found.lines = [*before, *([] if line in before else [line])]
    if found.lines != before:
        found.pairs, found.state, found.message = None, "", ""
    found.save()


def _context(
    found: FaultSearch, hookup: Hookup, *, form: Mapping[str, str] | None = None, wrong: str = ""
) -> dict[str, Any]:
    from setday.actions.switching.faults import search as explain

    single = explain(hookup, found.lines, faults=1, likely=found.likely)
    pairs = _pairs(found)
    after = pairs.next if pairs and not single.suspects else single.next
    proposed = read_test(after.test, hookup) if after else None
    return {
        "search": found,
        "hookup": hookup,
        "lines": [line_of(read_observation(line, hookup), hookup) for line in found.lines],
        "single": single,
        "pairs": pairs,
        "single_verdict": verdict_words(single),
        "pairs_verdict": verdict_words(pairs) if pairs else "",
        "next": after,
        "next_words": asked_words(proposed, hookup) if proposed else "",
        "why": _why(proposed, found, hookup),
        "wrong": wrong,
        "likely": _likelihoods(found, hookup),
        "plan": rest_pictures(hookup, key="plan"),
        "doubts": doubts(hookup),
        "cautions": cautions(),
        **observing_context(hookup, proposed=proposed, form=form),
    }


def _pairs(found: FaultSearch) -> "Explained | None":
    from setday.actions.switching.faults import explained_again

    return explained_again(found.pairs) if found.pairs else None


def _why(proposed: Test | None, found: FaultSearch, hookup: Hookup) -> str:
    """Return why a test comes before others, beside how much it tells."""
    if proposed is None:
        return ""
    if not isinstance(proposed, Measure):
        return _("A flip is quick and no box is opened.")
    opened = {
        each.test.first.box
        for each in (read_observation(line, hookup) for line in found.lines)
        if hasattr(each, "test")
    }
    if proposed.meter == "live":
        return _("No dead reading tells as much. Only the instructor takes it.")
    if proposed.first.box in opened:
        return _("The box is open already, and the reading is taken dead.")
    return _("No flip tells as much; the reading is taken dead.")


def _likelihoods(found: FaultSearch, hookup: Hookup) -> list[dict[str, Any]]:
    """Return every likelihood in force, with who set it."""
    from setday.actions.switching.hunts import likelihoods as rules_of

    rules = rules_of(hookup, found.likely)
    return [
        {"kind": kind, "words": words, "rule": rules[f"switching.likely_{kind}"]}
        for kind, words in KINDS.items()
    ]


@require_safe
def progress(request: HttpRequest, number: int) -> HttpResponse:
    """Show how far the search for two faults is; the whole page anew once it has ended."""
    found = get_object_or_404(FaultSearch.objects.of(request.school), pk=number)
    if not found.at_work:
        return HttpResponse(headers={"HX-Redirect": f"/faults/{number}/"})
    return render(request, "hunts/part_two.html", {"search": found})


@require_http_methods(["GET", "HEAD", "POST"])
def likelihoods(request: HttpRequest, number: int) -> HttpResponse:
    """Show the likelihoods of a search, and set others."""
    found = get_object_or_404(FaultSearch.objects.of(request.school), pk=number)
    hookup = hookup_in(found.text, found.file_name)
    listed = _likelihoods(found, hookup)
    in_force = {each["kind"]: each["rule"].value for each in listed}
    form = LikelihoodForm(request.POST or None, in_force=in_force)
    if request.method == "POST" and form.is_valid():
        _set(found, hookup, form.cleaned_data)
        return redirect("hunts:search", number=number)
    words = {"search": found, "form": form, "likely": listed, "cautions": cautions()}
    return render(request, "hunts/likelihoods.html", words, status=422 if request.method == "POST" else 200)


def _set(found: FaultSearch, hookup: Hookup, wanted: Mapping[str, float]) -> None:
    """Keep the likelihoods that differ from those of the table and of the hookup's own local rules."""
    from setday.actions.switching.hunts import likelihoods as rules_of

    usual = rules_of(hookup)
    likely = {
        kind: wanted[kind] for kind in KINDS if wanted[kind] != usual.number(f"switching.likely_{kind}")
    }
    if found.at_work or likely == found.likely:
        return
    FaultSearch.objects.of(found.school).filter(pk=found.pk).update(
        likely=likely, pairs=None, state="", message=""
    )
