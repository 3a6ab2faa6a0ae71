"""How students, helpers and readers come in and out: cards, one-time codes, waiting, idle tablets."""

import re
from datetime import timedelta

import pytest
from django.contrib.auth import get_user_model
from django.test import Client
from django.utils import timezone

from setday.web.desk import door
from setday.web.keeping.models import Card, Member, MemberRole, WrongTry
from setday.web.people import codes
from setday.web.people.codes import make_card
from tests.web.people import PASSWORD, browser_of, by_card, morning_of, one_of

WRONG = "00000"


@pytest.fixture
def cal(school, instructor):
    """Return a student with classmates."""
    return morning_of(school).members.get(key="cal-o")


def wrong(code):
    """Return a code that finds the same card and does not open it."""
    return f"{code[:4]}-{WRONG if code[5:] != WRONG else '11111'}"


def test_a_card_opens_the_students_own_sheet(cal):
    browser, answer = by_card(cal)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/mine/")
    assert "Cal O." in browser.get("/mine/").content.decode()


@pytest.mark.parametrize(
    "write", [str, lambda code: code.replace("-", ""), lambda code: f" {code[:4]} {code[5:]} "]
)
def test_digits_are_read_whatever_stands_between_them(cal, write):
    assert Client().post("/card/", {"code": write(make_card(cal))}).status_code == 302


def test_only_digests_of_codes_are_kept(cal):
    code = make_card(cal)
    card = Card.objects.get()
    assert card.secret.startswith("pbkdf2_sha256")
    assert code[5:] not in card.secret
    assert card.lookup == code[:4]


def test_a_digest_needs_the_sites_own_key(cal, settings):
    code = make_card(cal)
    settings.SECRET_KEY = "another key altogether, as long as it takes to be one"
    assert not codes.fits(Card.objects.get(), code[5:])


def test_a_card_made_anew_voids_the_old_one_and_ends_its_sessions(desk, cal):
    browser, _answer = by_card(cal)
    old = make_card(cal)
    asked = re.search(
        r'name="asked" value="(\w+)"', desk.get("/people/classes/morning/cards/").content.decode()
    )
    desk.post("/people/classes/morning/cards/", {"asked": asked[1], "do": "ticked", "member": "cal-o"})
    assert browser.get("/mine/").headers["Location"].startswith("/card/")
    assert Client().post("/card/", {"code": old}).status_code == 422


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "required"),
        ("12", "nine digits"),
        ("12345678901", "nine digits"),
        ("0000-00000", "No card has these"),
    ],
)
def test_what_opens_nothing_is_said(instructor, typed, says):
    answer = Client().post("/card/", {"code": typed})
    assert answer.status_code == 422
    assert says in answer.content.decode()


def test_five_wrong_tries_make_one_card_wait_and_no_other(cal):
    code, other = make_card(cal), make_card(Member.objects.get(key="ivy-l"))
    tablet = Client()
    for _ in range(5):
        tablet.post("/card/", {"code": wrong(code)})
    assert "Too many wrong tries" in tablet.post("/card/", {"code": code}).content.decode()
    assert tablet.post("/card/", {"code": other}).status_code == 302


def test_a_class_that_mistypes_on_one_tablet_is_not_locked_out(cal):
    code, tablet = make_card(cal), Client()
    for number in range(40):
        tablet.post("/card/", {"code": f"{number:04d}-12345"})
    assert tablet.post("/card/", {"code": code}).status_code == 302


def test_who_goes_on_guessing_from_one_place_waits(cal):
    code, tablet = make_card(cal), Client()
    now = timezone.now()
    for number in range(60):
        door.note_wrong_try(who=f"{number:04d}", address="127.0.0.1", now=now, what=door.CARD)
    assert "Too many wrong tries" in tablet.post("/card/", {"code": code}).content.decode()


def test_one_card_guessed_at_from_many_places_waits(cal):
    code, now = make_card(cal), timezone.now()
    for number in range(15):
        door.note_wrong_try(who=code[:4], address=f"198.51.100.{number}", now=now, what=door.CARD)
    assert "Too many wrong tries" in Client().post("/card/", {"code": code}).content.decode()


def test_wrong_cards_do_not_keep_the_instructor_out(cal, outsider):
    for number in range(30):
        outsider.post("/card/", {"code": f"{number:04d}-12345"})
    assert outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD}).status_code == 302


def test_a_right_card_forgets_the_wrong_tries_before_it(cal):
    code, tablet = make_card(cal), Client()
    for _ in range(4):
        tablet.post("/card/", {"code": wrong(code)})
    tablet.post("/card/", {"code": code})
    assert not WrongTry.objects.exists()


def test_the_session_has_another_key_after_signing_in(cal):
    tablet = Client()
    tablet.post("/language/", {"language": "es", "next": "/card/"})
    session = tablet.session
    session["left behind"] = "by somebody before"
    session.save()
    tablet.cookies["setday_session"] = session.session_key
    before = session.session_key
    by_card(cal, tablet)
    assert tablet.session.session_key != before
    assert "left behind" not in tablet.session


def test_the_next_student_does_not_come_into_the_session_of_the_one_before(cal):
    tablet, _answer = by_card(cal)
    tablet.post("/present/", {"with": "ivy-l"})
    by_card(Member.objects.get(key="ivy-l"), tablet)
    said = tablet.get("/mine/").content.decode()
    assert "Ivy L." in said
    assert "Cal O." not in said


def test_signing_out_is_one_press_and_leads_to_the_next_card(cal):
    tablet, _answer = by_card(cal)
    assert tablet.post("/sign-out/").headers["Location"] == "/card/"
    assert tablet.get("/mine/").headers["Location"] == "/card/?next=%2Fmine%2F"


def test_a_card_needs_the_mark_of_the_form(cal):
    tablet = Client(enforce_csrf_checks=True)
    assert tablet.post("/card/", {"code": make_card(cal)}).status_code == 403


@pytest.mark.parametrize("change", [{"active": False}, {"role": MemberRole.READER}])
def test_the_card_of_who_is_no_student_here_opens_nothing(cal, change):
    code = make_card(cal)
    Member.objects.filter(pk=cal.pk).update(**change)
    assert Client().post("/card/", {"code": code}).status_code == 422


def test_a_card_leads_on_to_the_sheet_asked_for_and_to_no_other_site(cal):
    _browser, answer = by_card(cal, next="/present/")
    assert answer.headers["Location"] == "/present/"
    _browser, answer = by_card(cal, next="https://example.org/")
    assert answer.headers["Location"] == "/mine/"


# ------------------------------------------------- a crew under one sign-in
def test_who_is_ticked_works_under_the_same_sign_in(cal, rf):
    from setday.web.people.who import members_present

    tablet, _answer = by_card(cal)
    tablet.post("/present/", {"with": ["ivy-l", "nobody"]})
    request = tablet.get("/mine/").wsgi_request
    assert [each.key for each in members_present(request)] == ["cal-o", "ivy-l"]
    Member.objects.filter(key="ivy-l").update(active=False)
    assert [each.key for each in members_present(request)] == ["cal-o"]


def test_nobody_of_another_class_can_be_ticked(cal, school):
    from setday.web.keeping.members import keep_class, keep_member
    from setday.web.people.who import members_present

    keep_member(school, name="Oz Lee", school_class=keep_class(school, name="Afternoon"))
    tablet, _answer = by_card(cal)
    tablet.post("/present/", {"with": ["oz-l"]})
    assert len(members_present(tablet.get("/mine/").wsgi_request)) == 1
    assert "Oz" not in tablet.get("/present/").content.decode()


# ------------------------------------------------- a tablet nobody touches
def touched_ago(browser, **ago):
    session = browser.session
    session["touched"] -= timedelta(**ago).total_seconds()
    session.save()


def test_a_tablet_nobody_touches_is_signed_out(cal):
    tablet, _answer = by_card(cal)
    tablet.get("/mine/")
    touched_ago(tablet, minutes=14)
    assert tablet.get("/mine/").status_code == 200
    touched_ago(tablet, minutes=16)
    assert tablet.get("/mine/").headers["Location"].startswith("/card/")
    assert "nobody had touched" in tablet.get("/card/").content.decode()


def test_what_a_page_asks_by_itself_is_no_touch(cal):
    tablet, _answer = by_card(cal)
    tablet.get("/mine/")
    touched_ago(tablet, minutes=10)
    tablet.get("/mine/", headers={"HX-Request": "true"})
    touched_ago(tablet, minutes=6)
    assert tablet.get("/mine/", headers={"HX-Request": "true"}).status_code == 401


def test_what_is_kept_on_a_tablet_and_sent_by_itself_is_no_touch(cal):
    tablet, _answer = by_card(cal)
    tablet.get("/mine/")
    touched_ago(tablet, minutes=10)
    tablet.post("/periods/1/mark/", {}, headers={"X-Setday-Entry": "1"})
    touched_ago(tablet, minutes=6)
    assert tablet.get("/mine/").headers["Location"].startswith("/card/")


def test_the_school_says_how_soon(desk, cal, school):
    desk.post("/people/devices/", {"do": "idle", "idle_minutes": "30"})
    tablet, _answer = by_card(cal)
    tablet.get("/mine/")
    touched_ago(tablet, minutes=29)
    assert tablet.get("/mine/").status_code == 200
    assert desk.post("/people/devices/", {"do": "idle", "idle_minutes": "0"}).status_code == 422


def test_the_instructor_is_not_signed_out_by_the_minute(desk):
    desk.get("/")
    assert "touched" not in desk.session


# ------------------------------------------------- one-time codes
def typed(code, /, **more):
    good = {"code": code, "name": "Dee Park", "password": "a short flight of stairs"}
    return {**good, "again": good["password"], **more}


@pytest.fixture
def code(desk):
    """Return the one-time code of a helper just made."""
    said = desk.post("/people/accounts/", {"name": "Dee Park", "role": "helper"}).content.decode()
    return re.search(r"\d{4}-\d{5}", said)[0]


def test_a_helper_chooses_a_password_with_a_one_time_code(code, outsider):
    assert outsider.post("/choose/", typed(code)).headers["Location"] == "/"
    assert outsider.get("/").status_code == 200
    again = Client()
    assert (
        again.post("/sign-in/", {"name": "Dee Park", "password": "a short flight of stairs"}).status_code
        == 302
    )


def test_a_one_time_code_serves_once_and_not_for_ever(code):
    Client().post("/choose/", typed(code))
    assert "No card has these digits" in Client().post("/choose/", typed(code)).content.decode()


def test_a_one_time_code_runs_out(code):
    Card.objects.update(ends_at=timezone.now() - timedelta(minutes=1))
    assert Client().post("/choose/", typed(code)).status_code == 422


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"password": "short", "again": "short"}, "too short"),
        ({"again": "another"}, "not the password typed above"),
        ({"name": "ana ruiz"}, "signs in under this name already"),
        ({"name": ""}, "required"),
        ({"code": "1"}, "nine digits"),
    ],
)
def test_a_wrong_choice_is_said_keeps_what_was_typed_and_the_code(code, change, says):
    answer = Client().post("/choose/", typed(code, **change))
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert "a short flight of stairs" not in answer.content.decode()
    assert Client().post("/choose/", typed(code)).status_code == 302


def test_a_students_card_chooses_no_password_and_a_helpers_code_is_no_card(cal, code):
    assert Client().post("/choose/", typed(make_card(cal))).status_code == 422
    assert Client().post("/card/", {"code": code}).status_code == 422


def test_a_reader_put_away_is_out_at_once_and_cannot_come_back(desk, school, instructor):
    reader = one_of(school, "reader", name="Sam Hill")
    browser = browser_of(reader)
    assert browser.get("/").status_code == 200
    for unknown in ({}, {"do": "delete"}):
        desk.post(f"/people/accounts/{reader.key}/", unknown)
        assert browser.get("/").status_code == 200
    desk.post(f"/people/accounts/{reader.key}/", {"do": "away"})
    assert browser.get("/").status_code == 302
    assert Client().post("/sign-in/", {"name": "Sam Hill", "password": PASSWORD}).status_code == 422
    desk.post(f"/people/accounts/{reader.key}/", {"do": "back"})
    assert Client().post("/sign-in/", {"name": "Sam Hill", "password": PASSWORD}).status_code == 302


def test_a_new_code_ends_the_old_password(desk, school):
    reader = one_of(school, "reader", name="Sam Hill")
    desk.post(f"/people/accounts/{reader.key}/", {"do": "code"})
    assert Client().post("/sign-in/", {"name": "Sam Hill", "password": PASSWORD}).status_code == 422


def test_nobody_changes_their_own_account_or_the_keepers(desk, school, instructor):
    other = one_of(school, "instructor", name="Lou Field")
    browser_of(other).post("/people/accounts/ana-r/", {"do": "away"})
    desk.post("/people/accounts/ana-r/", {"do": "away"})
    assert Member.objects.get(key="ana-r").active
    assert get_user_model().objects.get(username="Ana Ruiz").is_active
