"""A small class for the practice shed: four students, three typed tasks, planned in a moment."""

FEW = """\
# An invented class and a shed.
setday class: 1
school: Alder Flat High School
house: Practice shed

classes:
  morning:
    name: Morning class
    meets: [Mon to Fri at 8:05 for 100 minutes]

students:
  Cal Ortega: {class: morning, born: 2007-03-14, knows: [siding]}
  Ivy Lind: {class: morning, born: 2007-11-02}
  Ned Sorensen: {class: morning, born: 2007-06-21}
  Ola Vance: {class: morning, born: 2007-01-30}

signoffs:
  - {what: ladder, on: 2026-09-18, by: R. Halvorsen, students: [Cal Ortega, Ivy Lind, Ned Sorensen]}
  - {what: drill, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: saw, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: lift, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: electrical, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: respirator, on: 2026-09-11, by: R. Halvorsen, students: everyone}

calendar:
  first day: 2027-01-11
  set day: 2027-06-10
  time zone: America/Chicago
  days off:
    2027-01-18: holiday

rates:
  finishing:
    tape and bed joints: 0.025 hours per ft2 (invented)
    second coat: 0.016 hours per ft2 (invented)
    third coat: 0.016 hours per ft2 (invented)
  sanding:
    sand: 0.012 hours per ft2 (invented)

places: {yard: 8, shop: 8, house: 8}

tasks:
  house wrap:
    trade: siding
    place: yard
    hours: 10
    crew: 2 to 3
    signoffs: ladder
  lap siding:
    trade: siding
    place: yard
    hours: 30
    crew: 2 to 4
    after: house wrap
  insulate:
    trade: insulation
    place: house
    hours: 6
    crew: 2 to 2
    opens gates: close-in
"""
"""A class file that fits the shed."""

NAMES = ("Cal Ortega", "Ivy Lind", "Ned Sorensen", "Ola Vance")
SIGNED = ("ladder", "drill", "saw", "lift", "electrical", "respirator")


def kept_file(house, text=FEW):
    """Keep a class file of a house."""
    from setday.web.keeping.class_files import add_class_file

    return add_class_file(house, file_name="class.yaml", text=text)


def searched(house, *, text=FEW, seconds=0.3, before=None, begin=True, stopped=lambda: False, **facts):
    """Return a short search of a house that has ended, or one that waits."""
    from setday.web.keeping.models import TimetableRun
    from setday.web.timetable.worker import new_run, work_on

    run = new_run(
        house,
        version=house.newest,
        class_file=kept_file(house, text),
        before=before,
        **{"options": {"seconds": seconds, "workers": 1}, **facts},
    )
    if begin:
        work_on(run.pk, stopped=stopped)
    return TimetableRun.objects.get(pk=run.pk)


def class_of(school):
    """Keep the class of the class file in the records, everybody signed off but Ola for ladders."""
    from datetime import date

    from setday.web.keeping.members import keep_class, keep_member
    from setday.web.keeping.models import MemberSignOff

    made = keep_class(school, name="Morning class")
    for name in NAMES:
        member = keep_member(school, name=name, school_class=made, born=date(2007, 3, 14))
        for what in SIGNED if name != "Ola Vance" else SIGNED[1:]:
            MemberSignOff.objects.create(member=member, what=what, on=date(2026, 9, 11), by="R. Halvorsen")
    return made
