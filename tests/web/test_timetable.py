"""The timetable in the browser: searched, watched, stopped, shown, handed to the class, put back."""

import datetime

import pytest
from django.utils import timezone

from tests.web.people import browser_of, morning_of, one_of
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
    from setday.web.timetable import views_runs

    handed = []
    monkeypatch.setattr(views_runs, "begin", handed.append)
    return handed


@pytest.fixture
def found(shed):
    """Return a short search for a timetable of the shed that has ended."""
    return searched(shed)


def test_a_house_without_a_class_file_has_no_search(desk, shed, begun):
    answer = desk.post(f"{AT}search/", {"seconds": "5"})
    assert (answer.headers["Location"], begun) == (f"{AT}class/edit/", [])


def test_a_search_is_begun_with_the_files_in_force(desk, shed, begun):
    kept = kept_file(shed)
    desk.post(f"{AT}search/", {"seconds": "15"})
    run = begun[0]
    assert (run.version, run.class_file, run.options["seconds"]) == (shed.newest, kept, 15.0)


@pytest.mark.parametrize("seconds", ["", "7", "-1", "x"])
def test_a_search_of_no_length_is_refused(desk, shed, begun, seconds):
    kept_file(shed)
    assert (desk.post(f"{AT}search/", {"seconds": seconds}).status_code, begun) == (422, [])


def test_what_a_search_keeps_passes_the_independent_check(found):
    from setday.web.timetable.figured import timetable_of

    assert (timetable_of(found).broken(), found.told["broken"], found.state) == ([], [], "done")


def test_the_bound_is_never_later_than_the_finish(found):
    assert 0 < found.bound <= found.finish


def test_the_finish_in_the_record_is_that_of_the_rows(found):
    from setday.web.timetable.figured import timetable_of

    timetable = timetable_of(found)
    benches = {task.key for task in timetable.day.problem.tasks if task.filler}
    last = max(n for n, row in enumerate(timetable.rows) if any(key and key not in benches for key in row))
    assert last + 1 == found.finish


def test_a_search_that_is_stopped_keeps_its_best(shed):
    run = searched(shed, seconds=20.0, stopped=lambda: True)
    assert (run.state, run.document["periods"] != [], run.seconds < 15) == ("stopped", True, True)


def test_a_search_that_cannot_be_says_everything_that_is_in_the_way(desk, shed):
    text = FEW.replace("electrical, on", "elevator, on").replace(
        "    sand: 0.012 hours per ft2 (invented)\n", ""
    )
    text = text.replace("  sanding:\n", "")
    run = searched(shed, text=text)
    page = desk.get(f"{AT}{run.number}/").content.decode()
    assert run.state == "failed"
    assert ("rate of &#x27;sand&#x27;" in page, "the sign-off &#x27;electrical&#x27;" in page) == (True, True)


def test_a_fault_in_a_search_is_not_shown_but_said(desk, shed, monkeypatch):
    from setday.web.keeping.models import TimetableRun
    from setday.web.timetable import worker

    def broken(run, watch):
        raise RuntimeError("row 7 column 3")

    monkeypatch.setitem(worker._WORK, "solved", broken)
    with pytest.raises(RuntimeError):
        searched(shed)
    page = desk.get(f"{AT}1/").content.decode()
    assert ("row 7" in page, TimetableRun.objects.get().state) == (False, "failed")


def test_a_search_at_work_shows_what_is_best_and_what_is_proven(desk, shed):
    run = searched(shed, begin=False)
    run.state, run.finish, run.bound = "running", 40, 33
    run.save()
    part = desk.get(f"{AT}1/progress/").content.decode()
    assert "40 periods" in part
    assert "at least 33" in part


def test_a_search_that_ended_sends_the_page_to_its_timetable(desk, found):
    assert desk.get(f"{AT}1/progress/").headers["HX-Redirect"] == f"{AT}1/"


def test_stopping_a_search_that_waits_ends_it_at_once(desk, shed):
    from setday.web.keeping.models import TimetableRun

    searched(shed, begin=False)
    desk.post(f"{AT}1/stop/")
    assert TimetableRun.objects.get().state == "stopped"


def test_searches_left_behind_by_a_stopped_site_are_told(shed):
    from setday.web.keeping.models import TimetableRun
    from setday.web.timetable.worker import mark_interrupted

    searched(shed, begin=False)
    assert (mark_interrupted(), TimetableRun.objects.get().state) == (1, "interrupted")


def test_the_pictures_come_before_the_tables(desk, found):
    page = desk.get(AT).content.decode()
    assert 0 < page.index("<svg") < page.index("<table")


def test_no_two_things_of_a_page_have_the_same_id(desk, found):
    import re

    ids = re.findall(r'\sid="([^"]+)"', desk.get(AT).content.decode())
    assert sorted(ids) == sorted(set(ids))


def test_a_reader_sees_the_timetable_and_no_name(school, found):
    browser = browser_of(one_of(school, "reader", name="Dee Park"))
    for page in (AT, f"{AT}1/", f"{AT}periods/0/"):
        answer = browser.get(page)
        assert answer.status_code == 200
        assert [name for name in NAMES if name in answer.content.decode()] == []


def test_a_helper_sees_who_does_what_and_changes_nothing(school, found):
    browser = browser_of(one_of(school, "helper", name="Dee Park"))
    page = browser.get(f"{AT}periods/0/").content.decode()
    assert "Cal Ortega" in page
    assert "/hand/" not in page
    assert browser.post(f"{AT}periods/0/hand/").status_code == 403


def test_a_changed_class_file_is_told_on_the_timetable(desk, shed, found):
    kept_file(shed, FEW.replace("# An invented", "# Another invented"))
    assert "The class file has changed" in desk.get(AT).content.decode()


def test_a_timetable_put_back_leaves_the_one_before_in_force(desk, shed, found):
    from setday.web.timetable.sheet import in_force

    searched(shed, before=found)
    desk.post(f"{AT}undo/", {"number": "2"})
    assert in_force(shed) == found


def test_what_was_put_back_can_count_again(desk, shed, found):
    from setday.web.timetable.sheet import in_force

    desk.post(f"{AT}undo/", {"number": "1"})
    before = in_force(shed)
    desk.post(f"{AT}undo/", {"number": "1", "do": "again"})
    assert (before, in_force(shed)) == (None, found)


def test_a_timetable_that_is_not_in_force_any_more_cannot_be_put_back(desk, shed, found):
    from setday.web.keeping.models import TimetableRun

    searched(shed, before=found)
    desk.post(f"{AT}undo/", {"number": "1"})
    assert TimetableRun.objects.filter(put_back=True).count() == 0


@pytest.mark.parametrize("number", [400, 99999])
def test_a_period_beyond_the_timetable_is_not_found(desk, found, number):
    assert desk.get(f"{AT}periods/{number}/").status_code == 404


def test_handing_over_writes_crews_seats_and_tasks(desk, school, found):
    from setday.web.keeping.models import ClassPeriod
    from setday.web.timetable.figured import timetable_of

    class_of(school)
    answer = desk.post(f"{AT}periods/0/hand/")
    period = ClassPeriod.objects.get()
    timetable = timetable_of(found)
    planned = {
        (crew.number, timetable.day.names[key]) for crew in timetable.crews[0] for key in crew.students
    }
    seats = {(seat.crew.number, seat.member.name) for seat in period.seats.select_related("crew", "member")}
    works = {work.task.key for crew in period.crews.all() for work in crew.works.all()}
    assert answer.headers["Location"] == f"/periods/{period.pk}/"
    assert (seats, works) == (planned, {c.work for c in timetable.crews[0] if c.work in timetable.day.works})


def test_the_period_begins_at_its_bell(desk, school, found):
    from setday.web.keeping.models import ClassPeriod

    class_of(school)
    desk.post(f"{AT}periods/0/hand/")
    begins = timezone.localtime(ClassPeriod.objects.get().begins)
    assert (begins.date(), begins.time()) == (datetime.date(2027, 1, 11), datetime.time(8, 5))


def test_who_is_marked_away_is_left_out_of_the_crews_and_named(desk, school, found):
    from setday.web.keeping.models import Attendance, ClassPeriod, Member

    class_of(school)
    desk.post(f"{AT}periods/0/hand/")
    period, away = ClassPeriod.objects.get(), Member.objects.get(name="Cal Ortega")
    Attendance.objects.create(period=period, member=away, state="away")
    page = desk.post(f"{AT}periods/0/hand/", follow=True).content.decode()
    assert "Cal Ortega is away." in page
    assert not period.seats.filter(member=away).exists()


def test_a_student_the_school_does_not_know_is_left_out_and_named(desk, school, found):
    morning_of(school)  # Cal and Ivy only
    page = desk.post(f"{AT}periods/0/hand/", follow=True).content.decode()
    missing = [name for name in NAMES if f"{name} is not among the students" in page.replace("&#x27;", "'")]
    assert missing == ["Ned Sorensen", "Ola Vance"]


@pytest.mark.parametrize("signed", [True, False])
def test_nobody_without_the_sign_off_in_the_records_is_given_the_task(desk, school, found, signed):
    from setday.web.keeping.models import CrewWork, MemberSignOff
    from setday.web.timetable.figured import timetable_of

    class_of(school)
    if not signed:
        MemberSignOff.objects.all().delete()
    crews = timetable_of(found).crews
    wrapping = next(n for n, row in enumerate(crews) if "house wrap" in {crew.work for crew in row})
    page = desk.post(f"{AT}periods/{wrapping}/hand/", follow=True).content.decode()
    assert CrewWork.objects.filter(task__key="house wrap").exists() == signed
    assert ("ladder" in page and "stands without its task" in page) != signed


def test_a_closed_period_is_not_written_over(desk, school, found):
    from setday.web.keeping.models import ClassPeriod

    class_of(school)
    desk.post(f"{AT}periods/0/hand/")
    ClassPeriod.objects.update(closed_at=timezone.now())
    before = list(ClassPeriod.objects.get().seats.values_list("pk", flat=True))
    desk.post(f"{AT}periods/0/hand/")
    assert list(ClassPeriod.objects.get().seats.values_list("pk", flat=True)) == before


def test_a_class_the_school_does_not_have_is_told(desk, found):
    page = desk.post(f"{AT}periods/0/hand/", follow=True).content.decode()
    assert "There is no class" in page
