"""A crew member's own sheet: who is at this tablet, where to go, what one is signed off for."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.keeping.models import Member, MemberRole
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
        tick_present(request, others.filter(key__in=request.POST.getlist("with")))
        return redirect("people:mine")
    ticked = {each.pk for each in here}
    rows = [{"member": each, "ticked": each.pk in ticked} for each in others]
    return render(request, "people/present.html", {"rows": rows})
