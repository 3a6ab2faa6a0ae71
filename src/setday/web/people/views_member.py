"""One crew member: the facts, sign-offs one by one or for several at once."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from setday.web.keeping.members import shown_name
from setday.web.keeping.models import Member, MemberRole, MemberSignOff, School
from setday.web.people.accounts import end_sessions
from setday.web.people.forms import MemberForm, SignOffForm
from setday.web.people.views_classes import class_of

__all__ = ["known_signoffs", "member", "sign_off", "sign_off_away", "sign_offs", "student_of"]


def student_of(request: HttpRequest, key: str) -> Member:
    """Return the crew member of an address, at the school of the request."""
    students = Member.objects.of(request.school).filter(role=MemberRole.CREW, school_class__isnull=False)
    found: Member = get_object_or_404(students.select_related("school_class", "user"), key=key)
    return found


@require_http_methods(["GET", "HEAD", "POST"])
def member(request: HttpRequest, key: str) -> HttpResponse:
    """Show a crew member, and change what is known of them."""
    shown = student_of(request, key)
    if request.method == "POST" and request.POST.get("do") in {"away", "back"}:
        return _moved(request, shown)
    facts = {name: getattr(shown, name) for name in ("name", "shown_as", "number", "born", "student_learner")}
    sent = request.POST if request.method == "POST" else None
    form = MemberForm(sent, school_class=shown.school_class, mine=shown, initial=facts)
    if request.method == "POST" and form.is_valid():
        entered = form.cleaned_data
        entered["shown_as"] = entered["shown_as"] or shown_name(entered["name"])
        for name, value in entered.items():
            setattr(shown, name, value)
        shown.save(update_fields=list(entered))
        messages.success(request, _("Kept."))
        return redirect("people:member", key=key)
    words = {"form": form, "signing": SignOffForm.fresh()}
    return _page(request, shown, status=422 if request.method == "POST" else 200, **words)


def _moved(request: HttpRequest, shown: Member) -> HttpResponse:
    """Take somebody out of the class, or back in; what they did stays on record."""
    shown.active = request.POST["do"] == "back"
    shown.save(update_fields=["active"])
    if not shown.active:
        end_sessions(shown)
    words = _("%(name)s is back in the class.") if shown.active else _("%(name)s was put away.")
    messages.info(request, words % {"name": shown.name})
    return redirect("people:class", key=shown.school_class.key)


def _page(request: HttpRequest, shown: Member, *, status: int, **words: Any) -> HttpResponse:
    words |= {
        "member": shown,
        "school_class": shown.school_class,
        "signoffs": shown.signoffs.all(),
        "known": known_signoffs(request.school),
        "has_card": hasattr(shown, "card"),
    }
    return render(request, "people/member.html", words, status=status)


@require_POST
def sign_off(request: HttpRequest, key: str) -> HttpResponse:
    """Note that somebody passed a safety test or showed a skill."""
    shown = student_of(request, key)
    form = SignOffForm(request.POST)
    if not form.is_valid():
        facts = {
            name: getattr(shown, name) for name in ("name", "shown_as", "number", "born", "student_learner")
        }
        edit = MemberForm(school_class=shown.school_class, mine=shown, initial=facts)
        return _page(request, shown, status=422, form=edit, signing=form)
    _signed(request, [shown], form)
    return redirect("people:member", key=key)


def _signed(request: HttpRequest, members: list[Member], form: SignOffForm) -> None:
    by = request.member.name if request.member else request.user.get_username()
    for each in members:
        MemberSignOff.objects.get_or_create(
            member=each, what=form.cleaned_data["what"], on=form.cleaned_data["on"], defaults={"by": by[:150]}
        )


@require_POST
def sign_off_away(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Take a sign-off back."""
    shown = student_of(request, key)
    get_object_or_404(MemberSignOff, member=shown, pk=number).delete()
    messages.info(request, _("The sign-off was taken back."))
    return redirect("people:member", key=key)


@require_http_methods(["GET", "HEAD", "POST"])
def sign_offs(request: HttpRequest, key: str) -> HttpResponse:
    """Sign several off at once; show who has what."""
    shown = class_of(request, key)
    members = list(shown.members.filter(role=MemberRole.CREW, active=True).prefetch_related("signoffs"))
    form = SignOffForm(request.POST) if request.method == "POST" else SignOffForm.fresh()
    wanted = set(request.POST.getlist("member"))
    if request.method == "POST" and form.is_valid():
        chosen = [each for each in members if each.key in wanted]
        if chosen:
            _signed(request, chosen, form)
            messages.success(
                request, _("Signed off: %(names)s.") % {"names": ", ".join(m.name for m in chosen)}
            )
            return redirect("people:sign-offs", key=key)
        form.add_error(None, _("Tick who passed."))
    words = {"form": form, "school_class": shown, "known": known_signoffs(request.school)}
    words |= {"rows": [{"member": each, "ticked": each.key in wanted} for each in members], **_grid(members)}
    return render(request, "people/sign_offs.html", words, status=422 if request.method == "POST" else 200)


def _grid(members: list[Member]) -> dict[str, Any]:
    """Return what is signed off in the class, and each member's newest date for each of it."""
    newest = [{each.what.casefold(): each.on for each in reversed(m.signoffs.all())} for m in members]
    words = {each.what.casefold(): each.what for m in members for each in m.signoffs.all()}
    columns = sorted(words)
    grid = [
        {"member": m, "cells": [(words[column], found.get(column)) for column in columns]}
        for m, found in zip(members, newest, strict=True)
    ]
    return {"columns": [words[column] for column in columns], "grid": grid}


def known_signoffs(school: School) -> list[str]:
    """Return what is signed off at a school already, and what kinds of work ask for, to choose from."""
    from setday.timetable.tasks import kinds_of_work

    used = MemberSignOff.objects.filter(member__school=school).values_list("what", flat=True)
    asked = {what for kind in kinds_of_work().values() for what in kind.signoffs}
    return sorted({*used, *asked}, key=str.casefold)
