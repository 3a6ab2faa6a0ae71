"""The short record of a period: a page, and the same on paper."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from setday.sheets import Book, PeriodRecord, book_pdf, period_sheet
from setday.web.clock import on_site
from setday.web.keeping.models import AttendanceState, ClassPeriod, PeriodFix
from setday.web.period.shown import crew_cards, lines_of
from setday.web.period.signed import named_in
from setday.web.period.views_periods import period_of

__all__ = ["pdf", "record"]


@require_safe
def record(request: HttpRequest, number: int) -> HttpResponse:
    """Show the record of a period."""
    period = period_of(request, number)
    return render(request, "period/record.html", _words(period))


def _words(period: ClassPeriod) -> dict[str, Any]:
    rows = period.attendance.select_related("member").order_by("member__shown_as", "pk")
    names = {
        state: [row.member.name for row in rows if row.state == state] for state in AttendanceState.values
    }
    return {
        "period": period,
        "here": names[AttendanceState.HERE],
        "late": names[AttendanceState.LATE],
        "away": names[AttendanceState.AWAY],
        "crews": crew_cards(period),
        "lines": [line for line in lines_of(period) if not line.taken_back],
        "fixes": period.fixes.all(),
        "named": named_in(period),
        "minutes_lost": sum(each.minutes for each in period.fixes.all()),
        "cents_lost": sum(each.cost_cents for each in period.fixes.all()),
    }


@require_safe
def pdf(request: HttpRequest, number: int) -> HttpResponse:
    """Hand out the record on letter paper."""
    period = period_of(request, number)
    words = _words(period)
    record_ = PeriodRecord(
        title=f"{period.school_class.name}, {_clock(period)}",
        here=tuple(words["here"]),
        late=tuple(words["late"]),
        away=tuple(words["away"]),
        crews=tuple(_crew(each) for each in words["crews"]),
        lines=tuple(
            (f"{on_site(line.at):%H:%M}", line.words, line.by)
            for line in words["lines"]
            if line.kind != "fix"
        ),
        fixes=tuple(_fix(each) for each in words["fixes"]),
        words=period.words,
    )
    book = Book(
        house=period.house.name,
        dated=on_site(timezone.now()).date(),
        sheets=(period_sheet(record_),),
        caution=_("As entered by the class. The instructor decides what counts."),
    )
    name = f"{period.house.key}-{on_site(period.begins):%Y-%m-%d-%H%M}.pdf"
    response = HttpResponse(book_pdf(book), content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(False, name)
    return response


def _clock(period: ClassPeriod) -> str:
    begins, ends = on_site(period.begins), on_site(period.ends)
    return f"{date_format(begins, 'DATE_FORMAT')}, {begins:%H:%M}–{ends:%H:%M}"


def _crew(card: dict[str, Any]) -> tuple[str, str, str]:
    tasks = "; ".join(f"{each['task'].label} ({each['state']})" for each in card["tasks"])
    return str(card["crew"].number), ", ".join(each.name for each in card["members"]), tasks or "–"


def _fix(fix: PeriodFix) -> tuple[str, str, str, str, str]:
    cost = [f"{fix.minutes} min"] if fix.minutes else []
    cost += [f"${fix.cost_cents / 100:,.2f}"] if fix.cost_cents else []
    return fix.what, fix.place, fix.noticed_by, fix.learned, ", ".join(cost) or "–"
