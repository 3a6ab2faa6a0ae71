"""What crews and teachers enter in a period: marks of tasks, fixes, notes."""

from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from setday.errors import SetdayError
from setday.roster.periods import MarkKind
from setday.web.access import Role, role_of
from setday.web.entries import entered_at, entry_of, kept, not_theirs, refused, sign_in_of
from setday.web.keeping.models import ClassPeriod, HouseTask, PeriodCrew, PeriodMark
from setday.web.people.who import members_present
from setday.web.period.entering import keep_fix, keep_mark, keep_note
from setday.web.period.forms import FixForm, MarkForm, NoteForm
from setday.web.period.views_periods import period_of, sheet_words
from setday.web.period.views_today import crew_of, today_words

__all__ = ["fix", "mark", "note", "take_back"]


@require_POST
def mark(request: HttpRequest, number: int) -> HttpResponse:
    """Keep what a crew says of its task."""
    period = period_of(request, number)
    turned = not_theirs(request)
    if turned is not None:
        return turned
    form = MarkForm(request.POST)
    crew = _crew(request, period)
    task = HouseTask.objects.filter(
        house=period.house, works__crew=crew, key=request.POST.get("task", "")
    ).first()
    if crew is None or task is None:
        return _refused(request, period, _("This task is not among those of this crew any more."))
    if not form.is_valid():
        return _refused(request, period, _wrong(form))
    try:
        keep_mark(
            crew,
            task,
            entry=entry_of(request),
            kind=MarkKind(form.cleaned_data["kind"]),
            members=_at_it(request, crew),
            at=entered_at(request),
            quantity=form.cleaned_data["quantity"],
            why=form.cleaned_data["why"],
            by=_by(request),
            device=sign_in_of(request).device,
        )
    except SetdayError as error:
        return _refused(request, period, str(error))
    return kept(request, _back(request, period), said=_("Kept: %(task)s.") % {"task": task.label})


@require_POST
def fix(request: HttpRequest, number: int) -> HttpResponse:
    """Keep a mistake that was put right."""
    period = period_of(request, number)
    form = FixForm(request.POST, prefix="fix")
    return _keep(
        request, period, form, lambda facts: keep_fix(period, **facts, **form.facts()), fix_form=form
    )


@require_POST
def note(request: HttpRequest, number: int) -> HttpResponse:
    """Keep a note."""
    period = period_of(request, number)
    form = NoteForm(request.POST, request.FILES, prefix="note")
    crew = _crew(request, period)
    return _keep(
        request,
        period,
        form,
        lambda facts: keep_note(period, **facts, **form.cleaned_data, crew=crew),
        note_form=form,
    )


@require_POST
def take_back(request: HttpRequest, number: int, row: int) -> HttpResponse:
    """Take a mark back, or put it in force again; it stays on record either way."""
    period = period_of(request, number)
    found = get_object_or_404(PeriodMark, pk=row, period=period)
    if period.closed:
        return _refused(request, period, _("This period is closed. Open it again for a correction."))
    found.taken_back = not found.taken_back
    found.save(update_fields=["taken_back"])
    return redirect("period:sheet", number=period.pk)


def _keep(
    request: HttpRequest, period: ClassPeriod, form: forms.Form, keep: Any, **words: Any
) -> HttpResponse:
    turned = not_theirs(request)
    if turned is not None:
        return turned
    if role_of(request) is Role.MEMBER and _crew(request, period) is None:
        return _refused(request, period, _("You are in no crew of this period."))
    if not form.is_valid():
        return _refused(request, period, _wrong(form), **words)
    try:
        keep(
            {
                "entry": entry_of(request),
                "at": entered_at(request),
                "by": _by(request),
                "device": sign_in_of(request).device,
            }
        )
    except SetdayError as error:
        return _refused(request, period, str(error), **words)
    return kept(request, _back(request, period), said=_("Kept."))


def _crew(request: HttpRequest, period: ClassPeriod) -> PeriodCrew | None:
    """Return the crew spoken of: a student's own, or the one a teacher names."""
    if role_of(request) is Role.MEMBER:
        return crew_of(request, period)
    number = request.POST.get("crew", "")
    return period.crews.filter(number=int(number)).first() if number.isdecimal() and len(number) < 4 else None


def _at_it(request: HttpRequest, crew: PeriodCrew) -> tuple[str, ...]:
    """Return the keys of those at the task: who is at the tablet, or the whole crew that is here."""
    seated = {seat.member.key for seat in crew.seats.select_related("member")}
    here = [member.key for member in members_present(request) if member.key in seated]
    if len(here) > 1 or len(seated) == 1:
        return tuple(sorted(here or seated))
    away = crew.period.attendance.filter(state="away").values_list("member__key", flat=True)
    return tuple(sorted(seated - set(away)))


def _by(request: HttpRequest) -> str:
    member = request.member
    return member.name if member is not None else request.user.get_username()


def _back(request: HttpRequest, period: ClassPeriod) -> str:
    if role_of(request) is Role.MEMBER:
        return reverse("period:today")
    return reverse("period:sheet", kwargs={"number": period.pk})


def _wrong(form: forms.Form) -> str:
    """Return what is wrong with a form in one sentence, each field named."""
    return " ".join(
        f"{form.fields[name].label or name}: {' '.join(errors)}" if name in form.fields else " ".join(errors)
        for name, errors in form.errors.items()
    )


def _refused(request: HttpRequest, period: ClassPeriod, said: str, **words: Any) -> HttpResponse:
    again = {name: request.POST.get(name, "") for name in ("task", "quantity", "why")}
    typed = {"wrong": said, "typed": again, **words}
    if role_of(request) is Role.MEMBER:
        page = render(request, "period/today.html", {**today_words(request), **typed})
    else:
        page = render(request, "period/sheet.html", sheet_words(request, period, **typed))
    return refused(request, page, said=said)
