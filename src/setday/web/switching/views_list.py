"""The list of hookups, and the versions of one."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.keeping.hookups import give_to_house, hookups_kept
from setday.web.keeping.models import House, KeptHookup
from setday.web.switching.cards import hookup_card
from setday.web.switching.sheet import hookup_sheet
from setday.web.switching.standard import standard_circuits

__all__ = ["away", "hookup_list", "put_away", "versions"]


@require_safe
def hookup_list(request: HttpRequest) -> HttpResponse:
    """Show the hookups."""
    words = {
        "cards": [hookup_card(kept) for kept in hookups_kept(request.school)],
        "standard": standard_circuits(),
        "away": KeptHookup.objects.of(request.school).filter(put_away=True).count(),
    }
    return render(request, "switching/list.html", words)


@require_safe
def away(request: HttpRequest) -> HttpResponse:
    """Show the hookups that were put away."""
    hookups = KeptHookup.objects.of(request.school).filter(put_away=True)
    return render(request, "switching/away.html", {"hookups": hookups})


@require_POST
def put_away(request: HttpRequest, key: str) -> HttpResponse:
    """Take a hookup off the list, or back onto it; nothing is deleted."""
    kept = get_object_or_404(KeptHookup.objects.of(request.school), key=key)
    kept.put_away = request.POST.get("back") != "yes"
    kept.save(update_fields=["put_away"])
    words = _("%(hookup)s was put away.") if kept.put_away else _("%(hookup)s is back on the list.")
    messages.info(request, words % {"hookup": kept.name})
    return redirect("switching:list")


@require_http_methods(["GET", "HEAD", "POST"])
def versions(request: HttpRequest, key: str) -> HttpResponse:
    """List the versions of a hookup; say which house it belongs to."""
    sheet = hookup_sheet(request, key)
    houses = House.objects.of(request.school)
    if request.method == "POST":
        give_to_house(sheet.kept, houses.filter(key=request.POST.get("house", "")).first())
        messages.success(request, _("Kept."))
        return redirect("switching:versions", key=key)
    words = {"versions": sheet.kept.versions.all(), "houses": houses.filter(put_away=False)}
    return render(request, "switching/versions.html", sheet.context(**words))
