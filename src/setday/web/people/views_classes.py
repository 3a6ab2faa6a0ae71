"""Classes: the list, one class with its roster, its name, putting it away."""

from typing import Any

from django.contrib import messages
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.web.keeping.members import keep_class, keep_member
from setday.web.keeping.models import Member, MemberRole, SchoolClass
from setday.web.people.forms import ClassForm, MemberForm

__all__ = ["class_edit", "class_of", "class_sheet", "classes"]


@require_http_methods(["GET", "HEAD", "POST"])
def classes(request: HttpRequest) -> HttpResponse:
    """List the classes of the school, and begin one."""
    form = ClassForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        name = form.cleaned_data["name"]
        if SchoolClass.objects.of(request.school).filter(name__iexact=name).exists():
            form.add_error("name", _("There is a class of this name already."))
        else:
            made = keep_class(request.school, name=name)
            return redirect("people:class", key=made.key)
    here = Count("members", filter=Q(members__active=True))
    listed = SchoolClass.objects.of(request.school).annotate(count=here).order_by("put_away", "name", "pk")
    others = Member.objects.of(request.school).exclude(role=MemberRole.CREW).filter(active=True)
    words = {"form": form, "classes": listed, "others": others, "school": request.school}
    status = 422 if request.method == "POST" else 200
    return render(request, "people/classes.html", words, status=status)


def class_of(request: HttpRequest, key: str) -> SchoolClass:
    """Return the class of an address, at the school of the request."""
    found: SchoolClass = get_object_or_404(SchoolClass.objects.of(request.school), key=key)
    return found


@require_http_methods(["GET", "HEAD", "POST"])
def class_sheet(request: HttpRequest, key: str) -> HttpResponse:
    """Show a class's roster, and add one student to it."""
    shown = class_of(request, key)
    form = MemberForm(request.POST if request.method == "POST" else None, school_class=shown)
    if request.method == "POST" and form.is_valid():
        made = keep_member(request.school, school_class=shown, **form.cleaned_data)
        messages.success(request, _("%(name)s is in the class.") % {"name": made.name})
        return redirect("people:class", key=key)
    status = 422 if request.method == "POST" else 200
    return render(request, "people/class.html", {"form": form, **_roster(shown)}, status=status)


def _roster(shown: SchoolClass) -> dict[str, Any]:
    members = shown.members.filter(role=MemberRole.CREW).select_related("card").prefetch_related("signoffs")
    rows = [
        {"member": each, "card": hasattr(each, "card"), "signoffs": list(each.signoffs.all())}
        for each in members.order_by("name", "pk")
    ]
    here = [row for row in rows if row["member"].active]
    return {
        "school_class": shown,
        "rows": here,
        "away": [row for row in rows if not row["member"].active],
        "without_card": sum(not row["card"] for row in here),
    }


@require_http_methods(["GET", "HEAD", "POST"])
def class_edit(request: HttpRequest, key: str) -> HttpResponse:
    """Give a class another name; put it away, or back."""
    shown = class_of(request, key)
    if request.method == "POST" and request.POST.get("do") in {"away", "back"}:
        shown.put_away = request.POST["do"] == "away"
        shown.save(update_fields=["put_away"])
        words = _("%(name)s was put away.") if shown.put_away else _("%(name)s is back on the list.")
        messages.info(request, words % {"name": shown.name})
        return redirect("people:classes")
    form = ClassForm(request.POST if request.method == "POST" else None, initial={"name": shown.name})
    if request.method == "POST" and form.is_valid():
        name = form.cleaned_data["name"]
        if SchoolClass.objects.of(request.school).filter(name__iexact=name).exclude(pk=shown.pk).exists():
            form.add_error("name", _("There is a class of this name already."))
        else:
            shown.name = name
            shown.save(update_fields=["name"])
            return redirect("people:class", key=key)
    status = 422 if request.method == "POST" else 200
    return render(request, "people/class_edit.html", {"form": form, "school_class": shown}, status=status)
