"""The periods of the classes: begin one, its sheet, close it."""

from typing import Any

from django.contrib import messages
from django.db import IntegrityError, transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.entries import who_enters
from setday.web.keeping.models import ClassPeriod
from setday.web.period.forms import FixForm, NoteForm, PeriodForm
from setday.web.period.shown import attendance_rows, crew_cards, lines_of
from setday.web.period.watching import watch_rows

__all__ = ["close", "new", "period_of", "periods", "sheet", "sheet_words"]

_SHOWN = 60


def period_of(request: HttpRequest, number: int) -> ClassPeriod:
    """Return a period of the school of the request, or 404."""
    rows = ClassPeriod.objects.of(request.school).select_related("school_class", "house", "school")
    found: ClassPeriod = get_object_or_404(rows, pk=number)
    return found


@require_safe
def periods(request: HttpRequest) -> HttpResponse:
    """List the periods, the newest first."""
    rows = ClassPeriod.objects.of(request.school).select_related("school_class", "house")
    return render(request, "period/list.html", {"periods": rows[:_SHOWN]})


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Begin a period."""
    form = PeriodForm(request.POST or None, school=request.school)
    if request.method == "POST" and form.is_valid():
        try:
            with transaction.atomic():
                made = ClassPeriod.objects.create(school=request.school, **form.cleaned_data)
            return redirect("period:sheet", number=made.pk)
        except IntegrityError:
            form.add_error("begins", _("This class has a period that begins then."))
    ready = form.fields["school_class"].queryset.exists() and form.fields["house"].queryset.exists()
    return render(request, "period/new.html", {"form": form, "ready": ready})


@require_safe
def sheet(request: HttpRequest, number: int) -> HttpResponse:
    """Show a period: who is here, the crews, what was entered."""
    return render(request, "period/sheet.html", sheet_words(request, period_of(request, number)))


def sheet_words(request: HttpRequest, period: ClassPeriod, **more: Any) -> dict[str, Any]:
    """Return what the sheet of a period shows."""
    cards = crew_cards(period)
    return {
        "period": period,
        "people": attendance_rows(period),
        "crews": cards,
        "watch": watch_rows(period.house, cards),
        "lines": lines_of(period),
        "fix_form": FixForm(prefix="fix"),
        "note_form": NoteForm(prefix="note"),
        "who": who_enters(request),
        **more,
    }


@require_POST
def close(request: HttpRequest, number: int) -> HttpResponse:
    """Close a period with a word on it, or open it again for a correction."""
    period = period_of(request, number)
    opens = request.POST.get("do") == "reopen"
    period.closed_at = None if opens else timezone.now()
    if "words" in request.POST:
        period.words = request.POST["words"].strip()[:4000]
    period.save(update_fields=["closed_at", "words"])
    if opens:
        messages.success(request, _("The period is open again."))
        return redirect("period:sheet", number=period.pk)
    messages.success(request, _("The period is closed."))
    return redirect("period:record", number=period.pk)
