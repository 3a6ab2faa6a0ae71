"""Records of periods as the core reads them: students, tasks, crews, marks."""

from collections.abc import Iterable

from setday.roster import SignOff, Student
from setday.roster.periods import Crew, CrewTask, Log, Mark, MarkKind, Spell, log_of, spells
from setday.web.keeping.models import (
    AttendanceState,
    ClassPeriod,
    House,
    HouseTask,
    Member,
    PeriodMark,
)

__all__ = [
    "crews_of",
    "house_log",
    "mark_of",
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


def students_of(period: ClassPeriod) -> dict[str, Student]:
    """Return the students of a period's class, and whoever sits in one of its crews, by key."""
    members = Member.objects.filter(school=period.school).prefetch_related("signoffs")
    seated = period.seats.values_list("member_id", flat=True)
    return {
        each.key: student_of(each)
        for each in members
        if each.school_class_id == period.school_class_id or each.pk in set(seated)
    }


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


def mark_of(mark: PeriodMark) -> Mark:
    """Return an entry of a crew."""
    return Mark(
        entry=str(mark.entry),
        kind=MarkKind(mark.kind),
        crew=f"{mark.period_id}/{mark.crew.number}",
        task=mark.task.key,
        members=tuple(mark.members),
        at=mark.at,
        quantity=mark.quantity,
        why=mark.why,
        by=mark.by,
    )


def _marks(rows: Iterable[PeriodMark]) -> tuple[Mark, ...]:
    return tuple(mark_of(each) for each in rows if not each.taken_back)


def marks_of(period: ClassPeriod) -> tuple[Mark, ...]:
    """Return the entries of a period that stand."""
    return _marks(period.marks.select_related("crew", "task"))


def house_log(house: House) -> Log:
    """Return how far every task of a house is, over all periods and classes."""
    rows = PeriodMark.objects.filter(period__house=house, taken_back=False)
    return log_of(_marks(rows.select_related("crew", "task")))


def spells_of(period: ClassPeriod) -> tuple[Spell, ...]:
    """Return who was at what for how long in a period."""
    return spells(marks_of(period), begins=period.begins, ends=period.ends)


def present_in(period: ClassPeriod) -> frozenset[str]:
    """Return the keys of those who are here, late or not."""
    here = period.attendance.exclude(state=AttendanceState.AWAY).select_related("member")
    return frozenset(each.member.key for each in here)


def crews_of(period: ClassPeriod) -> tuple[Crew, ...]:
    """Return the crews of a period."""
    crews = period.crews.prefetch_related("seats__member", "works__task")
    return tuple(
        Crew(
            name=str(crew.number),
            members=tuple(seat.member.key for seat in crew.seats.all()),
            tasks=tuple(work.task.key for work in crew.works.all()),
        )
        for crew in crews
    )
