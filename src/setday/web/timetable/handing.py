"""A period of the timetable handed to the class: its crews, seats and tasks written into the period."""

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from django.utils import timezone
from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.findings import Severity
from setday.roster import plain
from setday.web.keeping.models import (
    Attendance,
    AttendanceState,
    ClassPeriod,
    House,
    HouseTask,
    Member,
    MemberRole,
    SchoolClass,
)
from setday.web.period.figured import house_log
from setday.web.period.tasks import standings, take_tasks
from setday.web.period.views_crews import refusals, write_crews
from setday.web.timetable.logged import student_keys

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Crew, Timetable
    from setday.roster import Meeting

__all__ = ["Handed", "class_of", "hand_over", "period_there"]

_NOT_HERE = "period.away"
"""Whoever is marked away is left out before; nobody looked at the others yet."""

Crews = dict[int, tuple[list[str], list[str]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Handed:
    """What came of handing a period over.

    Parameters
    ----------
    period : ClassPeriod
    left_out : tuple of str
        Who is away or unknown, and which crews stand without their task and why, in words.
    """

    period: ClassPeriod
    left_out: tuple[str, ...]


def period_there(house: House, timetable: "Timetable", meeting: "Meeting") -> ClassPeriod | None:
    """Return the period that a meeting of the timetable has become; None while nobody began it."""
    school_class = class_of(house, timetable, meeting)
    if school_class is None:
        return None
    rows = ClassPeriod.objects.filter(school_class=school_class, house=house, begins=_begins(meeting))
    found: ClassPeriod | None = rows.first()
    return found


def hand_over(house: House, timetable: "Timetable", meeting: "Meeting") -> Handed:
    """Write the crews of a meeting into its period, which is begun where it is not there yet.

    Raises
    ------
    SetdayError
        When the class is not in the records, the period is closed, or it is another house's.
    """
    period = _period(house, timetable, meeting)
    crews = timetable.crews[meeting.number]
    _bring_tasks(house, timetable, crews)
    left_out: list[str] = []
    asked = _asked(period, timetable, crews, left_out)
    listed = standings(house, house_log(house))
    for number, (members, _tasks) in list(asked.items()):
        found = refusals(period, {number: asked[number]}, listed)
        told = [each for each in found if each.severity is Severity.PROBLEM and each.rule != _NOT_HERE]
        if told:
            asked[number] = (members, [])
            why = " ".join(str(each) for each in told)
            words = _("Crew %(number)d stands without its task: %(why)s")
            left_out.append(words % {"number": number, "why": why})
    write_crews(period, asked)
    return Handed(period=period, left_out=tuple(left_out))


def _begins(meeting: "Meeting") -> datetime:
    made: datetime = timezone.make_aware(datetime.combine(meeting.date, meeting.begin))
    return made


def class_of(house: House, timetable: "Timetable", meeting: "Meeting") -> SchoolClass | None:
    """Return the class of the records that meets then; None where no name or key fits."""
    group = next(g for g in timetable.day.plan.classes if g.key == meeting.school_class)
    ours = {plain(group.key), plain(group.name)}
    rows = SchoolClass.objects.filter(school=house.school, put_away=False).order_by("name", "pk")
    return next((each for each in rows if {plain(each.key), plain(each.name)} & ours), None)


def _period(house: House, timetable: "Timetable", meeting: "Meeting") -> ClassPeriod:
    school_class = class_of(house, timetable, meeting)
    if school_class is None:
        raise SetdayError(
            _("There is no class '%(name)s' among the classes of the school.")
            % {"name": meeting.school_class},
            do=_("Make the class, with the same name as in the class file, and its students."),
        )
    period, _made = ClassPeriod.objects.get_or_create(
        school_class=school_class,
        begins=_begins(meeting),
        defaults={"school": house.school, "house": house, "minutes": meeting.minutes},
    )
    if period.house_id != house.pk:
        raise SetdayError(
            _("This period of the class belongs to another house: %(house)s.") % {"house": period.house}
        )
    if period.closed:
        raise SetdayError(_("This period is closed."), do=_("Open it again for a correction."))
    if period.marks.filter(taken_back=False).exists():
        raise SetdayError(
            _("The crews of this period are at work: they are not written over."),
            do=_("Change crews and tasks on the period's own sheet."),
        )
    found: ClassPeriod = period
    return found


def _bring_tasks(house: House, timetable: "Timetable", crews: "tuple[Crew, ...]") -> None:
    """Bring the tasks of house and class file into the records where one of the crews' is missing."""
    wanted = {crew.work for crew in crews}
    there = HouseTask.objects.filter(house=house, gone=False, key__in=wanted).count()
    if there < len(wanted):
        take_tasks(house, timetable.day.plan)


def _asked(
    period: ClassPeriod, timetable: "Timetable", crews: "tuple[Crew, ...]", left_out: list[str]
) -> Crews:
    """Return members and tasks of each crew by keys of the records; who or what is not there is told."""
    members = Member.objects.filter(school_class=period.school_class, role=MemberRole.CREW, active=True)
    by_student = {student: key for key, student in student_keys(timetable.day, members).items()}
    rows = Attendance.objects.filter(period=period, state=AttendanceState.AWAY).select_related("member")
    away = {row.member.key for row in rows}
    tasks = set(HouseTask.objects.filter(house=period.house, gone=False).values_list("key", flat=True))
    asked: Crews = {}
    for crew in crews:
        here = []
        for student in crew.students:
            key, name = by_student.get(student), timetable.day.names[student]
            if key is None:
                left_out.append(_("%(name)s is not among the students of the school.") % {"name": name})
            elif key in away:
                left_out.append(_("%(name)s is away.") % {"name": name})
            else:
                here.append(key)
        asked[crew.number] = (here, [crew.work] if crew.work in tasks else [])
        if crew.work not in tasks and crew.work in timetable.day.works:
            label = timetable.day.works[crew.work].label
            left_out.append(_("'%(task)s' is not on the list of tasks.") % {"task": label})
    return {number: both for number, both in asked.items() if both[0]}
