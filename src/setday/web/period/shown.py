"""What the sheets of a period show: tiles of attendance, cards of crews, lines of what was entered."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.roster.periods import Log, MarkKind, Progress, TaskState, check_crews
from setday.web.clock import on_site
from setday.web.keeping.models import (
    Attendance,
    ClassPeriod,
    CrewWork,
    HouseTask,
    Member,
    MemberRole,
    PeriodCrew,
)
from setday.web.period.figured import crews_of, log_of_tasks, present_in, student_of, task_of
from setday.web.period.limits import limits_of
from setday.web.period.signed import signed

__all__ = ["MARKS", "STATES", "Line", "attendance_rows", "crew_cards", "lines_of"]

STATES = {
    TaskState.NOT_BEGUN: gettext_lazy("not begun"),
    TaskState.RUNNING: gettext_lazy("at work"),
    TaskState.BEGUN: gettext_lazy("begun"),
    TaskState.BLOCKED: gettext_lazy("blocked"),
    TaskState.DONE: gettext_lazy("done"),
}

MARKS = {
    MarkKind.START: gettext_lazy("begun"),
    MarkKind.STOP: gettext_lazy("stopped"),
    MarkKind.PARTLY: gettext_lazy("partly done"),
    MarkKind.DONE: gettext_lazy("done"),
    MarkKind.BLOCKED: gettext_lazy("blocked"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a period's log."""

    at: datetime
    words: str
    by: str
    kind: str
    row: int
    taken_back: bool = False
    photo: UUID | None = None


def attendance_rows(period: ClassPeriod) -> list[dict[str, Any]]:
    """Return the members of a class, whether each is here, and the state a tap leads to."""
    states = {row.member_id: row.state for row in Attendance.objects.filter(period=period)}
    members = Member.objects.filter(
        school_class=period.school_class, role=MemberRole.CREW, active=True
    ).order_by("shown_as", "pk")
    return [
        {"member": each, "state": states.get(each.pk, ""), "next": _next(states.get(each.pk, ""))}
        for each in members
    ]


def _next(state: str) -> str:
    """Return what one tap makes of a state."""
    return "away" if state in {"here", "late"} else "here"


def crew_cards(period: ClassPeriod, *, only: PeriodCrew | None = None) -> list[dict[str, Any]]:
    """Return the crews of a period: members, tasks with how far they are, what keeps them from it."""
    every = period.crews if only is None else period.crews.filter(pk=only.pk)
    rows = list(every.prefetch_related("seats__member__signoffs", "works__task"))
    log = log_of_tasks(work.task for crew in rows for work in crew.works.all())
    told = _findings(period, rows)
    return [
        {
            "crew": crew,
            "members": [seat.member for seat in crew.seats.all()],
            "tasks": [_task(work, log) for work in crew.works.all()],
            "findings": told.get(str(crew.number), []),
        }
        for crew in rows
    ]


def _task(work: CrewWork, log: Log) -> dict[str, Any]:
    progress = log.of(work.task.key)
    return {
        "work": work,
        "task": work.task,
        "progress": progress,
        "state": STATES[progress.state],
        "left": _left(work.task, progress),
        "running": progress.state is TaskState.RUNNING,
        "done": progress.state is TaskState.DONE,
    }


def _left(task: HouseTask, progress: Progress) -> float:
    return max(0.0, task.quantity - progress.quantity)


def _findings(period: ClassPeriod, rows: list[PeriodCrew]) -> dict[str, list[Any]]:
    """Return what keeps crews from their tasks, by crew."""
    present = present_in(period)
    students = {seat.member.key: student_of(seat.member) for crew in rows for seat in crew.seats.all()}
    tasks = {work.task.key: task_of(work.task) for crew in rows for work in crew.works.all()}
    on, rules = on_site(period.begins).date(), limits_of(period.house)
    found: dict[str, list[Any]] = {}
    for crew in crews_of(rows):
        told = check_crews((crew,), students=students, tasks=tasks, present=present, on=on, rules=rules)
        found[crew.name] = list(dict.fromkeys(told))
    return found


def lines_of(period: ClassPeriod) -> list[Line]:
    """Return what was entered in a period, in order of time."""
    marks = [
        Line(
            at=each.at,
            words=_mark_words(each),
            by=signed(each.by, each.device),
            kind="mark",
            row=each.pk,
            taken_back=each.taken_back,
        )
        for each in period.marks.select_related("crew", "task")
    ]
    fixes = [
        Line(
            at=each.at,
            words=_("Fix: %(what)s") % {"what": each.what},
            by=signed(each.by, each.device),
            kind="fix",
            row=each.pk,
        )
        for each in period.fixes.all()
    ]
    notes = [
        Line(
            at=each.at,
            words=each.text or _("A photo"),
            by=signed(each.by, each.device),
            kind="note",
            row=each.pk,
            photo=each.photo.key if each.photo else None,
        )
        for each in period.notes.select_related("photo")
    ]
    return sorted([*marks, *fixes, *notes], key=lambda line: (line.at, line.kind, line.row))


def _mark_words(mark: Any) -> str:
    words = _("Crew %(crew)s: %(task)s, %(kind)s") % {
        "crew": mark.crew.number,
        "task": mark.task.label,
        "kind": MARKS[MarkKind(mark.kind)],
    }
    if mark.quantity is not None:
        words += f", {mark.quantity:g} {mark.task.unit}".rstrip()
    return f"{words}: {mark.why}" if mark.why else words
