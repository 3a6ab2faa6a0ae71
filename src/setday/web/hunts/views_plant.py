"""Planting: choose a hookup, then the fault, or how it is drawn."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from setday.errors import NoAnswer
from setday.switching import Hookup, judge
from setday.web.hunts.crews import free_code
from setday.web.hunts.forms import PlantForm
from setday.web.hunts.said import cautions
from setday.web.hunts.sources import Source, every_source, ground_of, source_of
from setday.web.hunts.worker import begin_best
from setday.web.keeping.models import Hunt, School

__all__ = ["choose", "doubts", "plant"]


@require_safe
def choose(request: HttpRequest) -> HttpResponse:
    """List the hookups a fault can be planted in, or searched in."""
    kept, standard = every_source(request.school)
    return render(request, "hunts/choose.html", {"kept": kept, "standard": standard, "cautions": cautions()})


@require_http_methods(["GET", "HEAD", "POST"])
def plant(request: HttpRequest, source: str, key: str) -> HttpResponse:
    """Choose the fault, or have it drawn, and begin the hunt."""
    found = source_of(request.school, kind=source, key=key)
    hookup = found.read.sound()
    ground = ground_of(found.text, found.file_name, {})
    form = PlantForm(request.POST or None, ground=ground)
    if request.method == "POST" and form.is_valid():
        hunt = _planted(request.school, found, form)
        if hunt is not None:
            begin_best(hunt)
            return redirect("hunts:hunt", number=hunt.pk)
    words = {"form": form, "source": found, "doubts": doubts(hookup), "cautions": cautions()}
    return render(request, "hunts/plant.html", words, status=422 if request.method == "POST" else 200)


def doubts(hookup: Hookup) -> bool:
    """Return whether a hookup is no correct plan: it does not do what is wanted, or nothing is wanted."""
    return not hookup.wants or not judge(hookup, mend=False).works


def _planted(school: School, found: Source, form: PlantForm) -> Hunt | None:
    """Keep a hunt with its fault; None where no fault of the kinds ticked is there, said in the form."""
    try:
        ground = ground_of(found.text, found.file_name, form.likely)
        words, drawn = form.fault_in(ground)
    except NoAnswer as error:
        form.add_error("kinds", f"{error.message} {error.do}")
        return None
    return Hunt.objects.create(
        school=school,
        code=free_code(),
        name=found.name[:200],
        file_name=found.file_name[:200],
        text=found.text,
        likely=form.likely,
        planted=words,
        drawn=drawn,
        plan_shown=form.cleaned_data["plan_shown"],
    )
