"""How often each kind of slip happens in a class: where the numbers come from, and a way to begin anew."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.web.keeping.models import SchoolClass, SlipMark
from setday.web.sealed.figures import odds_of
from setday.web.sealed.words import kind_words

__all__ = ["odds"]


@require_http_methods(["GET", "HEAD", "POST"])
def odds(request: HttpRequest, key: str) -> HttpResponse:
    """Show the odds of a class; a form sets them back to the start."""
    school_class = get_object_or_404(SchoolClass.objects.of(request.school), key=key)
    if request.method == "POST":
        SlipMark.objects.filter(school_class=school_class).delete()
        messages.success(request, _("The class begins anew; what was marked is forgotten."))
        return redirect("sealed:odds", key=key)
    found = odds_of(school_class)
    rows = [
        {
            "name": kind_words(each.kind),
            "start": 100 * each.start,
            "marked": each.marked,
            "now": 100 * each.now,
        }
        for each in found.explained()
    ]
    return render(
        request, "sealed/odds.html", {"school_class": school_class, "rows": rows, "total": found.total}
    )
