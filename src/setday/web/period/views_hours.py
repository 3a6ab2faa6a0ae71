"""Hours of a class by student and trade, and a student's own."""

import csv
from dataclasses import replace
from io import StringIO
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from setday.learning.hours import Hours, hours_of, hours_table
from setday.roster import Student
from setday.sheets import Book, book_pdf, hours_sheet
from setday.web.clock import on_site
from setday.web.keeping.models import ClassPeriod, HouseTask, Member, MemberRole, School, SchoolClass
from setday.web.people.who import members_present
from setday.web.period.figured import spells_of, student_of, task_of

__all__ = ["classes", "csv_file", "of_class", "own", "pdf"]

_RISKY = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins so is taken for a formula by programs that open tables."""


@require_safe
def classes(request: HttpRequest) -> HttpResponse:
    """List the classes; with one class only, show its hours at once."""
    rows = list(SchoolClass.objects.of(request.school).filter(put_away=False))
    if len(rows) == 1:
        return redirect("period:class-hours", key=rows[0].key)
    return render(request, "period/hours_classes.html", {"classes": rows})


@require_safe
def of_class(request: HttpRequest, key: str) -> HttpResponse:
    """Show the hours of a class, who has not yet done what, and who lacks a sign-off."""
    group = _class(request, key)
    hours = _hours(request.school, _members(group))
    head, *rows = hours_table(hours)
    words = {
        "group": group,
        "many": SchoolClass.objects.of(request.school).filter(put_away=False).count() > 1,
        "head": head,
        "rows": rows,
        "not_yet": [
            (trade, [each.name for each in hours.not_yet(trade)])
            for trade in hours.trades
            if hours.not_yet(trade)
        ],
        "signoffs": _signoffs(group),
    }
    return render(request, "period/hours.html", words)


@require_safe
def own(request: HttpRequest) -> HttpResponse:
    """Show a student their own hours and sign-offs, and nothing of others."""
    here = members_present(request)
    if not here:
        return redirect("period:hours")
    student = student_of(here[0])
    hours = _hours(request.school, [student]).students[0]
    words: dict[str, Any] = {
        "minutes": [(trade, skill, round(each / 15) / 4) for trade, skill, each in hours.minutes],
        "total": round(hours.total / 15) / 4,
        "signoffs": here[0].signoffs.all(),
    }
    return render(request, "period/own_hours.html", words)


@require_safe
def csv_file(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the hours of a class as CSV."""
    group = _class(request, key)
    text = StringIO()
    writer = csv.writer(text)
    for row in hours_table(_hours(request.school, _members(group))):
        writer.writerow([f"'{cell}" if cell.startswith(_RISKY) else cell for cell in row])
    return _file(text.getvalue().encode("utf-8-sig"), f"{group.key}-hours.csv", "text/csv; charset=utf-8")


@require_safe
def pdf(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the hours of a class on letter paper."""
    group = _class(request, key)
    rows = hours_table(_hours(request.school, _members(group)))
    title = _("Hours of the class: %(name)s") % {"name": group.name}
    book = Book(
        house=request.school.name,
        dated=on_site(timezone.now()).date(),
        sheets=(hours_sheet(title, rows),),
        caution=_("As entered by the class. The instructor decides what counts."),
    )
    return _file(book_pdf(book), f"{group.key}-hours.pdf", "application/pdf")


def _file(data: bytes, name: str, kind: str) -> HttpResponse:
    response = HttpResponse(data, content_type=kind)
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    return response


def _class(request: HttpRequest, key: str) -> SchoolClass:
    found: SchoolClass = get_object_or_404(SchoolClass.objects.of(request.school), key=key)
    return found


def _members(group: SchoolClass) -> list[Student]:
    rows = Member.objects.filter(school_class=group, role=MemberRole.CREW).order_by("name", "pk")
    return [student_of(each) for each in rows.prefetch_related("signoffs")]


def _hours(school: School, students: list[Student]) -> Hours:
    """Sum the hours of students over all periods of their school."""
    periods = ClassPeriod.objects.of(school).order_by("begins", "pk")
    spells = [
        replace(spell, task=f"{period.house_id}/{spell.task}")
        for period in periods
        for spell in spells_of(period)
    ]
    every = HouseTask.objects.filter(house__school=school)
    tasks = {f"{each.house_id}/{each.key}": task_of(each) for each in every}
    return hours_of(students, spells, tasks)


def _signoffs(group: SchoolClass) -> list[dict[str, Any]]:
    """Return each sign-off that tasks ask for, and who of the class lacks it."""
    asked = HouseTask.objects.filter(house__school=group.school, gone=False).values_list(
        "signoffs", flat=True
    )
    wanted = sorted({each for row in asked for each in row})
    students = _members(group)
    today = on_site(timezone.now()).date()
    return [
        {"what": what, "lacking": [each.name for each in students if not each.signed_off(what, on=today)]}
        for what in wanted
    ]
