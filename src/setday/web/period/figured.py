"""Records of periods as the core reads them: students, tasks, crews, marks."""

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from setday.roster import SignOff, Student
from setday.roster.periods import Crew, CrewTask, Log, Mark, MarkKind, Spell, log_of, spells
from setday.web.keeping.models import (
    AttendanceState,
    ClassPeriod,
    House,
    HouseTask,
    Member,
    MemberRole,
    PeriodCrew,
    PeriodMark,
)

__all__ = [
    "crews_of",
    "house_log",
    "log_of_tasks",
    "marks_of",
    "present_in",
    "spells_of",
    "student_of",
    "students_of",
    "task_of",
]


def student_of(member: Member) -> Student:
    """Return a member as a student, sign-offs included."""
    return Student(
        key=member.key,
        name=member.name,
        born=member.born,
        signoffs=tuple(SignOff(what=each.what, on=each.on, by=each.by) for each in member.signoffs.all()),
        student_learner=member.student_learner,
    )


def students_of(period: ClassPeriod, keys: Iterable[str]) -> dict[str, Student]:
    """Return the students that are named, by key: of any class, for any could be written into a crew."""
    named = Member.objects.filter(school=period.school_id, role=MemberRole.CREW, key__in=list(keys))
    return {each.key: student_of(each) for each in named.prefetch_related("signoffs")}


def task_of(task: HouseTask) -> CrewTask:
    """Return a task as a crew meets it."""
    return CrewTask(
        key=task.key,
        label=task.label,
        trade=task.trade,
        skill=task.skill,
        place=task.place,
        quantity=task.quantity,
        unit=task.unit,
        crew_least=task.crew_least,
        crew_most=task.crew_most,
        signoffs=tuple(task.signoffs),
        exposures=tuple(task.exposures),
        on_site=task.on_site,
    )


_MARK = ("entry", "kind", "period", "crew__number", "task__key", "members", "at", "quantity", "why", "by")
"""What is read of an entry: a house has thousands by its set day, and few of their facts are asked for."""


def _marks(rows: QuerySet[PeriodMark]) -> tuple[Mark, ...]:
    return tuple(_mark(*row) for row in rows.filter(taken_back=False).values_list(*_MARK))


def _mark(entry: UUID, kind: str, period: int, crew: int, task: str, members: list[str], *rest: Any) -> Mark:
    at, quantity, why, by = rest
    return Mark(
        entry=str(entry),
        kind=MarkKind(kind),
        crew=f"{period}/{crew}",
        task=task,
        members=tuple(members),
        at=at,
        quantity=quantity,
        why=why,
        by=by,
    )


def marks_of(period: ClassPeriod, *, crew: PeriodCrew | None = None) -> tuple[Mark, ...]:
    """Return the entries of a period that stand; those of one crew where that is enough."""
    rows = PeriodMark.objects.filter(period=period)
    return _marks(rows if crew is None else rows.filter(crew=crew))


def house_log(house: House) -> Log:
    """Return how far every task of a house is, over all periods and classes."""
    return log_of(_marks(PeriodMark.objects.filter(period__house=house)))


def log_of_tasks(tasks: Iterable[HouseTask]) -> Log:
    """Return how far some tasks are, over all periods and classes."""
    return log_of(_marks(PeriodMark.objects.filter(task__in=[each.pk for each in tasks])))


def spells_of(period: ClassPeriod) -> tuple[Spell, ...]:
    """Return who was at what for how long in a period."""
    return spells(marks_of(period), begins=period.begins, ends=period.ends)


def present_in(period: ClassPeriod) -> frozenset[str]:
    """Return the keys of those who are here, late or not."""
    here = period.attendance.exclude(state=AttendanceState.AWAY)
    return frozenset(here.values_list("member__key", flat=True))


def crews_of(crews: Iterable[PeriodCrew]) -> tuple[Crew, ...]:
    """Return crews with who sits in them and what they do."""
    return tuple(
        Crew(
            name=str(crew.number),
            members=tuple(seat.member.key for seat in crew.seats.all()),
            tasks=tuple(work.task.key for work in crew.works.all()),
        )
        for crew in crews
    )
