"""Helpers, readers and other instructors: made with a one-time code by which they choose a password."""

from datetime import timedelta

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from setday.web.keeping.members import keep_member
from setday.web.keeping.models import Member, MemberRole, School
from setday.web.people.accounts import account_of
from setday.web.people.codes import make_card
from setday.web.people.forms import AccountForm, SchoolForm

__all__ = ["account", "accounts", "schools"]

_CODE_HOLDS = timedelta(days=7)


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def accounts(request: HttpRequest) -> HttpResponse:
    """List who comes in by a password, and make an account for another."""
    form = AccountForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        made = keep_member(request.school, shown_as=form.cleaned_data["name"], **form.cleaned_data)
        return _shown(request, made)
    members = Member.objects.of(request.school).exclude(role=MemberRole.CREW).select_related("user", "card")
    rows = [
        {"member": each, "state": _state(each), "fixed": _is_fixed(request, each)}
        for each in members.order_by("role", "name", "pk")
    ]
    status = 422 if request.method == "POST" else 200
    return render(request, "people/accounts.html", {"form": form, "rows": rows}, status=status)


def _state(member: Member) -> str:
    """Return how somebody gets in, in words."""
    if not member.active:
        return _("put away")
    if member.user is not None and member.user.has_usable_password():
        return _("has a password")
    if hasattr(member, "card") and member.card.ends_at and member.card.ends_at > timezone.now():
        return _("has a one-time code that was not used yet")
    return _("has no way in: make a code")


def _is_fixed(request: HttpRequest, member: Member) -> bool:
    """Return whether an account is changed elsewhere: one's own, and that of who keeps the installation."""
    return member.user is not None and (member.user == request.user or member.user.is_superuser)


def _shown(request: HttpRequest, member: Member) -> HttpResponse:
    """Make a one-time code and show it, this one time."""
    from setday.web.network import tablet_address

    account_of(member)
    code = make_card(member, ends_at=timezone.now() + _CODE_HOLDS)
    words = {"member": member, "code": code, "address": tablet_address(request)}
    return render(request, "people/account_made.html", words)


@never_cache
@require_POST
def account(request: HttpRequest, key: str) -> HttpResponse:
    """Make a new code for somebody, put them away, or let them in again."""
    others = Member.objects.of(request.school).exclude(role=MemberRole.CREW).select_related("user")
    shown = get_object_or_404(others, key=key)
    if _is_fixed(request, shown):
        messages.info(request, _("This account is changed by who holds it, or where Setday was started."))
        return redirect("people:accounts")
    if request.POST.get("do") == "code" and shown.active:
        user = account_of(shown)
        user.set_unusable_password()
        user.save(update_fields=["password"])
        return _shown(request, shown)
    do = request.POST.get("do", "")
    if do not in {"away", "back"}:
        messages.error(request, _("The form does not say what to do. Nothing was changed."))
        return redirect("people:accounts")
    shown.active = do == "back"
    shown.save(update_fields=["active"])
    user = account_of(shown)
    user.is_active = shown.active
    user.save(update_fields=["is_active"])
    words = _("%(name)s may come in again.") if shown.active else _("%(name)s was put away.")
    messages.info(request, words % {"name": shown.name})
    return redirect("people:accounts")


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def schools(request: HttpRequest) -> HttpResponse:
    """List the schools of this installation by name, rename one's own, and make another."""
    form = SchoolForm(request.POST if request.POST.get("do") == "new" else None)
    if request.method == "POST" and request.POST.get("do") == "rename":
        name = " ".join(request.POST.get("own", "").split())[:200]
        if name:
            request.school.name = name
            request.school.save(update_fields=["name"])
            messages.success(request, _("Kept."))
        return redirect("people:schools")
    if request.method == "POST" and form.is_valid():
        if not School.objects.filter(name__iexact=form.cleaned_data["name"]).exists():
            return _begun(request, form)
        form.add_error("name", _("There is a school of this name already."))
    words = {"form": form, "schools": School.objects.order_by("pk"), "school": request.school}
    return render(request, "people/schools.html", words, status=422 if request.method == "POST" else 200)


def _begun(request: HttpRequest, form: SchoolForm) -> HttpResponse:
    from setday.web.keeping.members import keep_school

    made = keep_school(name=form.cleaned_data["name"])
    name = form.cleaned_data["instructor"]
    return _shown(request, keep_member(made, name=name, shown_as=name, role=MemberRole.INSTRUCTOR))
