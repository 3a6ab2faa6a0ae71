"""After a period: the log, a repair and its pins, odds, what would help, changes by hand."""

import datetime

import pytest
from django.utils import timezone

from tests.web.people import browser_of, one_of
from tests.web.timetables import FEW, NAMES, class_of, kept_file, searched

AT = "/houses/practice-shed/timetable/"


@pytest.fixture(autouse=True)
def afresh():
    """Forget what the site keeps in memory: the records of every test begin at the same numbers."""
    from setday.web.timetable.figured import forget

    forget()


@pytest.fixture
def begun(monkeypatch):
    """Return what was handed to the worker, which does not begin."""
    from setday.web.timetable import views_odds, views_repair

    handed = []
    monkeypatch.setattr(views_repair, "begin", handed.append)
    monkeypatch.setattr(views_odds, "begin", handed.append)
    return handed


@pytest.fixture
def found(shed):
    """Return a short search for a timetable of the shed that has ended."""
    return searched(shed)


@pytest.fixture
def handed(desk, school, found):
    """Return the first period of the timetable, handed to the class."""
    from setday.web.keeping.models import ClassPeriod

    class_of(school)
    desk.post(f"{AT}periods/0/hand/")
    return ClassPeriod.objects.get()


def mark(period, work, kind, quantity=None):
    """Write what a crew said of its task."""
    from uuid import uuid4

    from setday.web.keeping.models import PeriodMark

    members = [seat.member.key for seat in work.crew.seats.all()]
    facts = {"entry": uuid4(), "by": "x", "at": period.begins, "members": members, "quantity": quantity}
    PeriodMark.objects.create(period=period, crew=work.crew, task=work.task, kind=kind, **facts)


def close(period):
    """Close a period."""
    period.closed_at = timezone.now()
    period.save()


def works_of(period):
    """Return what the crews of a period were to do."""
    from setday.web.keeping.models import CrewWork

    return list(CrewWork.objects.filter(crew__period=period).select_related("task", "crew").order_by("pk"))


def log_of(found):
    """Return the closed periods as the repair reads them."""
    from setday.web.timetable.figured import day_of
    from setday.web.timetable.logged import logged

    return logged(found.house, day_of(found.version, found.class_file))


def test_a_period_that_is_open_is_not_in_the_log(handed, found):
    assert log_of(found).periods == ()


def test_a_closed_period_without_entries_went_as_planned(handed, found):
    close(handed)
    (entry,) = log_of(found).periods
    assert (entry.date, entry.begin, entry.school_class, entry.worked) == (
        datetime.date(2027, 1, 11), datetime.time(8, 5), "morning", None,
    )  # fmt: skip


def test_what_a_crew_marked_done_is_done(handed, found):
    first = works_of(handed)[0]
    mark(handed, first, "done")
    close(handed)
    (entry,) = log_of(found).periods
    assert [(each.task, each.done) for each in entry.worked] == [(first.task.key, 1.0)]


def test_who_was_at_a_task_is_found_by_name(handed, found):
    first = works_of(handed)[0]
    mark(handed, first, "done")
    close(handed)
    names = sorted(seat.member.name for seat in first.crew.seats.select_related("member"))
    assert list(log_of(found).periods[0].worked[0].students) == names


def test_half_the_quantity_is_half_the_task(handed, found):
    first = works_of(handed)[0]
    first.task.quantity = 40
    first.task.save()
    mark(handed, first, "partly done", quantity=20)
    close(handed)
    assert log_of(found).periods[0].worked[0].done == 0.5


def test_a_task_nobody_called_done_is_never_taken_for_done(handed, found):
    first = works_of(handed)[0]
    mark(handed, first, "stop")
    close(handed)
    done = log_of(found).periods[0].worked[0].done
    assert done is None or done < 1


def test_who_was_away_is_in_the_log(handed, found):
    from setday.web.keeping.models import Attendance, Member

    Attendance.objects.create(period=handed, member=Member.objects.get(name="Ivy Lind"), state="away")
    close(handed)
    assert log_of(found).periods[0].absent == ("Ivy Lind",)


def test_a_period_the_class_file_does_not_have_is_told(handed, found):
    handed.begins += datetime.timedelta(days=5)  # a Saturday
    close(handed)
    log = log_of(found)
    assert (log.periods, len(log.left_out)) == ((), 1)


def repaired(desk, found, begun, **typed):
    """Begin a repair and let it work; return its record."""
    from setday.web.keeping.models import TimetableRun
    from setday.web.timetable.worker import work_on

    answer = desk.post(f"{AT}repair/", {"seconds": "5", **typed})
    assert answer.status_code == 302
    TimetableRun.objects.filter(pk=begun[-1].pk).update(
        options={**begun[-1].options, "seconds": 0.5, "workers": 1}
    )
    work_on(begun[-1].pk, stopped=lambda: False)
    return TimetableRun.objects.get(pk=begun[-1].pk)


def test_a_repair_keeps_what_happened_and_every_rule(desk, handed, found, begun):
    from setday.web.timetable.figured import timetable_of
    from setday.web.timetable.sheet import in_force

    for work in works_of(handed):
        mark(handed, work, "blocked")
    close(handed)
    run = repaired(desk, found, begun)
    assert (run.message, run.state, run.told["broken"]) == ("", "done", [])
    happened = timetable_of(run).rows[0]
    assert happened == timetable_of(found).rows[0]
    assert (in_force(found.house), run.before, run.document["periods_over"]) == (run, found, 1)


def test_a_repair_says_what_moved_in_three_lines_at_most(desk, handed, found, begun):
    close(handed)
    run = repaired(desk, found, begun)
    page = desk.get(f"{AT}{run.number}/").content.decode()
    assert 0 < len(run.told["said"]) <= 3
    assert "What moved, and why" in page


def test_what_is_held_fast_stays_where_it_is_put(desk, handed, found, begun):
    from setday.web.timetable.figured import timetable_of

    close(handed)
    typed = {"task": "house wrap", "on": "2027-01-15", "students": "Cal Ortega, Ivy Lind"}
    run = repaired(desk, found, begun, **typed)
    timetable = timetable_of(run)
    friday = next(m.number for m in timetable.day.meetings if m.date == datetime.date(2027, 1, 15))
    at_it = {key for crew in timetable.crews[friday] if crew.work == "house wrap" for key in crew.students}
    assert {"Cal Ortega", "Ivy Lind"} <= at_it


@pytest.mark.parametrize(
    "typed",
    [
        {"task": "house wrap"},
        {"on": "2027-01-15"},
        {"task": "house wrap", "on": "2027-01-16"},
        {"task": "house wrap", "on": "2027-01-15", "students": "Zoe Nobody"},
        {"task": "no such task", "on": "2027-01-15"},
        {"task": "house wrap", "on": "soon"},
        {"seconds": "1e9"},
    ],
)
def test_a_pin_that_cannot_be_is_refused_and_what_was_typed_stays(desk, found, begun, typed):
    answer = desk.post(f"{AT}repair/", {"seconds": "5", **typed})
    assert (answer.status_code, begun) == (422, [])
    assert answer.context["form"]["students"].value() in (typed.get("students", ""), None)


def test_without_a_timetable_nothing_is_repaired(desk, shed, begun):
    kept_file(shed)
    assert (desk.post(f"{AT}repair/", {"seconds": "5"}).status_code, begun) == (302, [])


def played(run):
    """Let a run that waits do its work; return its record."""
    from setday.web.keeping.models import TimetableRun
    from setday.web.timetable.worker import work_on

    work_on(run.pk, stopped=lambda: False)
    return TimetableRun.objects.get(pk=run.pk)


def test_odds_are_a_picture_first_and_leave_the_timetable_in_force(desk, found):
    from setday.web.timetable.sheet import in_force

    options = {"seconds": 1, "workers": 1, "simulations": 200}
    run = played(searched(found.house, kind="odds", before=found, begin=False, options=options))
    page = desk.get(f"{AT}{run.number}/odds/").content.decode()
    assert (run.message, run.document["simulations"], in_force(found.house)) == ("", 200, found)
    assert 0 < page.index("<svg") < page.index("<table")


def test_every_play_is_somewhere_in_the_spread(found):
    options = {"seconds": 1, "workers": 1, "simulations": 150}
    kept = played(searched(found.house, kind="odds", before=found, begin=False, options=options)).document
    assert sum(many for _day, many in kept["spread"]) + kept["beyond"] == 150


def test_a_reader_sees_the_odds(school, found):
    options = {"seconds": 1, "workers": 1, "simulations": 100}
    run = played(searched(found.house, kind="odds", before=found, begin=False, options=options))
    browser = browser_of(one_of(school, "reader", name="Dee Park"))
    assert browser.get(f"{AT}{run.number}/odds/").status_code == 200


def test_a_set_day_that_cannot_be_made_is_explained_in_words(desk, shed):
    text = FEW.replace("set day: 2027-06-10", "set day: 2027-01-19")
    found = searched(shed, text=text)
    options = {"seconds": 2, "workers": 1}
    run = played(searched(shed, text=text, kind="reasons", before=found, begin=False, options=options))
    page = desk.get(f"{AT}{run.number}/reasons/").content.decode()
    assert (run.message, run.document["proven"]) == ("", True)
    assert desk.get(AT).content.decode().count("Set day is not made") == 1
    assert run.document["said"].split()[0] in page


def row_of(found, number):
    """Return who does what in a period."""
    from setday.web.timetable.figured import timetable_of

    timetable = timetable_of(found)
    return dict(zip((s.key for s in timetable.day.problem.students), timetable.rows[number], strict=True))


def chosen(found, number, **changes):
    """Return the form of a period with some of its choices changed, by place."""
    return {
        f"student-{place}": changes.get(f"s{place}", task)
        for place, task in enumerate(row_of(found, number).values())
    }


def test_a_change_that_breaks_a_rule_is_told_and_not_kept(desk, found):
    from setday.web.keeping.models import TimetableRun

    typed = chosen(found, 3, s3="house wrap")  # Ola has no sign-off for ladders
    answer = desk.post(f"{AT}periods/3/change/", {**typed, "do": "keep"})
    page = answer.content.decode()
    assert (answer.status_code, TimetableRun.objects.count()) == (422, 1)
    assert "Ola Vance lacks a sign-off" in page


def test_a_change_is_kept_all_the_same_when_the_instructor_says_so_with_what_it_breaks(desk, found):
    from setday.web.timetable.sheet import in_force

    typed = chosen(found, 3, s0="insulate", s1="insulate", s2="insulate", s3="insulate")
    desk.post(f"{AT}periods/3/change/", {**typed, "do": "keep", "anyway": "yes"})
    kept = in_force(found.house)
    assert (kept.kind, row_of(kept, 3)["Ola Vance"]) == ("by hand", "insulate")
    assert any("4 on insulate" in said for said in kept.told["broken"])
    assert "4 on insulate" in desk.get(AT).content.decode()


def test_nobody_is_moved_past_a_missing_sign_off_though_the_instructor_says_so(desk, found):
    from setday.web.keeping.models import TimetableRun

    typed = chosen(found, 3, s3="house wrap")  # Ola has no sign-off for ladders
    answer = desk.post(f"{AT}periods/3/change/", {**typed, "do": "keep", "anyway": "yes"})
    page = answer.content.decode()
    assert (answer.status_code, TimetableRun.objects.count()) == (422, 1)
    assert "the change cannot be kept: Ola Vance" in page
    assert "keep it all the same" not in page


def test_a_reader_is_not_told_by_name_what_a_timetable_breaks_or_moved(school, found):
    found.told = {key: [f"{name} is named" for name in NAMES] for key in ("broken", "said", "left_out")}
    found.save()
    browser = browser_of(one_of(school, "reader", name="Dee Park"))
    pages = [browser.get(at).content.decode() for at in (AT, f"{AT}1/", f"{AT}periods/3/")]
    assert [name for page in pages for name in NAMES if name in page] == []


def test_taking_the_tasks_of_the_house_keeps_those_of_its_class_file(desk, shed):
    from setday.web.keeping.models import HouseTask

    kept_file(shed)
    desk.post("/houses/practice-shed/tasks/take/")
    assert not HouseTask.objects.get(key="house wrap").gone


def test_a_change_that_is_only_checked_is_not_kept(desk, found):
    from setday.web.keeping.models import TimetableRun

    typed = chosen(found, 3, s3="")
    answer = desk.post(f"{AT}periods/3/change/", {**typed, "do": "check"})
    assert (answer.status_code, TimetableRun.objects.count()) == (200, 1)
    assert "Ola Vance" in answer.content.decode()


def test_a_period_that_is_over_is_not_changed(desk, handed, found):
    close(handed)
    assert desk.get(f"{AT}periods/0/change/").headers["Location"] == f"{AT}periods/0/"


def test_what_is_no_task_is_passed_over(desk, found):
    typed = chosen(found, 3, s3="no such task")
    answer = desk.post(f"{AT}periods/3/change/", {**typed, "do": "keep"})
    assert (answer.status_code, "Nothing is changed yet" in answer.content.decode()) == (422, True)


def test_crews_that_are_at_work_are_not_written_over(desk, handed, found):
    work = works_of(handed)[0]
    mark(handed, work, "start")
    before = [(seat.member_id, seat.crew.number) for seat in handed.seats.select_related("crew")]
    desk.post(f"{AT}periods/0/hand/")
    assert [(seat.member_id, seat.crew.number) for seat in handed.seats.select_related("crew")] == before
    assert handed.marks.count() == 1
