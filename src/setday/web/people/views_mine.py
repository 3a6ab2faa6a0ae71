"""A crew member's own sheet: who is at this tablet, where to go, what one is signed off for."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.entries import sign_in_of
from setday.web.keeping.models import Member, MemberRole, PresenceTick
from setday.web.people.who import members_present, tick_present

__all__ = ["mine", "present"]


@require_safe
def mine(request: HttpRequest) -> HttpResponse:
    """Show a crew member what is theirs; others go to the houses."""
    here = members_present(request)
    if not here:
        return redirect("houses:list")
    words = {"member": here[0], "beside": here[1:], "signoffs": here[0].signoffs.all()}
    return render(request, "people/mine.html", words)


@require_http_methods(["GET", "HEAD", "POST"])
def present(request: HttpRequest) -> HttpResponse:
    """Tick who else of the class works at this tablet."""
    here = members_present(request)
    if not here:
        return redirect("houses:list")
    others = Member.objects.filter(school_class=here[0].school_class, role=MemberRole.CREW, active=True)
    others = others.exclude(pk=here[0].pk).order_by("shown_as", "pk")
    if request.method == "POST":
        _note_ticks(request, here, list(others.filter(key__in=request.POST.getlist("with"))))
        return redirect("people:mine")
    ticked = {each.pk for each in here}
    rows = [{"member": each, "ticked": each.pk in ticked} for each in others]
    return render(request, "people/present.html", {"rows": rows})


def _note_ticks(request: HttpRequest, before: tuple[Member, ...], beside: list[Member]) -> None:
    """Remember who stands beside the one who signed in, and write down every tick that is new or gone."""
    was, now = {each.pk: each for each in before[1:]}, {each.pk: each for each in beside}
    device = sign_in_of(request).device
    PresenceTick.objects.bulk_create(
        PresenceTick(signed_in=before[0], member=each, here=pk in now, device=device)
        for pk, each in sorted({**was, **now}.items())
        if (pk in now) != (pk in was)
    )
    tick_present(request, beside)
