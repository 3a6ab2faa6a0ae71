"""Check-offs and what was seen, kept on a tablet: each counts once, at its time, for whoever made it."""

import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from setday.actions.houses import demo_text
from setday.web.keeping.models import GateMark, Member
from tests.web.gates import ENTRY, at, hidden_items, work
from tests.web.people import browser_of, morning_of


@pytest.fixture
def student(school):
    return browser_of(morning_of(school).members.get(key="cal-o"))


@pytest.fixture
def bath(school):
    """Return the wired house, and the addresses of a wall with many things inside."""
    from setday.web.keeping.houses import keep_house

    house = keep_house(school=school, name="Wired", file_name="wired.yaml", text=demo_text("wired"))
    return house, lambda screen: at(screen, "bath/south", key=house.key)


def test_what_waited_on_a_tablet_counts_once_at_the_time_of_the_tap(bath, student):
    house, of = bath
    done, tapped = work(house, "bath/south"), timezone.now() - timedelta(minutes=40)
    facts = {"do": "done", "item": done, "entry": str(uuid4()), "entered_at": tapped.isoformat()}
    for _ in range(2):
        answer = student.post(of("mark"), facts, headers=ENTRY)
        assert (answer.status_code, answer.json()) == (200, {"to": of("surface")})
        assert GateMark.objects.count() == len(done) > 3
    assert {mark.at for mark in GateMark.objects.all()} == {tapped}


def test_a_tablet_is_told_what_was_made_and_what_refused(bath, student):
    house, of = bath
    done = work(house, "bath/south")[:3]
    facts = {"do": "done", "item": [*done, "pipe/1"], "entry": str(uuid4())}
    for made in ("3 marks were made. ", ""):
        answer = student.post(of("mark"), facts, headers=ENTRY)
        said = answer.json()["said"]
        assert (answer.status_code, set(answer.json())) == (422, {"said"})
        assert said.removeprefix(made).startswith("bath, south wall does not ask for this")
        assert GateMark.objects.count() == 3


def test_what_a_classmate_kept_on_the_tablet_is_not_checked_off_in_ones_own_name(shed, school, student):
    ivy = Member.objects.get(key="ivy-l")
    facts = {"do": "done", "item": work(shed), "entry": str(uuid4()), "who": f"member-{ivy.pk}"}
    answer = student.post(at("mark"), facts, headers=ENTRY)
    assert (answer.status_code, answer.json()["wait"]) == (409, True)
    assert GateMark.objects.count() == 0
    assert browser_of(ivy).post(at("mark"), facts, headers=ENTRY).status_code == 200
    assert {mark.by_name for mark in GateMark.objects.all()} == {ivy.shown_as}


def test_what_is_confirmed_in_the_lump_is_what_the_sheet_shows_as_checked_off(bath, student, desk):
    house, of = bath
    first, second, *others = work(house, "bath/south")
    student.post(of("mark"), {"do": "done", "item": [first, second], "entry": str(uuid4())})
    shown = hidden_items(desk.get(of("surface")))
    assert sorted(shown) == sorted([first, second])
    student.post(of("mark"), {"do": "done", "item": others, "entry": str(uuid4())})
    desk.post(of("judge"), {"do": "confirm", "item": shown, "entry": str(uuid4())}, headers=ENTRY)
    assert GateMark.objects.filter(kind="confirmed").count() == 2


def test_every_form_for_things_done_and_seen_is_kept_on_the_tablet(bath, student, desk):
    house, of = bath
    first, second, third, *_ = work(house, "bath/south")
    student.post(of("mark"), {"do": "done", "item": [first, second], "entry": str(uuid4())})
    desk.post(of("judge"), {"do": "confirm", "item": second, "entry": str(uuid4())})
    desk.post(of("overrule"), {"do": "overrule", "item": third, "words": "later", "entry": str(uuid4())})
    for browser, screens, count in ((student, ["mark"], 2), (desk, ["judge", "overrule"], 4)):
        page = browser.get(of("surface")).content.decode()
        forms = re.findall(r"<form.*?</form>", page, re.DOTALL)
        own = [form for form in forms if any(f'action="{of(screen)}"' in form for screen in screens)]
        assert len(own) == count
        assert all(" data-keep>" in form and 'name="who" value="' in form for form in own)
        assert "setday/entries" in page
