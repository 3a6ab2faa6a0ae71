"""Who is here, and which crew does what."""

from typing import Any

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from setday.findings import Finding, Severity
from setday.roster.periods import Crew, EntryRefusal, check_crews
from setday.web.clock import on_site
from setday.web.entries import kept, not_theirs, refused
from setday.web.keeping.models import (
    Attendance,
    AttendanceState,
    ClassPeriod,
    CrewSeat,
    CrewWork,
    HouseTask,
    Member,
    MemberRole,
    PeriodCrew,
)
from setday.web.period.entering import still_open
from setday.web.period.figured import house_log, present_in, students_of, task_of
from setday.web.period.gates import gate_finding, shut_gates
from setday.web.period.limits import limits_of
from setday.web.period.tasks import Standing, standings
from setday.web.period.views_periods import period_of, sheet_words

__all__ = ["attendance", "crews", "refusals", "write_crews"]

_MOST_CREWS = 12


@require_POST
def attendance(request: HttpRequest, number: int) -> HttpResponse:
    """Note that somebody is here, late or away; or that everybody nobody looked at yet is here."""
    period = period_of(request, number)
    turned = not_theirs(request)
    if turned is not None:
        return turned
    to = reverse("period:sheet", kwargs={"number": period.pk})
    try:
        still_open(period)
    except EntryRefusal as error:
        page = render(request, "period/sheet.html", sheet_words(request, period, wrong=str(error)))
        return refused(request, page, said=str(error))
    members = Member.objects.filter(school_class=period.school_class, role=MemberRole.CREW, active=True)
    if request.POST.get("everybody"):
        for member in members.exclude(attendance__period=period):
            Attendance.objects.get_or_create(
                period=period, member=member, defaults={"state": AttendanceState.HERE}
            )
        return kept(request, to)
    state = request.POST.get("state", "")
    member = members.filter(key=request.POST.get("member", "")).first()
    if member is None or state not in AttendanceState.values:
        said = _("This name is not in the class any more.")
        return refused(request, render(request, "period/sheet.html", sheet_words(request, period)), said=said)
    Attendance.objects.update_or_create(period=period, member=member, defaults={"state": state})
    return kept(request, f"{to}#who")


@require_http_methods(["GET", "HEAD", "POST"])
def crews(request: HttpRequest, number: int) -> HttpResponse:
    """Make the crews of a period by hand, from the tasks that are ready."""
    period = period_of(request, number)
    listed = standings(period.house, house_log(period.house))
    asked = _typed(request, period) if request.method == "POST" else _kept(period)
    found: tuple[Finding, ...] = ()
    if request.method == "POST":
        found = refusals(period, asked, listed)
        if not any(each.severity is Severity.PROBLEM for each in found):
            write_crews(period, asked)
            messages.success(request, _("The crews are kept."))
            return redirect("period:sheet", number=period.pk)
    page = render(request, "period/crews.html", _words(period, asked, listed, found))
    if found:
        page.status_code = 422
    return page


def _kept(period: ClassPeriod) -> dict[int, tuple[list[str], list[str]]]:
    """Return the members and tasks of each crew by its number."""
    return {
        crew.number: (
            [seat.member.key for seat in crew.seats.all()],
            [work.task.key for work in crew.works.all()],
        )
        for crew in period.crews.prefetch_related("seats__member", "works__task")
    }


def _typed(request: HttpRequest, period: ClassPeriod) -> dict[int, tuple[list[str], list[str]]]:
    asked: dict[int, tuple[list[str], list[str]]] = {}
    for name, values in request.POST.lists():
        what, _dash, tail = name.partition("-")
        if what == "crew" and values[0].isdecimal() and 0 < int(values[0]) <= _MOST_CREWS:
            asked.setdefault(int(values[0]), ([], []))[0].append(tail)
        if what == "tasks" and tail.isdecimal() and 0 < int(tail) <= _MOST_CREWS:
            asked.setdefault(int(tail), ([], []))[1].extend(dict.fromkeys(each for each in values if each))
    return {number: both for number, both in sorted(asked.items()) if both[0] or both[1]}


def refusals(
    period: ClassPeriod, asked: dict[int, tuple[list[str], list[str]]], listed: list[Standing]
) -> tuple[Finding, ...]:
    """Return what keeps the crews from their tasks; a task that waits for another is refused too."""
    if period.closed:
        return (Finding(rule="period.closed", about=str(period), found="it is closed.", do="Open it again."),)
    students = students_of(period, {key for members, _tasks in asked.values() for key in members})
    crews = [
        Crew(name=str(number), members=tuple(m for m in members if m in students), tasks=tuple(tasks))
        for number, (members, tasks) in asked.items()
    ]
    known = {each.task.key: each for each in listed}
    tasks = {key: task_of(each.task) for key, each in known.items()}
    found = list(
        check_crews(
            crews,
            students=students,
            tasks=tasks,
            present=present_in(period),
            on=on_site(period.begins).date(),
            rules=limits_of(period.house),
        )
    )
    before = _kept(period)
    for number, (_members, keys) in asked.items():
        fresh = [key for key in keys if key not in before.get(number, ([], []))[1]]
        found += [_waits(number, known[key]) for key in fresh if key in known and not known[key].ready]
        found += [_gone(number) for key in keys if key not in known]
    wanted = [known[key].task for _members, keys in asked.values() for key in keys if key in known]
    shut = shut_gates(period.house, wanted)
    found += [gate_finding(known[key].task, surfaces) for key, surfaces in shut.items()]
    return tuple(dict.fromkeys(found))


def _gone(number: int) -> Finding:
    return Finding(
        rule="period.gone",
        about=f"crew {number}",
        found="its task is not on the list any more.",
        expected="a task of the list.",
        do="Choose another.",
    )


def _waits(number: int, standing: Standing) -> Finding:
    waits = "; ".join(standing.waits)
    return Finding(
        rule="period.not-ready",
        about=f"crew {number}",
        found=f"'{standing.task.label}' " + (f"waits for: {waits}." if waits else "is done already."),
        expected="a task that is ready.",
        do="Give the crew another task, or mark what it waits for as done.",
    )


@transaction.atomic
def write_crews(period: ClassPeriod, asked: dict[int, tuple[list[str], list[str]]]) -> None:
    """Write the crews down; one that has spoken already keeps its number even when it is empty."""
    CrewSeat.objects.filter(period=period).delete()
    CrewWork.objects.filter(crew__period=period).delete()
    period.crews.exclude(number__in=asked).filter(marks__isnull=True).delete()
    people = {each.key: each for each in Member.objects.filter(school=period.school, role=MemberRole.CREW)}
    tasks = {each.key: each for each in HouseTask.objects.filter(house=period.house)}
    for number, (members, keys) in asked.items():
        crew, _made = PeriodCrew.objects.get_or_create(period=period, number=number)
        for key in members:
            if key in people:
                CrewSeat.objects.create(period=period, crew=crew, member=people[key])
        for order, key in enumerate(keys):
            if key in tasks:
                CrewWork.objects.create(crew=crew, task=tasks[key], order=order)


def _words(
    period: ClassPeriod,
    asked: dict[int, tuple[list[str], list[str]]],
    listed: list[Standing],
    found: tuple[Finding, ...],
) -> dict[str, Any]:
    seat = {member: number for number, (members, _tasks) in asked.items() for member in members}
    states = {row.member_id: row.state for row in Attendance.objects.filter(period=period)}
    members = Member.objects.filter(
        school_class=period.school_class, role=MemberRole.CREW, active=True
    ).order_by("shown_as", "pk")
    count = min(_MOST_CREWS, max([*asked, 0]) + 2)
    chosen = {key for _members, keys in asked.values() for key in keys}
    options = [each for each in listed if each.ready or each.task.key in chosen]
    return {
        "period": period,
        "found": found,
        "people": [
            {
                "member": each,
                "crew": seat.get(each.key, 0),
                "away": states.get(each.pk) == AttendanceState.AWAY,
            }
            for each in members
        ],
        "numbers": range(1, count + 1),
        "rows": [
            {"number": number, "tasks": [*asked.get(number, ([], []))[1][:3], "", "", ""][:3]}
            for number in range(1, count + 1)
        ],
        "options": options,
        "waiting": [each for each in listed if not each.ready and each.waits],
    }
