"""Closing the site to all but chosen devices, and never oneself out."""

import re
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from setday.web.keeping.members import keep_school
from setday.web.keeping.models import Device, School
from tests.web.conftest import PASSWORD
from tests.web.people import browser_of, by_card, morning_of, one_of


@pytest.fixture
def cal(school):
    """Return a student."""
    return morning_of(school).members.get(key="cal-o")


@pytest.fixture
def closed(desk):
    """Return the instructor's browser after it closed the site."""
    desk.post("/people/devices/", {"do": "close"})
    return desk


def code_for(desk, name="tablet 3"):
    """Have a device's code made, and read it off the page."""
    return re.search(
        r"\d{4}-\d{4}", desk.post("/people/devices/", {"do": "offer", "name": name}).content.decode()
    )[0]


def test_who_closes_the_site_stays_in(closed, school):
    assert School.objects.get(pk=school.pk).only_devices
    assert closed.get("/").status_code == 200
    assert [each.name for each in Device.objects.all()] == ["the instructor's device"]


def test_every_other_device_is_refused_even_with_a_card_or_a_password(closed, cal, instructor):
    elsewhere = Client()
    assert by_card(cal, elsewhere)[1].status_code == 422
    answer = elsewhere.post("/sign-in/", {"name": "Ana Ruiz", "password": PASSWORD})
    assert (answer.status_code, "not chosen" in answer.content.decode()) == (422, True)


def test_who_is_signed_in_elsewhere_is_refused_from_then_on(desk, cal):
    elsewhere, _answer = by_card(cal)
    desk.post("/people/devices/", {"do": "close"})
    answer = elsewhere.get("/mine/")
    assert (answer.status_code, "was not chosen" in answer.content.decode()) == (403, True)
    assert elsewhere.post("/sign-out/").status_code == 302


def test_a_device_takes_its_code_once(closed, cal):
    code, tablet, other = code_for(closed), Client(), Client()
    assert tablet.post("/device/", {"code": code}).headers["Location"] == "/card/"
    assert other.post("/device/", {"code": code}).status_code == 422
    assert by_card(cal, tablet)[1].status_code == 302
    assert tablet.get("/mine/").status_code == 200


def test_only_digests_of_codes_and_cookies_are_kept(closed):
    code, tablet = code_for(closed), Client()
    assert code.replace("-", "") not in str(Device.objects.values())
    tablet.post("/device/", {"code": code})
    cookie = tablet.cookies["setday_device"]
    assert cookie.value not in str(Device.objects.values())
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Lax")


def test_a_code_runs_out_after_half_an_hour(closed):
    code = code_for(closed)
    Device.objects.update(code_ends_at=timezone.now() - timedelta(seconds=1))
    assert "half hour is over" in Client().post("/device/", {"code": code}).content.decode()


def test_guessing_device_codes_ends_in_waiting(closed):
    code, elsewhere = code_for(closed), Client()
    for _ in range(5):
        elsewhere.post("/device/", {"code": "0000-0000"})
    assert "Too many wrong tries" in elsewhere.post("/device/", {"code": code}).content.decode()


def test_guessing_elsewhere_keeps_nobody_else_from_choosing_a_device(closed):
    code = code_for(closed)
    for place in range(12):
        for _ in range(5):
            Client(REMOTE_ADDR=f"10.0.0.{place}").post("/device/", {"code": "0000-0000"})
    assert Client(REMOTE_ADDR="10.0.1.1").post("/device/", {"code": code}).status_code == 302


def test_a_device_taken_off_is_refused(closed, cal):
    tablet = Client()
    tablet.post("/device/", {"code": code_for(closed)})
    by_card(cal, tablet)
    closed.post(f"/people/devices/{Device.objects.get(name='tablet 3').pk}/away/")
    assert tablet.get("/mine/").status_code == 403


def test_the_device_at_hand_is_not_taken_off_while_the_site_is_closed(closed):
    closed.post(f"/people/devices/{Device.objects.get().pk}/away/")
    assert Device.objects.count() == 1


def test_a_device_of_one_school_opens_no_other(closed, school):
    other = keep_school(name="Elm Street")
    School.objects.filter(pk=other.pk).update(only_devices=True)
    theirs = browser_of(one_of(other, "instructor", name="Lou Field"))
    theirs.post("/device/", {"code": code_for(closed)})
    assert theirs.get("/").status_code == 403


def test_a_school_that_is_open_does_not_mind_another_that_is_closed(closed):
    theirs = browser_of(one_of(keep_school(name="Elm Street"), "instructor", name="Lou Field"))
    assert theirs.get("/").status_code == 200


def test_crews_of_a_hunt_are_refused_on_other_devices_too(desk, school):
    from setday.actions.switching.hookups import example_text
    from setday.web.keeping.models import Hunt

    name = "three-way-light-between"
    facts = {"code": "BCDFG", "name": "Hall", "file_name": f"{name}.yaml", "text": example_text(name)}
    Hunt.objects.create(school=school, planted="lamp: burnt out", **facts)
    tablet = Client()
    tablet.post("/hunt/", {"code": "BCDFG", "name": "Blue hats"})
    desk.post("/people/devices/", {"do": "close"})
    assert tablet.get("/hunt/room/").status_code == 403


def test_opening_the_site_lets_every_device_in_again(closed, cal):
    closed.post("/people/devices/", {"do": "open"})
    assert by_card(cal)[1].status_code == 302


def test_a_part_of_a_page_is_refused_plainly(desk, cal):
    elsewhere, _answer = by_card(cal)
    desk.post("/people/devices/", {"do": "close"})
    assert elsewhere.get("/mine/", headers={"HX-Request": "true"}).status_code == 403
