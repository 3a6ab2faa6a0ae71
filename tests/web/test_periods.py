"""A period in the site: who is here, crews, entries once and only once, its record, hours."""

import csv
from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from setday.web.gates.house import gates_in_force
from setday.web.keeping.members import keep_class, keep_member
from setday.web.keeping.models import ClassPeriod, CrewWork, MemberSignOff, PeriodFix, PeriodMark
from setday.web.period.tasks import keep_typed, take_tasks
from tests.web.people import browser_of, morning_of, one_of
from tests.web.photos import jpeg, sent
from tests.web.timetables import FEW, kept_file

ENTRY = {"X-Setday-Entry": "1"}


@pytest.fixture
def morning(school):
    return morning_of(school)


@pytest.fixture
def period(school, shed, morning):
    """Return a period that began half an hour ago."""
    begins = timezone.now() - timedelta(minutes=30)
    return ClassPeriod.objects.create(
        school=school, school_class=morning, house=shed, begins=begins, minutes=90
    )


@pytest.fixture
def trim(shed):
    return keep_typed(shed, label="Hang doors", trade="trim", place="workroom", quantity=4.0, unit="doors")


def here(desk, period):
    return desk.post(f"/periods/{period.pk}/attendance/", {"everybody": "yes"})


@pytest.fixture
def crew(desk, period, trim):
    """Make a crew of both students and send it to the doors."""
    here(desk, period)
    answer = desk.post(
        f"/periods/{period.pk}/crews/", {"crew-cal-o": "1", "crew-ivy-l": "1", "tasks-1": [trim.key, "", ""]}
    )
    assert answer.status_code == 302
    return period.crews.get()


@pytest.fixture
def cal(morning):
    return browser_of(morning.members.get(key="cal-o"))


def say(browser, period, task, kind, **more):
    more.setdefault("entry", str(uuid4()))
    return browser.post(f"/periods/{period.pk}/mark/", {"task": task.key, "kind": kind, "crew": "1", **more})


def text(answer):
    return answer.content.decode()


def test_a_period_begins_from_a_class_and_a_house(desk, shed, morning):
    given = {"school_class": morning.pk, "house": shed.pk, "begins": "2026-10-06T08:00", "minutes": "90"}
    answer = desk.post("/periods/new/", given)
    assert answer.headers["Location"] == f"/periods/{ClassPeriod.objects.get().pk}/"


def test_a_class_has_one_period_at_a_time(desk, period):
    begins = timezone.localtime(period.begins)
    period.begins = begins.replace(second=0, microsecond=0)
    period.save()
    given = {"school_class": period.school_class.pk, "house": period.house.pk, "minutes": "90"}
    answer = desk.post("/periods/new/", {**given, "begins": f"{begins:%Y-%m-%dT%H:%M}"})
    assert "has a period that begins then" in text(answer)
    assert ClassPeriod.objects.count() == 1


def test_one_tap_marks_a_student_and_the_next_tap_changes_it(desk, period):
    address = f"/periods/{period.pk}/attendance/"
    desk.post(address, {"member": "cal-o", "state": "here"})
    desk.post(address, {"member": "cal-o", "state": "away"})
    assert [row.state for row in period.attendance.all()] == ["away"]


def test_one_tap_marks_all_the_others_as_here(desk, period):
    desk.post(f"/periods/{period.pk}/attendance/", {"member": "cal-o", "state": "away"})
    here(desk, period)
    assert {row.member.key: row.state for row in period.attendance.all()} == {
        "cal-o": "away",
        "ivy-l": "here",
    }


def test_somebody_who_is_away_is_in_no_crew(desk, period, trim):
    desk.post(f"/periods/{period.pk}/attendance/", {"member": "cal-o", "state": "away"})
    answer = desk.post(f"/periods/{period.pk}/crews/", {"crew-cal-o": "1", "tasks-1": trim.key})
    assert (answer.status_code, period.crews.count()) == (422, 0)
    assert "is in crew 1 and is not here" in text(answer)


def test_a_refused_crew_keeps_what_was_chosen(desk, period, trim):
    answer = desk.post(f"/periods/{period.pk}/crews/", {"crew-cal-o": "2", "tasks-2": trim.key})
    assert 'name="crew-cal-o" value="2" checked' in text(answer)
    assert f'value="{trim.key}" selected' in text(answer)


def test_a_missing_sign_off_keeps_a_student_off_a_task(desk, period, shed, morning):
    saw = keep_typed(shed, label="Rip blocking", trade="trim", place="yard", signoffs=["power saw"])
    here(desk, period)
    asked = {"crew-cal-o": "1", "tasks-1": saw.key}
    assert "power saw" in text(desk.post(f"/periods/{period.pk}/crews/", asked))
    MemberSignOff.objects.create(
        member=morning.members.get(key="cal-o"), what="Power saw", on=date(2026, 1, 5), by="Ana Ruiz"
    )
    assert desk.post(f"/periods/{period.pk}/crews/", asked).status_code == 302


def test_no_minor_is_sent_to_a_roof(desk, period, shed):
    felt = keep_typed(shed, label="Roof felt", trade="roof", place="roof", exposures=["roofing"])
    here(desk, period)
    answer = desk.post(f"/periods/{period.pk}/crews/", {"crew-cal-o": "1", "tasks-1": felt.key})
    assert answer.status_code == 422
    assert "Order 16" in text(answer)


def test_a_limit_that_the_class_file_sets_aside_keeps_no_crew_from_its_task(desk, period, shed):
    felt = keep_typed(shed, label="Roof felt", trade="roof", place="roof", exposures=["roofing"])
    here(desk, period)
    kept_file(shed, FEW + "limits set aside: {order-16: 'county letter of 4 June, on file'}\n")
    asked = {"crew-cal-o": "1", "tasks-1": felt.key}
    assert desk.post(f"/periods/{period.pk}/crews/", asked).status_code == 302
    assert say(desk, period, felt, "start").status_code == 302
    assert PeriodMark.objects.get().kind == "start"


def test_a_minor_of_another_class_is_held_to_the_same_limits(desk, school, period, shed):
    keep_member(school, name="Oz Lee", school_class=keep_class(school, name="Afternoon"))
    felt = keep_typed(shed, label="Roof felt", trade="roof", place="roof", exposures=["roofing"])
    asked = {"crew-oz-l": "1", "tasks-1": felt.key}
    assert "Order 16" in text(desk.post(f"/periods/{period.pk}/crews/", asked))
    assert not period.seats.exists()


def test_a_task_that_vanished_from_the_house_is_given_to_no_crew(desk, period, shed):
    felt = keep_typed(shed, label="Roof felt", trade="roof", place="roof", exposures=["roofing"])
    shed.tasks.filter(pk=felt.pk).update(gone=True)
    here(desk, period)
    asked = {"crew-cal-o": "1", "tasks-1": felt.key}
    assert "not on the list any more" in text(desk.post(f"/periods/{period.pk}/crews/", asked))
    assert not CrewWork.objects.exists()


def test_a_task_of_the_house_that_waits_is_not_given_to_a_crew(desk, period, shed):
    take_tasks(shed)
    here(desk, period)
    hang = next(task for task in shed.tasks.all() if "hang" in task.key)
    answer = desk.post(
        f"/periods/{period.pk}/crews/", {"crew-cal-o": "1", "crew-ivy-l": "1", "tasks-1": hang.key}
    )
    assert "waits for" in text(answer)
    assert answer.status_code == 422


def test_a_crew_sees_its_own_work_and_marks_it(cal, period, crew, trim):
    assert "Hang doors" in text(cal.get("/today/"))
    assert say(cal, period, trim, "start").status_code == 302
    say(cal, period, trim, "partly done", quantity="1.5")
    assert [(mark.kind, mark.quantity) for mark in period.marks.all()] == [
        ("start", None),
        ("partly done", 1.5),
    ]


def test_a_crew_does_not_see_another_crew(desk, cal, period, crew, trim, morning):
    desk.post(f"/periods/{period.pk}/crews/", {"crew-ivy-l": "2", "tasks-2": trim.key})
    assert "Hang doors" not in text(cal.get("/today/"))
    assert say(cal, period, trim, "start", crew="2").status_code == 422


def test_an_entry_that_arrives_twice_is_kept_once(cal, period, crew, trim):
    entry = str(uuid4())
    for _time in range(3):
        say(cal, period, trim, "partly done", quantity="1", entry=entry)
    assert PeriodMark.objects.count() == 1


def test_an_entry_from_before_the_network_fell_away_counts_at_its_own_time(cal, period, crew, trim):
    then = timezone.now() - timedelta(minutes=12)
    say(cal, period, trim, "start", entered_at=then.isoformat())
    assert abs((period.marks.get().at - then).total_seconds()) < 1


def test_the_tablet_is_told_where_to_go_on(cal, period, crew, trim):
    answer = cal.post(f"/periods/{period.pk}/mark/", {"task": trim.key, "kind": "start"}, headers=ENTRY)
    assert answer.json() == {"to": "/today/"}


def test_the_tablet_is_told_why_an_entry_is_refused(cal, period, crew, trim):
    answer = cal.post(f"/periods/{period.pk}/mark/", {"task": trim.key, "kind": "stop"}, headers=ENTRY)
    assert (answer.status_code, "has not begun" in answer.json()["said"]) == (422, True)


def test_what_somebody_else_kept_on_the_tablet_waits_for_them(cal, period, crew, trim):
    fields = {"task": trim.key, "kind": "start", "who": "member-999999"}
    answer = cal.post(f"/periods/{period.pk}/mark/", fields, headers=ENTRY)
    assert (answer.status_code, PeriodMark.objects.count()) == (409, 0)


@pytest.mark.parametrize("typed", ["twelve-ish", "-1", "nan", "1e400"])
def test_a_quantity_that_is_none_is_refused_and_kept_in_its_field(cal, period, crew, trim, typed):
    answer = say(cal, period, trim, "partly done", quantity=typed)
    assert (answer.status_code, PeriodMark.objects.count()) == (422, 0)
    assert f'value="{typed}"' in text(answer)


def test_a_task_that_is_done_is_done(desk, cal, period, crew, trim):
    say(cal, period, trim, "done", quantity="4")
    assert "done already" in text(say(cal, period, trim, "start"))
    assert "100 %" in text(desk.get("/houses/practice-shed/tasks/"))


def test_a_mark_is_taken_back_and_stays_on_record(desk, cal, period, crew, trim):
    say(cal, period, trim, "done")
    row = period.marks.get()
    desk.post(f"/periods/{period.pk}/mark/{row.pk}/back/")
    assert "taken back" in text(desk.get(f"/periods/{period.pk}/"))
    assert say(cal, period, trim, "start").status_code == 302


def test_a_fix_says_what_was_learned(cal, period, crew):
    given = {
        "fix-what": "Door hung on the wrong side",
        "fix-learned": "Read the swing first",
        "fix-cost": "12.50",
    }
    cal.post(f"/periods/{period.pk}/fix/", {**given, "entry": str(uuid4())})
    fix = PeriodFix.objects.get()
    assert (fix.learned, fix.cost_cents, fix.by) == ("Read the swing first", 1250, "Cal Ortega")


def test_a_refused_fix_keeps_what_was_typed(cal, period, crew):
    answer = cal.post(f"/periods/{period.pk}/fix/", {"fix-what": "", "fix-learned": "Measure twice"})
    assert "Measure twice" in text(answer)


def test_nothing_is_entered_into_a_closed_period(desk, cal, period, crew, trim):
    desk.post(f"/periods/{period.pk}/close/", {"do": "close", "words": "Good work."})
    assert say(desk, period, trim, "start").status_code == 422
    assert PeriodMark.objects.count() == 0


def test_the_record_of_a_period_is_printed(desk, cal, period, crew, trim):
    say(cal, period, trim, "done", quantity="4")
    desk.post(f"/periods/{period.pk}/close/", {"do": "close", "words": "Good work."})
    page = text(desk.get(f"/periods/{period.pk}/record/"))
    assert "Good work." in page
    assert "Hang doors" in page
    assert desk.get(f"/periods/{period.pk}/record.pdf").content.startswith(b"%PDF")


def test_hours_are_those_of_the_crew(desk, cal, period, crew, trim):
    say(cal, period, trim, "start", entered_at=(period.begins + timedelta(seconds=1)).isoformat())
    say(cal, period, trim, "stop")
    rows = list(csv.reader(desk.get("/hours/morning/hours.csv").content.decode("utf-8-sig").splitlines()))
    assert rows == [["student", "trim", "all"], ["Cal Ortega", "0.5", "0.5"], ["Ivy Lind", "0.5", "0.5"]]


def test_a_student_sees_their_own_hours_only(desk, cal, period, crew, trim):
    say(cal, period, trim, "start", entered_at=(period.begins + timedelta(seconds=1)).isoformat())
    say(cal, period, trim, "stop")
    page = text(cal.get("/today/hours/"))
    assert "0.5 h" in page
    assert "Ivy" not in page


def test_taking_the_tasks_again_loses_nothing(desk, shed, cal, period, crew, trim):
    desk.post("/houses/practice-shed/tasks/take/")
    count = shed.tasks.count()
    desk.post("/houses/practice-shed/tasks/take/")
    assert shed.tasks.count() == count > 5
    assert not shed.tasks.get(key=trim.key).gone


def test_the_wall_shows_names_as_crews_read_them(desk, period, crew):
    page = text(desk.get(f"/periods/{period.pk}/wall/"))
    assert "Cal O." in page
    assert "Ortega" not in page


@pytest.fixture
def hang(shed):
    """Return the hanging of the workroom's ceiling, with nothing it waits for."""
    take_tasks(shed)
    task = shed.tasks.get(key="boards/hang/workroom/ceilings")
    task.after, task.signoffs = [], []
    task.save()
    return task


def test_boards_are_not_planned_over_a_gate_that_is_not_open(desk, period, hang):
    here(desk, period)
    asked = {"crew-cal-o": "1", "crew-ivy-l": "1", "tasks-1": hang.key}
    answer = desk.post(f"/periods/{period.pk}/crews/", asked)
    assert answer.status_code == 422
    assert "the gate is not open: workroom/ceiling" in text(answer)


def test_boards_are_not_ticked_over_a_gate_that_is_not_open(desk, cal, period, crew, hang):
    CrewWork.objects.create(crew=crew, task=hang, order=1)
    assert "the gate is not open" in text(say(cal, period, hang, "done"))
    assert not period.marks.exists()


def test_an_overruled_gate_lets_boards_on(desk, cal, period, crew, hang):
    CrewWork.objects.create(crew=crew, task=hang, order=1)
    gate = gates_in_force(period.house)["workroom/ceiling"]
    given = {
        "do": "overrule",
        "item": [each.item.key for each in gate.open_items],
        "words": "Seen by the inspector.",
    }
    desk.post("/houses/practice-shed/gates/overrule/workroom/ceiling/", given)
    assert gates_in_force(period.house).may_close("workroom/ceiling")
    assert say(cal, period, hang, "done").status_code == 302


def test_a_note_may_be_a_photo_alone(cal, period, crew):
    given = {"note-text": "", "note-photo": sent(jpeg()), "entry": str(uuid4())}
    for _time in range(2):
        assert cal.post(f"/periods/{period.pk}/note/", given).status_code == 302
        given["note-photo"] = sent(jpeg())
    assert [note.photo is not None for note in period.notes.all()] == [True]


def test_what_is_no_photo_is_told_and_the_note_stays_in_its_field(cal, period, crew):
    bad = sent(b"not a photo", "plan.jpg")
    answer = cal.post(f"/periods/{period.pk}/note/", {"note-text": "Door swings out", "note-photo": bad})
    assert answer.status_code == 422
    assert "Door swings out" in text(answer)
    assert not period.notes.exists()


def test_a_note_without_words_and_photo_is_asked_for_one(cal, period, crew):
    assert "Write a note or take a photo" in text(cal.post(f"/periods/{period.pk}/note/", {}))


def test_a_reader_sees_how_far_a_house_is_and_no_name(school, desk, cal, period, crew, trim):
    say(cal, period, trim, "done", quantity="4")
    reader = browser_of(one_of(school, "reader", name="Pat Principal"))
    page = text(reader.get("/houses/practice-shed/progress/"))
    assert "100 %, 1 of 1 tasks done" in page
    assert "Cal" not in page


def test_a_reader_sees_a_photo_once_it_is_released(school, desk, cal, period, crew):
    cal.post(f"/periods/{period.pk}/note/", {"note-text": "Sill", "note-photo": sent(jpeg())})
    key = period.notes.get().photo.key
    reader = browser_of(one_of(school, "reader", name="Pat Principal"))
    assert f"{key}" not in text(reader.get("/houses/practice-shed/progress/"))
    desk.post(f"/houses/practice-shed/progress/{key}/release/")
    assert f"{key}" in text(reader.get("/houses/practice-shed/progress/"))
    taken = reader.get(f"/photos/{key}.jpg")
    assert b"".join(taken.streaming_content).startswith(b"\xff\xd8")


def test_a_reader_is_shown_only_the_tabs_that_open(school, shed):
    reader = browser_of(one_of(school, "reader", name="Pat Principal"))
    page = text(reader.get("/houses/practice-shed/"))
    assert "/progress/" in page
    assert "/boards/" not in page


def test_a_sign_off_taken_back_keeps_a_crew_from_starting(desk, cal, period, crew, trim):
    trim.signoffs = ["power saw"]
    trim.save()
    answer = say(cal, period, trim, "start")
    assert answer.status_code == 422
    assert "may not do this task" in text(answer)


def test_who_sits_in_no_crew_enters_nothing_for_a_classmates_crew(desk, cal, period, crew, trim, morning):
    desk.post(f"/periods/{period.pk}/crews/", {"crew-ivy-l": "1", "tasks-1": trim.key})
    cal.post("/present/", {"with": ["ivy-l"]})
    assert say(cal, period, trim, "start").status_code == 422
    assert not period.marks.exists()
