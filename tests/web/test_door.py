"""The first start, signing in, signing out, the language."""

from datetime import timedelta
from urllib.parse import urlencode

import pytest
from django.contrib.auth import get_user_model
from django.utils import timezone

from setday.web.desk import door
from tests.web.conftest import PASSWORD

GOOD = {"name": "Ana Ruiz", "password": PASSWORD, "again": PASSWORD}


@pytest.fixture
def code(db):
    return door.new_code()


def test_the_first_page_of_a_new_site_leads_to_the_first_start(outsider, code):
    assert outsider.get("/").headers["Location"] == "/begin/"


def test_the_code_makes_an_instructor_and_signs_them_in(outsider, code):
    answer = outsider.post("/begin/", {"code": code, **GOOD})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")
    assert outsider.get("/").status_code == 200


def test_the_code_is_read_whatever_its_case_and_spaces(outsider, code):
    spoken = code.replace("-", " ").upper()
    assert outsider.post("/begin/", {"code": f" {spoken} ", **GOOD}).status_code == 302


def test_the_code_serves_once(outsider, code):
    outsider.post("/begin/", {"code": code, **GOOD})
    outsider.post("/sign-out/")
    answer = outsider.post("/begin/", {"code": code, **GOOD})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/sign-in/")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"code": "awl-awl-awl-0000"}, "not the code"),
        ({"code": ""}, "required"),
        ({"again": "another plank"}, "not the password typed above"),
        ({"password": "short", "again": "short"}, "too short"),
        ({"password": "1234567890123", "again": "1234567890123"}, "numeric"),
        ({"name": ""}, "required"),
        ({"name": "a long plank of oak"}, "too similar"),
    ],
)
def test_a_wrong_entry_at_the_first_start_is_said_and_changes_nothing(outsider, code, change, says):
    answer = outsider.post("/begin/", {"code": code, **GOOD, **change})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not get_user_model().objects.exists()
    assert door.code_fits(code)


def test_the_password_is_never_sent_back(outsider, code):
    answer = outsider.post("/begin/", {"code": "wrong", **GOOD})
    assert PASSWORD not in answer.content.decode()


def test_guessing_the_code_ends_in_waiting(outsider, code):
    for _ in range(door.FROM_ONE_PLACE_FOR_ONE_NAME):
        outsider.post("/begin/", {"code": "awl-awl-awl-0000", **GOOD})
    answer = outsider.post("/begin/", {"code": code, **GOOD})
    assert answer.status_code == 422
    assert "Too many wrong tries" in answer.content.decode()


def test_a_new_code_replaces_the_one_before(db):
    first, second = door.new_code(), door.new_code()
    assert (door.code_fits(first), door.code_fits(second)) == (False, True)


def test_a_new_code_gives_a_forgetful_instructor_a_new_password(outsider, instructor):
    code = door.new_code()
    outsider.post(
        "/begin/",
        {"code": code, "name": "Ana Ruiz", "password": "eleven stair treads", "again": "eleven stair treads"},
    )
    assert get_user_model().objects.count() == 1
    assert get_user_model().objects.get().check_password("eleven stair treads")


def test_the_first_start_without_a_code_says_how_to_get_one(outsider):
    assert "prints a new code" in outsider.get("/begin/").content.decode()


def test_the_right_name_and_password_open_the_door(outsider, instructor):
    answer = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")


def test_a_wrong_password_is_said_without_saying_which_was_wrong(outsider, instructor):
    wrong_password = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": "no"})
    wrong_name = outsider.post("/sign-in/", {"name": "Nobody", "password": PASSWORD})
    assert wrong_password.status_code == wrong_name.status_code == 422
    assert "do not belong together" in wrong_password.content.decode()
    assert "do not belong together" in wrong_name.content.decode()


def test_wrong_tries_end_in_waiting_even_for_the_right_password(outsider, instructor):
    for _ in range(door.FROM_ONE_PLACE_FOR_ONE_NAME):
        outsider.post("/sign-in/", {"name": "ANA RUIZ", "password": "no"})
    answer = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD})
    assert answer.status_code == 422
    assert "Wait 15 minutes" in answer.content.decode()


def test_waiting_ends(instructor):
    now = timezone.now()
    for _ in range(door.FROM_ONE_PLACE_FOR_ONE_NAME):
        door.note_wrong_try(who="Ana Ruiz", address="198.51.100.7", now=now)
    later = now + door.WINDOW + timedelta(seconds=1)
    assert door.minutes_to_wait(who="ana ruiz", address="198.51.100.7", now=now) == 15
    assert door.minutes_to_wait(who="ana ruiz", address="198.51.100.7", now=later) == 0


def test_one_place_that_guesses_does_not_lock_the_others_out(instructor):
    now = timezone.now()
    for _ in range(door.FROM_ONE_PLACE):
        door.note_wrong_try(who="Ana Ruiz", address="198.51.100.7", now=now)
    assert door.minutes_to_wait(who="Ana Ruiz", address="198.51.100.8", now=now) == 0


def test_one_place_that_guesses_many_names_waits(instructor):
    now = timezone.now()
    for number in range(door.FROM_ONE_PLACE):
        door.note_wrong_try(who=f"name {number}", address="198.51.100.7", now=now)
    assert door.minutes_to_wait(who="another", address="198.51.100.7", now=now) == 15


def test_signing_out_closes_the_door(desk):
    desk.post("/sign-out/")
    assert desk.get("/").headers["Location"] == "/sign-in/"


def test_after_signing_in_one_returns_to_the_sheet_asked_for(outsider, instructor):
    door_address = outsider.get("/prices/").headers["Location"]
    assert door_address == "/sign-in/?next=%2Fprices%2F"
    answer = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD, "next": "/prices/"})
    assert answer.headers["Location"] == "/prices/"


@pytest.mark.parametrize("elsewhere", ["https://example.org/", "//example.org/", "javascript:alert(1)"])
def test_signing_in_never_leads_to_another_site(outsider, instructor, elsewhere):
    answer = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD, "next": elsewhere})
    assert answer.headers["Location"] == "/"


def test_the_language_can_be_changed_by_anybody(outsider, instructor):
    outsider.post("/language/", {"language": "es", "next": "/sign-in/"})
    assert '<html lang="es">' in outsider.get("/sign-in/").content.decode()


def test_a_language_the_site_has_not_changes_nothing(outsider, instructor):
    answer = outsider.post("/language/", {"language": "xx", "next": "/sign-in/"})
    assert "setday_language" not in answer.cookies


@pytest.mark.parametrize("address", ["/sign-out/", "/language/"])
def test_what_changes_something_is_not_done_by_looking(desk, address):
    assert desk.get(address).status_code == 405


def test_a_wrong_code_and_a_weak_password_are_both_said(outsider, code):
    answer = outsider.post(
        "/begin/", {**GOOD, "code": "awl-awl-awl-0000", "password": "short", "again": "short"}
    )
    said = answer.content.decode()
    assert "not the code" in said
    assert "too short" in said


@pytest.mark.parametrize("screen", ["/begin/", "/sign-in/?next=/prices/"])
def test_changing_the_language_keeps_what_was_typed_but_no_password(outsider, code, request, screen):
    if screen != "/begin/":
        request.getfixturevalue("instructor")
    assert 'form="typed" formaction="/language/?back=' in outsider.get(screen).content.decode()
    typed = {"name": "Ana Ruiz", "code": "half a code", "password": "a secret plank", "next": "/prices/"}
    outsider.post(f"/language/?{urlencode({'back': screen})}", {**typed, "language": "es"})
    said = outsider.get(screen).content.decode()
    assert 'value="Ana Ruiz"' in said
    assert ("half a code" in said) == (screen == "/begin/")
    assert "a secret plank" not in said
    assert "a secret plank" not in str(dict(outsider.session))
    assert "Ana Ruiz" not in outsider.get(screen).content.decode()


def test_changing_the_language_at_the_door_returns_there(outsider, instructor):
    answer = outsider.post(
        "/language/?back=/sign-in/%3Fnext%3D/prices/", {"language": "es", "next": "/prices/"}
    )
    assert answer.headers["Location"] == "/sign-in/?next=/prices/"
    answer = outsider.post("/language/?back=https://elsewhere.example/", {"language": "es"})
    assert answer.headers["Location"] == "/"
