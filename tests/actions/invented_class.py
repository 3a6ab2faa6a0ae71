"""An invented class for tests of the timetable: sixteen students, one period a day, one spring."""

from contextlib import contextmanager
from datetime import date, time

from setday.actions.tasks import wiring
from setday.roster import (
    After,
    Bell,
    Calendar,
    ClassPlan,
    DayOff,
    Guest,
    Rate,
    SchoolClass,
    SignOff,
    Stretch,
    Student,
    TypedTask,
)

FIRST, SET_DAY = date(2027, 1, 11), date(2027, 6, 4)
SIGNED = ("drill", "lift", "electrical", "respirator", "saw", "heights")


def student(number, *, signed=SIGNED, born=date(2009, 8, 1), **changes):
    given = {
        "key": f"s{number}",
        "name": f"Student {number}",
        "born": born,
        "signoffs": tuple(SignOff(what=what, on=date(2026, 9, 1), by="the instructor") for what in signed),
        "knows": frozenset({("cable", "boards", "finishing")[number % 3]}),
        "targets": (("cable", 300), ("boards", 300)),
        "student_learner": True,
    }
    return Student(**(given | changes))


def finishing_rates():
    rates = (("tape", 0.03), ("second coat", 0.02), ("third coat", 0.02), ("sand", 0.012))
    names = {"tape": "tape and bed joints"}
    return tuple(
        Rate(
            trade="sanding" if work == "sand" else "finishing",
            work=names.get(work, work),
            hours=hours,
            unit="ft2",
            said_by="invented for a test",
        )
        for work, hours in rates
    )


def typed_tasks():
    return (
        TypedTask(key="insulate", label="Insulate outside walls", trade="insulation", place="house", hours=40,
                  work="insulate", crew_least=2, needs_gates=("wired",), opens_gates=("close-in",)),
        TypedTask(key="siding", label="Siding, south side", trade="siding", place="yard", hours=60,
                  crew_least=2, dry=True, attention=3, material_due=date(2027, 2, 1)),
        TypedTask(key="paint", label="Prime and paint", trade="painting", place="house", hours=50,
                  work="prime and paint", crew_least=2, needs_gates=("finished",), opens_gates=("trim",)),
        TypedTask(key="ready", label="Make ready for set day", trade="haul", place="house", hours=10,
                  crew_least=2, after=(After(task="paint", days=1),), needs_gates=("devices",)),
    )  # fmt: skip


def class_plan(*, students=16, tasks=None, rates=None, set_day=SET_DAY, minutes=120, **changes):
    people = tuple(student(number) for number in range(1, students + 1))
    bell = Bell(weekdays=(0, 1, 2, 3, 4), begin=time(8, 15), minutes=minutes)
    calendar = Calendar(
        first_day=FIRST,
        set_day=set_day,
        days_off=(DayOff(days=Stretch(first=date(2027, 3, 22), last=date(2027, 3, 26)), why="spring break"),),
        guests=(
            Guest(
                who="electrical inspector",
                days=tuple(date(2027, month, day) for month in (2, 3, 4) for day in (2, 9, 16, 23)),
            ),
        ),
    )
    given = {
        "school": "Plover High",
        "classes": (SchoolClass(key="am", name="Morning", students=people, meetings=(bell,)),),
        "calendar": calendar,
        "rates": finishing_rates() if rates is None else rates,
        "tasks": typed_tasks() if tasks is None else tasks,
    }
    return ClassPlan(**(given | changes))


@contextmanager
def cable_figured_once():
    """Figure the cable of a house once for all tests of a module."""
    figured, before = {}, wiring.figure_cable

    def remembered(opened, *, clock):
        if opened.text not in figured:
            figured[opened.text] = before(opened, clock=clock)
        return figured[opened.text]

    wiring.figure_cable = remembered
    try:
        yield
    finally:
        wiring.figure_cable = before
