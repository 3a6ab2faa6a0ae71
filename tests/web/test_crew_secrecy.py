"""A student asks for every address of the site, in every way: nothing sealed, nothing of others comes back.

Beside `test_sealed_secrecy`, where answers are compared byte by byte: here the records of a whole class day
lie on the table, and the bytes of every answer are searched for what is not the student's.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from html import unescape
from uuid import UUID

import pytest
from django.urls import reverse
from django.utils import timezone

from setday.learning import number_words
from setday.web.access import TABLE
from setday.web.keeping.models import (
    Attendance,
    ClassPeriod,
    CrewSeat,
    CrewWork,
    MemberSignOff,
    PeriodCrew,
    PeriodFix,
    PeriodMark,
    PeriodNote,
    SealedEntry,
    SealedOffer,
)
from setday.web.period.tasks import keep_typed
from setday.web.photos.keeping import keep_photo
from setday.web.photos.reading import read_photo
from setday.web.sealed.figures import diagnoser_of
from tests.web.people import browser_of, morning_of
from tests.web.photos import jpeg, sent
from tests.web.screens import ADDRESSES

FIGURE = "room/workroom/boards"
PHOTO = "6b1f0a52-3e0e-4a2f-9a4c-8d8f6f0a1b2c"
"""The key that the table of addresses names."""

OF_OTHERS = {
    "the classmate's name": "Ivy Lindqvist",
    "the task of another crew": "Scribe the soffit",
    "a note of another crew": "Ivy's crew ran out of shims",
    "a fix of another crew": "Soffit cut a hand short",
    "what another was signed off for": "nail gun by Ivy",
    "what a classmate wrote": "Ivy figured it so",
    "a classmate's answer": "4711",
}
POSTED = {
    "do": "done",
    "kind": "done",
    "task": "typed-2",
    "crew": "2",
    "of": "1",
    "member": "ivy-l",
    "q": "1",
}
WAYS = [
    ("get", {}),
    ("get", {"Accept": "application/json"}),
    ("get", {"HX-Request": "true"}),
    ("post", {}),
    ("post", {"Accept": "application/json", "X-Setday-Entry": "1"}),
]


@dataclass
class Day:
    """A class day: the offer, and the browser of a student of crew 1."""

    offer: SealedOffer
    browser: object
    cal: object


@pytest.fixture
def day(school, shed):
    """Return a class day with two crews, each with entries of its own, and a sealed figure."""
    morning = morning_of(school)
    cal, ivy = morning.members.get(key="cal-o"), morning.members.get(key="ivy-l")
    ivy.name = OF_OTHERS["the classmate's name"]
    ivy.save()
    MemberSignOff.objects.create(member=ivy, what="nail gun by Ivy", on=date(2026, 9, 1), by="Ana Ruiz")
    period = _period(school, shed, morning, cal, ivy)
    offer = SealedOffer.objects.create(
        pk=1, school=school, school_class=morning, version=shed.newest, figure=FIGURE, tries=2, hints=True
    )
    SealedEntry.objects.create(
        pk=1, offer=offer, member=ivy, entry=UUID(int=9), answer="4711", at=period.begins,
        lines=[{"label": "Ivy figured it so", "worked": "", "result": "4711 sheets"}],
    )  # fmt: skip
    return Day(offer=offer, browser=browser_of(cal), cal=cal)


def _period(school, shed, morning, cal, ivy):
    """Return a period in which the crew of a classmate did and wrote all a crew can."""
    begins = timezone.now() - timedelta(minutes=30)
    period = ClassPeriod.objects.create(
        pk=1, school=school, school_class=morning, house=shed, begins=begins, minutes=90
    )
    own = keep_typed(shed, label="Hang doors", trade="trim", place="workroom", quantity=4.0)
    other = keep_typed(shed, label="Scribe the soffit", trade="siding", place="yard", quantity=4.0)
    for number, (member, task) in enumerate([(cal, own), (ivy, other)], start=1):
        Attendance.objects.create(period=period, member=member, state="here")
        crew = PeriodCrew.objects.create(period=period, number=number)
        CrewSeat.objects.create(period=period, crew=crew, member=member)
        CrewWork.objects.create(crew=crew, task=task)
    facts = {"period": period, "at": timezone.now(), "by": "Ivy Lindqvist"}
    photo = keep_photo(shed, read_photo(sent(jpeg())), key=UUID(PHOTO), by="Ivy Lindqvist")
    PeriodMark.objects.create(
        entry=UUID(int=1), crew=crew, task=other, kind="partly done", members=["ivy-l"], **facts
    )
    PeriodFix.objects.create(entry=UUID(int=2), what="Soffit cut a hand short", task=other, **facts)
    text = "Ivy's crew ran out of shims"
    PeriodNote.objects.create(entry=UUID(int=3), crew=crew, text=text, photo=photo, **facts)
    return period


def asked(browser):
    """Yield where a student asked, in which way, the status and every byte that came back."""
    for screen in sorted(set(TABLE) - {"desk:sign-out"}):
        address = reverse(screen, kwargs=ADDRESSES[screen])
        for method, headers in WAYS:
            if method == "get":
                answer = browser.get(address, headers=headers)
            else:
                answer = browser.post(address, POSTED, headers=headers)
            yield f"{method} {address} {headers}", answer.status_code, b"".join(answer)


def answers_of(offer):
    """Return how the sealed answer and the lines on the way to it are written where they are shown."""
    diagnoser = diagnoser_of(offer)
    shown = {line.label: number_words(line, diagnoser.right[line.key]) for line in diagnoser.figure.lines}
    return {name: shown[name] for name in ("walls and ceiling, net", "sheets with waste", "sheets to order")}


def test_no_address_gives_a_student_a_sealed_answer_or_anything_of_others(day):
    sought, before = {**OF_OTHERS, **answers_of(day.offer)}, kept()
    found, failed = [], []
    for where, status, body in asked(day.browser):
        failed += [where] if status >= 500 else []
        found += [f"{what} at {where}" for what, words in sought.items() if words in read(body)]
    assert (found, failed) == ([], [])
    assert kept() == before, "asking everywhere changed something"


def kept():
    """Return what a student without a right to it could have changed."""
    counts = [record.objects.count() for record in (PeriodMark, PeriodFix, SealedEntry, PeriodCrew)]
    return [*counts, SealedOffer.objects.get().opened]


def read(body):
    """Return the words of a page as they are read."""
    return unescape(body.decode("utf-8", errors="replace"))


def test_the_search_finds_all_of_it_where_it_may_be_seen(day, desk):
    """What is sought is written as it is shown: the instructor's own pages hold every word of it."""
    member = reverse("people:member", kwargs={"key": "ivy-l"})
    pages = ["/periods/1/", "/periods/1/record/", member, "/houses/practice-shed/sealed/1/"]
    seen = read(b"".join(desk.get(page).content for page in pages))
    assert [what for what, words in {**OF_OTHERS, **answers_of(day.offer)}.items() if words not in seen] == []
