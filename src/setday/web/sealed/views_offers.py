"""The instructor offers figures of a house to a class."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.web.houses.sheet import HouseSheet, built_sheet
from setday.web.keeping.models import Member, MemberRole, SchoolClass, SealedOffer
from setday.web.sealed.figures import figures_of_version
from setday.web.sealed.walls import wall_of

__all__ = ["offers"]

_MOST_TRIES = 5


@require_http_methods(["GET", "HEAD", "POST"])
def offers(request: HttpRequest, key: str) -> HttpResponse:
    """List what was offered, and offer another figure."""
    sheet = built_sheet(request, key)
    refused: list[str] = []
    if request.method == "POST":
        offer = _offered(request, sheet, refused)
        if offer is not None:
            return redirect("sealed:offer", key=key, number=offer.pk)
    return render(
        request, "sealed/offers.html", _words(request, sheet, refused), status=422 if refused else 200
    )


def _words(request: HttpRequest, sheet: HouseSheet, refused: list[str]) -> dict[str, Any]:
    figures = figures_of_version(sheet.version)
    titles = {each.key: each.title for each in figures}
    kinds: dict[str, list[Any]] = {}
    for figure in figures:
        kinds.setdefault(figure.kind, []).append(figure)
    classes = SchoolClass.objects.of(request.school).filter(put_away=False).order_by("name", "pk")
    made = SealedOffer.objects.of(request.school).filter(version__house=sheet.house).order_by("-pk")
    rows = [
        {
            "offer": offer,
            "title": titles.get(offer.figure, offer.figure),
            "handed": offer.entries.values("member").distinct().count(),
        }
        for offer in made.select_related("school_class")
    ]
    return sheet.context(
        rows=rows,
        kinds=sorted(kinds.items()),
        classes=classes,
        members=_crew(request),
        chosen=request.POST,
        chosen_members=request.POST.getlist("member"),
        refused=refused,
        tries=range(1, _MOST_TRIES + 1),
    )


def _crew(request: HttpRequest) -> Any:
    crew = Member.objects.of(request.school).filter(role=MemberRole.CREW, active=True)
    shown = crew.exclude(school_class=None).select_related("school_class")
    return shown.order_by("school_class__name", "shown_as", "pk")


def _offered(request: HttpRequest, sheet: HouseSheet, refused: list[str]) -> SealedOffer | None:
    form = request.POST
    known = {each.key for each in figures_of_version(sheet.version)}
    school_class = SchoolClass.objects.of(request.school).filter(key=form.get("class", "")).first()
    tries = form.get("tries", "1")
    if form.get("figure", "") not in known:
        refused.append(_("Choose a figure of the list."))
    if school_class is None:
        refused.append(_("Choose a class."))
    if tries not in {str(n) for n in range(1, _MOST_TRIES + 1)}:
        refused.append(_("Choose how often it may be handed in."))
    some = list(_crew(request).filter(key__in=form.getlist("member")))
    if any(each.school_class != school_class for each in some):
        refused.append(_("Somebody you ticked is not in this class."))
    if form.get("by_layout") == "yes" and wall_of(sheet.version, form.get("figure", "")) is None:
        refused.append(_("Boards can be laid on a straight wall only: choose one of 'boards from a run'."))
    if refused:
        return None
    offer: SealedOffer = SealedOffer.objects.create(
        school=request.school,
        school_class=school_class,
        version=sheet.version,
        figure=form["figure"],
        tries=int(tries),
        hints=form.get("hints") == "yes",
        by_layout=form.get("by_layout") == "yes",
    )
    offer.members.set(some)
    return offer
