"""Addresses that name something made only in the course of work: one's own school finds it, no other does."""

import re
from html import unescape
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from setday.actions.houses import demo_text
from setday.web.cable.figured import cable_of_version
from setday.web.houses.opening import opened
from setday.web.keeping.houses import keep_house
from setday.web.keeping.members import keep_school
from setday.web.keeping.models import ClassPeriod, GateMark, SealedEntry, SealedOffer
from setday.web.period.tasks import keep_typed
from setday.web.photos.keeping import keep_photo, photo_key
from setday.web.photos.reading import read_photo
from tests.web.gates import at, keys
from tests.web.people import browser_of, morning_of, one_of
from tests.web.photos import jpeg, sent
from tests.web.test_schools import NOT_THERE
from tests.web.timetables import searched


@pytest.fixture(autouse=True)
def folder(settings, tmp_path):
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def stranger(school):
    return browser_of(one_of(keep_school(name="Elm Street"), "instructor", name="Lou Field"))


def closed_wall(desk, house):
    """Close a wall; return the entry of its record."""
    desk.post(at("judge"), {"do": "confirm", "item": keys(house), "entry": str(uuid4())})
    desk.post(at("close"), {"entry": str(uuid4())})
    return GateMark.objects.get(kind="closed").entry


def gate_records(desk, school, house):
    names = {"key": house.key, "entry": closed_wall(desk, house)}
    return {"gates:record": (names, {}), "gates:record-pdf": (names, {})}


def photos(desk, school, house):
    photo = keep_photo(house, read_photo(sent(jpeg())), key=photo_key(house, "e"), by="Ana R.")
    names = {"key": house.key, "photo": photo.key}
    return {"photos:one": ({"key": photo.key}, {}), "period:release": (names, {})}


def marks(desk, school, house):
    task = keep_typed(house, label="Hang doors", trade="trim", place="workroom")
    facts = {"school": school, "school_class": morning_of(school), "house": house}
    period = ClassPeriod.objects.create(**facts, begins=timezone.now(), minutes=90)
    crew = period.crews.create(number=1)
    row = period.marks.create(entry=uuid4(), by="Cal", at=period.begins, crew=crew, task=task, kind="start")
    return {"period:take-back": ({"number": period.pk, "row": row.pk}, {})}


def answers(desk, school, house):
    group = morning_of(school)
    facts = {"school": school, "school_class": group, "version": house.newest}
    offer = SealedOffer.objects.create(figure="room/workroom/floor", **facts)
    handed = {"member": group.members.get(key="cal-o"), "answer": "9", "at": timezone.now()}
    entry = SealedEntry.objects.create(offer=offer, entry=uuid4(), **handed)
    return {"sealed:mark": ({"key": house.key, "number": offer.pk}, {"of": entry.pk, "kind": "arithmetic"})}


def wiring(desk, school, house):
    kept = keep_house(school=school, name="Wired", file_name="wired.yaml", text=demo_text("wired"))
    figure, names = cable_of_version(kept.newest).figure, {"key": kept.key}
    page = desk.get(reverse("switching:of-house", kwargs=names)).content.decode()
    group = unescape(re.search(r'name="group" value="([^"]+)"', page)[1])
    device = opened(kept.newest).built().devices[0].name
    return {
        "cable:device": ({**names, "name": device}, {}),
        "cable:circuit": ({**names, "number": 1}, {}),
        "cable:pulled": ({**names, "run": figure.pulls[0].number}, {"undo": "yes"}),
        "switching:take": (names, {"group": group}),
    }


def timetables(desk, school, house):
    names = {"key": house.key, "number": searched(house, begin=False).number}
    return {f"timetable:{name}": (names, {}) for name in ("run", "progress", "stop")}


MADE = {
    gate_records: {"gates:record", "gates:record-pdf"},
    photos: {"photos:one", "period:release"},
    marks: {"period:take-back"},
    answers: {"sealed:mark"},
    wiring: {"cable:device", "cable:circuit", "cable:pulled", "switching:take"},
}


def test_nothing_that_is_left_out_elsewhere_is_left_out_here():
    assert set.union(*MADE.values()) == NOT_THERE


def told(browser, address, facts):
    """Return the statuses of asking for an address and of sending to it."""
    answers = browser.get(address), browser.post(address, facts)
    for answer in answers:
        if answer.streaming:
            assert b"".join(answer.streaming_content)  # read to its end, it is closed
    return {answer.status_code for answer in answers}


@pytest.mark.parametrize("make", [*MADE, timetables], ids=lambda make: make.__name__)
def test_ones_own_school_finds_it_and_no_other_does(desk, stranger, school, shed, make):
    made = make(desk, school, shed)
    assert set(made) == MADE.get(make, set(made))
    addresses = {screen: (reverse(screen, kwargs=names), facts) for screen, (names, facts) in made.items()}
    others = {screen: told(stranger, *asked) for screen, asked in addresses.items()}
    own = {screen: told(desk, *asked) for screen, asked in addresses.items()}
    assert {screen: codes for screen, codes in others.items() if not codes <= {404, 405}} == {}
    assert {screen: codes for screen, codes in own.items() if not codes & {200, 302}} == {}
