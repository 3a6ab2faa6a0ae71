"""Gates in the browser: who may do what, each form once, refused forms as typed, records that stay."""

from uuid import uuid4

import pytest
from django.urls import reverse

from setday.actions.houses import demo_text
from setday.web.gates.house import gates_in_force
from setday.web.keeping.models import ClosedSurface, GateAdded, GateMark, Member, Photo
from tests.web.gates import WALL, at, hidden_items, keys, state, work
from tests.web.people import browser_of, morning_of, one_of
from tests.web.photos import jpeg, sent, taken_somewhere


@pytest.fixture(autouse=True)
def folder(settings, tmp_path):
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def student(shed, school):
    return browser_of(morning_of(school).members.get(key="cal-o"))


@pytest.fixture
def helper(shed, school):
    return browser_of(one_of(school, "helper", name="Dee Park"))


@pytest.fixture
def reader(shed, school):
    return browser_of(one_of(school, "reader", name="Mx. Orr"))


def check_off(browser, house, surface=WALL, **more):
    facts = {"do": "done", "item": work(house, surface), "entry": str(uuid4()), **more}
    return browser.post(at("mark", surface), facts)


def judge(browser, house, surface=WALL, do="confirm", **more):
    return browser.post(
        at("judge", surface), {"do": do, "item": keys(house, surface), "entry": str(uuid4()), **more}
    )


def confirm_all(desk, surface=WALL):
    """Confirm in the lump what the sheet shows as checked off."""
    shown = hidden_items(desk.get(at("surface", surface)))
    return desk.post(at("judge", surface), {"do": "confirm", "item": shown, "entry": str(uuid4())})


def ready(desk, house):
    assert judge(desk, house).status_code == 302
    assert state(house) == "ready to close"


def close(desk, **more):
    return desk.post(at("close"), {"entry": str(uuid4()), **more})


def test_a_student_checks_off_the_instructor_confirms_and_closes(shed, student, desk):
    assert check_off(student, shed).status_code == 302
    assert state(shed) == "waiting for confirmation"
    assert confirm_all(desk).status_code == 302
    assert state(shed) == "waiting for confirmation", "the inspection is still to come"
    facts = {"do": "confirm", "item": "inspection/framing", "everywhere": "yes", "entry": str(uuid4())}
    assert desk.post(at("judge"), facts).status_code == 302
    assert state(shed) == "ready to close"
    answer = close(desk)
    assert state(shed) == "closed"
    page = desk.get(answer.headers["Location"]).content.decode()
    assert "Cal O." in page
    assert "Ana Ruiz" in page


def test_the_plan_says_the_state_of_every_surface(shed, desk):
    page = desk.get(reverse("gates:plan", kwargs={"key": "practice-shed"})).content.decode()
    for surface in gates_in_force(shed).by_surface:
        assert at("surface", surface) in page
    assert page.count(">not ready<") == len(gates_in_force(shed).by_surface)


def test_all_of_a_group_are_checked_off_at_once(school, desk):
    from setday.web.keeping.houses import keep_house

    house = keep_house(school=school, name="Wired", file_name="wired.yaml", text=demo_text("wired"))
    names = {"key": house.key, "surface": "bath/south"}
    page = desk.get(reverse("gates:surface", kwargs=names)).content.decode()
    assert 'name="group" value="run"' in page
    facts = {"do": "confirm", "group": "run", "entry": str(uuid4())}
    assert desk.post(reverse("gates:judge", kwargs=names), facts).status_code == 302
    gate = gates_in_force(house)["bath/south"]
    runs = [stand for stand in gate.items if "/run/" in stand.item.key]
    assert len(runs) == GateMark.objects.filter(house=house).count() > 3
    assert {stand.state.value for stand in runs} == {"confirmed"}


def test_the_same_form_sent_twice_counts_once(shed, student):
    entry = str(uuid4())
    for _ in range(3):
        assert check_off(student, shed, entry=entry, photo=sent(jpeg())).status_code == 302
    assert GateMark.objects.count() == len(work(shed))
    assert Photo.objects.count() == 1


def test_the_same_closing_sent_twice_closes_once(shed, desk):
    ready(desk, shed)
    entry = str(uuid4())
    first, again = close(desk, entry=entry), close(desk, entry=entry)
    assert first.headers["Location"] == again.headers["Location"]
    assert ClosedSurface.objects.count() == 1


def test_a_photo_is_kept_without_its_place_and_shown_beside_the_thing(shed, student):
    check_off(student, shed, photo=sent(taken_somewhere()))
    photo = Photo.objects.get()
    assert b"Invented camera" not in photo.path.read_bytes()
    assert photo.by == "Cal O."
    assert f"/photos/{photo.key}.jpg" in student.get(at("surface")).content.decode()


REFUSED = {
    "nothing ticked": ({"item": []}, "Nothing is ticked"),
    "a time to come": ({"at": "2199-01-01 10:00"}, "still to come"),
    "no time at all": ({"at": "half past ten-ish"}, "cannot be read as a date"),
    "a day that is none": ({"at": "2026-02-31 10:00"}, "cannot be read as a date"),
    "no photo": ({"photo": "words"}, "is not a photo"),
    "a damaged number": ({"entry": "twelve"}, "sign of this form"),
    "somebody who is not here": ({"by": "member-99999"}, "not at this tablet"),
    "a thing that is not asked for": ({"item": ["pipe/1"]}, "does not ask for this"),
    "nothing to do": ({"do": "close"}, "does not say what to do"),
}


@pytest.mark.parametrize(("facts", "words"), REFUSED.values(), ids=REFUSED)
def test_a_refused_check_off_says_why_keeps_what_was_typed_and_marks_nothing(shed, student, facts, words):
    facts = dict(facts)
    if "photo" in facts:
        facts["photo"] = sent(b"these are words")
    answer = check_off(student, shed, words="both ends stapled", **facts)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert words in page
    assert "both ends stapled" in page
    if facts.get("item") is None:
        assert page.count(" checked>") == len(work(shed))
    assert (GateMark.objects.count(), Photo.objects.count()) == (0, 0)


def test_what_is_closed_takes_no_check_off_and_keeps_no_photo(shed, desk, student):
    ready(desk, shed)
    close(desk)
    count = GateMark.objects.count()
    answer = check_off(student, shed, photo=sent(jpeg()))
    assert (answer.status_code, GateMark.objects.count(), Photo.objects.count()) == (422, count, 0)
    assert "is closed" in answer.content.decode()


def test_an_inspection_is_asked_for_then_passed_and_never_confirmed_in_the_lump(shed, desk, student):
    check_off(student, shed)
    facts = {"do": "done", "item": "inspection/framing", "entry": str(uuid4()), "at": "2026-09-14 08:00"}
    assert desk.post(at("mark"), facts).status_code == 302
    assert "<strong>asked for</strong>" in desk.get(at("surface")).content.decode()
    assert confirm_all(desk).status_code == 302
    assert state(shed) == "waiting for confirmation"
    facts = {"do": "confirm", "item": "inspection/framing", "everywhere": "yes", "entry": str(uuid4())}
    assert desk.post(at("judge"), facts).status_code == 302
    assert state(shed) == "ready to close"


def test_a_surface_that_is_not_ready_cannot_be_ticked_as_closed(shed, desk):
    answer = close(desk)
    assert answer.status_code == 422
    assert "not ready" in answer.content.decode()
    assert not gates_in_force(shed).may_close(WALL)


def test_an_overruling_stays_on_record(shed, desk):
    facts = {"do": "overrule", "item": keys(shed), "entry": str(uuid4()), "words": "goes in with the trim"}
    assert desk.post(at("overrule"), facts).status_code == 302
    assert state(shed) == "overruled"
    page = desk.get(close(desk).headers["Location"]).content.decode()
    assert "goes in with the trim" in page


def test_a_refusal_needs_a_reason_and_shows_it_to_the_student(shed, desk, student):
    check_off(student, shed)
    assert judge(desk, shed, do="refuse", item=work(shed)).status_code == 422
    assert judge(desk, shed, do="refuse", item=work(shed), words="no ground in the box").status_code == 302
    assert "no ground in the box" in student.get(at("surface")).content.decode()


def test_a_student_takes_back_their_own_check_off(shed, student):
    check_off(student, shed)
    assert (
        student.post(at("mark"), {"do": "back", "item": work(shed), "entry": str(uuid4())}).status_code == 302
    )
    assert state(shed) == "not ready"


@pytest.mark.parametrize("screen", ["judge", "overrule", "close", "open", "add", "strike"])
def test_a_student_does_nothing_of_the_instructors(shed, student, screen):
    assert student.post(at(screen), {"do": "confirm", "item": keys(shed)}).status_code == 403
    assert GateMark.objects.count() == 0


def test_a_helper_confirms_once_the_instructor_lets_helpers(shed, student, helper, desk):
    check_off(student, shed)
    assert judge(helper, shed, item=work(shed)).status_code == 422
    desk.post(reverse("gates:helpers", kwargs={"key": "practice-shed"}), {"helper_confirms": "yes"})
    assert judge(helper, shed, item=work(shed)).status_code == 302
    assert state(shed) == "waiting for confirmation", "the inspection is still to come"


def test_a_reader_sees_states_and_no_names(shed, student, reader):
    check_off(student, shed, words="stapled by Cal", photo=sent(jpeg()))
    page = reader.get(at("surface")).content.decode()
    assert "waiting for confirmation" in page
    for hidden in ("Cal O.", "stapled by Cal", "/photos/", '<form method="post" action="/houses'):
        assert hidden not in page
    assert reader.post(at("mark"), {"do": "done", "item": keys(shed)}).status_code == 403


def test_a_student_sees_no_other_students_name(shed, school, desk):
    morning = morning_of(school)
    cal, ivy = (browser_of(morning.members.get(key=key)) for key in ("cal-o", "ivy-l"))
    check_off(cal, shed)
    assert "done by Cal O." in cal.get(at("surface")).content.decode()
    assert "done by Cal O." in desk.get(at("surface")).content.decode()
    for page in (ivy.get(at("surface")), check_off(ivy, shed)):
        assert "Cal O." not in page.content.decode()


def test_two_at_one_tablet_say_who_did_it(shed, school):
    morning = morning_of(school)
    cal, ivy = morning.members.get(key="cal-o"), morning.members.get(key="ivy-l")
    browser = browser_of(cal)
    browser.post(reverse("people:present"), {"with": [ivy.key]})
    assert "not said who" in check_off(browser, shed).content.decode()
    assert check_off(browser, shed, by=f"member-{ivy.pk}").status_code == 302
    assert {mark.by_name for mark in GateMark.objects.all()} == {ivy.shown_as}


def test_blocking_is_added_drawn_and_struck(shed, desk):
    place = {"x": "1'", "y": "4'", "w": "2'", "h": '9"'}
    facts = {"what": "screen", "words": "60 in screen", "entry": str(uuid4()), **place}
    assert desk.post(at("add"), facts).status_code == 302
    page = desk.get(at("surface")).content.decode()
    assert "blocking for a heavy screen (60 in screen)" in page
    added = GateAdded.objects.get()
    assert desk.post(at("strike"), {"added": added.entry, "words": "other wall"}).status_code == 302
    assert "60 in screen" in desk.get(at("surface")).content.decode()  # told once that it is struck
    assert "60 in screen" not in desk.get(at("surface")).content.decode()


ADDED_REFUSED = {
    "off the wall": ({"what": "screen", "x": "90'", "y": "4'", "w": "2'", "h": '9"'}, "ends before that"),
    "half a place": ({"what": "rail", "x": "1'"}, "only half given"),
    "no length": ({"what": "rail", "x": "a bit", "y": "1", "w": "1", "h": "1"}, "a bit"),
    "nothing": ({"what": "soup"}, "not said what to add"),
    "no words": ({"what": "added", "words": " "}, "reason is missing"),
    "no days": ({"what": "inspection", "words": "fire", "notice": "soon"}, "no number of days"),
    "a year": ({"what": "inspection", "words": "fire", "notice": "365"}, "is no notice"),
}


@pytest.mark.parametrize(("facts", "words"), ADDED_REFUSED.values(), ids=ADDED_REFUSED)
def test_a_refused_addition_says_why_and_keeps_what_was_typed(shed, desk, facts, words):
    answer = desk.post(at("add"), {"entry": str(uuid4()), **facts})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert words in page
    assert GateAdded.objects.count() == 0
    for name in ("x", "notice"):
        assert f'value="{facts.get(name, "")}"'.replace("'", "&#x27;") in page


def test_usual_blocking_takes_the_usual_height(shed, desk):
    assert desk.post(at("add"), {"what": "grab bar", "entry": str(uuid4())}).status_code == 302
    added = GateAdded.objects.get()
    assert (added.x, added.y) == (0, 30 * 64)


def test_a_record_stays_when_the_house_file_changes(shed, desk):
    from setday.web.keeping.houses import add_version

    ready(desk, shed)
    address = close(desk).headers["Location"]
    before = desk.get(address).content.decode()
    text = demo_text("shed").replace("center: 6'-0\"", "center: 5'-0\"")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    after = desk.get(address).content.decode()
    assert (
        after[after.index("<h1>") : after.index("</footer>")]
        == before[before.index("<h1>") : before.index("</footer>")]
    )


def test_the_plan_lists_every_record_even_of_a_surface_that_is_gone(shed, desk, student):
    from setday.web.keeping.houses import add_version

    ready(desk, shed)
    address = close(desk).headers["Location"]
    text = demo_text("shed").replace("workroom", "studio")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    plan = reverse("gates:plan", kwargs={"key": "practice-shed"})
    assert address in desk.get(plan).content.decode()
    assert desk.get(address).status_code == 200
    assert address not in student.get(plan).content.decode()


def test_a_record_is_printed_with_its_photo(shed, desk, student):
    check_off(student, shed, photo=sent(jpeg(300, 200)))
    judge(desk, shed)
    address = close(desk).headers["Location"]
    answer = desk.get(address.rstrip("/") + ".pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_marks_of_what_the_house_no_longer_has_are_told(shed, desk, student):
    from setday.web.keeping.houses import add_version

    check_off(student, shed)
    text = demo_text("shed").replace("workroom", "studio")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    page = desk.get(reverse("gates:plan", kwargs={"key": "practice-shed"})).content.decode()
    assert "no such surface any more" in page
    assert GateMark.objects.count() > 0
    who = GateMark.objects.order_by("pk")[0].by_name
    classmate = browser_of(Member.objects.get(key="ivy-l"))
    told = classmate.get(reverse("gates:plan", kwargs={"key": "practice-shed"})).content.decode()
    assert who in page
    assert who not in told


def test_another_schools_house_has_no_gates_here(shed, db):
    from setday.web.keeping.members import keep_member
    from setday.web.keeping.models import MemberRole, School

    stranger = keep_member(School.objects.create(key="o", name="O"), name="Sam", role=MemberRole.INSTRUCTOR)
    browser = browser_of(stranger)
    assert browser.get(at("surface")).status_code == 404
    assert browser.post(at("judge"), {"do": "confirm", "item": "x"}).status_code == 404


def test_a_surface_the_house_does_not_have_has_no_page(shed, desk):
    assert desk.get(at("surface", "attic/north")).status_code == 404
    assert desk.post(at("close", "attic/north")).status_code == 404
