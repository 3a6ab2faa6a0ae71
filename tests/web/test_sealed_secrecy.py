"""Two houses whose sealed answers differ, and two classmates whose entries differ: no byte tells a student.

The figure's own version is swapped for one with other measures; whatever a crew member is told, at every
address and in every way, must stay the same byte by byte until the figure is opened.
"""

import re
from datetime import timedelta
from uuid import UUID

import pytest
from django.urls import reverse
from django.utils import timezone

from setday.actions.houses import demo_text
from setday.web.access import TABLE
from setday.web.keeping.houses import add_version
from setday.web.keeping.models import (
    ClassPeriod,
    CrewSeat,
    CrewWork,
    House,
    Member,
    PeriodCrew,
    SealedEntry,
    SealedOffer,
    SlipMark,
)
from setday.web.period.tasks import take_tasks
from setday.web.sealed.figures import diagnoser_of
from tests.web.people import browser_of, morning_of
from tests.web.screens import ADDRESSES

FIGURES = ["room/workroom/boards", "room/workroom/floor", "surface/workroom/north/run"]
SIGN = UUID(int=5)
GETS = ["", "?version=1", "?opened=1", "?format=json", "?next=/sealed/1/"]
ASKED = {"entry": str(SIGN), "answer": "11", "label-1": "area", "result-1": "96 ft2"}
OFF = "setday_session"
"""The cookie of the session: set anew whenever the session lives on."""


def told(answer):
    """Return all an answer says, less Django's own marks, signs of fresh forms and the minute."""
    body = b"".join(answer)
    body = re.sub(rb'name="csrfmiddlewaretoken" value="\w+"', b"", body)
    body = re.sub(rb'name="entry" value="[-\w]+"', b"", body)
    body = re.sub(rb"\d{4}-\d\d-\d\d \d\d:\d\d", b"", body)
    headers = {name: value for name, value in answer.headers.items() if name != "Set-Cookie"}
    return answer.status_code, headers, sorted(set(answer.cookies) - {OFF}), body


def everything(browser, *, only=""):
    """Yield what every address answers to a crew member, those of sealed figures asked in every way."""
    for screen in sorted(each for each in set(TABLE) & set(ADDRESSES) if each.startswith(only)):
        address, own = reverse(screen, kwargs=ADDRESSES[screen]), screen.startswith("sealed:")
        for query in GETS if own else GETS[:1]:
            yield f"get {address}{query}", told(browser.get(address + query))
        yield f"json {address}", told(browser.get(address, headers={"Accept": "application/json"}))
        if own:
            yield f"htmx {address}", told(browser.get(address, headers={"HX-Request": "true"}))
            yield f"post {address}", told(browser.post(address, {"kind": "arithmetic", "of": "1"}))


def another_shed():
    """Return the shed's text with other measures and the same names."""
    return demo_text("shed").replace("16'", "18'").replace("8'-1 1/8\"", "9'-1 1/8\"")


@pytest.fixture
def class_of_two(school):
    return morning_of(school)


def begun(shed, school_class, version, figure, *, ivys="12"):
    """Return an offer with the sign 1, an entry of a classmate, and the browser of a crew member."""
    SlipMark.objects.all().delete()
    SealedOffer.objects.all().delete()
    offer = SealedOffer.objects.create(
        pk=1, school=shed.school, school_class=school_class, version=version, figure=figure, tries=1
    )
    ivy = Member.objects.get(shown_as__startswith="Ivy")
    SealedEntry.objects.create(
        pk=1,
        offer=offer,
        member=ivy,
        entry=UUID(int=9),
        lines=[{"label": f"Ivy wrote {ivys}", "worked": "", "result": f"{ivys} ft2"}],
        answer=f"{ivys}",
        at="2026-01-05T15:00Z",
    )
    return offer, browser_of(Member.objects.get(shown_as="Cal O."))


def way(shed, school_class, version, figure, *, only="", **more):
    """Return what a crew member is told before and after handing in."""
    _offer, browser = begun(shed, school_class, version, figure, **more)
    said = list(everything(browser, only=only))
    said.append(("hand in", told(browser.post("/sealed/1/", ASKED))))
    SealedEntry.objects.filter(entry=SIGN).update(at="2026-01-05T15:05Z")
    return [*said, *everything(browser, only=only)]


@pytest.mark.parametrize("figure", FIGURES)
def test_no_byte_tells_a_student_one_sealed_answer_from_another(shed, class_of_two, figure):
    first = shed.newest
    other = House.objects.get(pk=shed.pk)
    hidden = add_version(other, name=other.name, file_name="shed.yaml", text=another_shed())
    only = "" if figure == FIGURES[0] else "sealed:"
    ways = [way(shed, class_of_two, version, figure, only=only) for version in (first, hidden)]
    answers = [
        diagnoser_of(SealedOffer(version=version, figure=figure, school_class=class_of_two))
        for version in (first, hidden)
    ]
    right = [diagnoser.right[diagnoser.figure.last.key] for diagnoser in answers]
    assert right[0] != right[1]
    assert [what for (what, a), (_, b) in zip(*ways, strict=True) if a != b] == []


GATES = ["/houses/practice-shed/gates/", "/houses/practice-shed/gates/surfaces/workroom/north/"]


@pytest.mark.parametrize("figure", [*FIGURES[:2], "wall/north wall/studs", "house/perimeter"])
def test_the_gates_of_a_house_tell_no_measure_while_it_is_sealed(shed, class_of_two, figure):
    offer, browser = begun(shed, class_of_two, shed.newest, figure)
    first = [told(browser.get(address))[3] for address in GATES]
    add_version(shed, name=shed.name, file_name="shed.yaml", text=another_shed())
    second = [told(browser.get(address))[3].replace(b"<dd>2</dd>", b"<dd>1</dd>") for address in GATES]
    assert first == second
    assert all(b"is sealed for your class" in page for page in first)
    SealedOffer.objects.filter(pk=offer.pk).update(opened_at=timezone.now())
    opened = [browser.get(address).content for address in GATES]
    assert not any(b"is sealed for your class" in page for page in opened)
    measure = re.compile(rb"\d+(?:'|&#x27;)-\d+")
    assert measure.search(opened[1])
    assert not measure.search(first[1])


def test_what_lies_behind_a_wall_is_drawn_for_whoever_teaches_and_for_other_rooms(desk, shed, class_of_two):
    begun(shed, class_of_two, shed.newest, FIGURES[0])
    for address in GATES:
        assert b"is sealed for your class" not in desk.get(address).content


def test_no_byte_tells_a_student_what_a_classmate_wrote(shed, class_of_two):
    ways = [way(shed, class_of_two, shed.newest, FIGURES[0], ivys=n, only="sealed:") for n in ("12", "4711")]
    assert [what for (what, a), (_, b) in zip(*ways, strict=True) if a != b] == []
    assert all(b"Ivy wrote" not in body for _what, (_s, _h, _c, body) in ways[1])


def test_once_opened_the_answers_are_told_apart_but_classmates_stay_hidden(shed, class_of_two):
    hidden = add_version(shed, name=shed.name, file_name="shed.yaml", text=another_shed())
    pages = []
    for version in (House.objects.get(pk=shed.pk).versions.order_by("number")[0], hidden):
        offer, browser = begun(shed, class_of_two, version, FIGURES[1])
        offer.opened_at = "2026-01-05T16:00Z"
        offer.save()
        pages.append(told(browser.get("/sealed/1/")))
    assert pages[0] != pages[1]
    assert b"Ivy" not in pages[0][3]


def test_the_work_of_a_crew_does_not_tell_what_is_sealed(shed, class_of_two, school):
    """The ceiling of the workroom is as large as its floor: 176 ft2 of boards."""
    cal = Member.objects.get(shown_as="Cal O.")
    take_tasks(shed)
    begins = timezone.now() - timedelta(minutes=5)
    facts = {"school": school, "school_class": class_of_two, "house": shed, "begins": begins, "minutes": 90}
    crew = PeriodCrew.objects.create(period=ClassPeriod.objects.create(**facts), number=1)
    CrewSeat.objects.create(period=crew.period, crew=crew, member=cal)
    ceiling = shed.tasks.get(label__contains="ceilings")
    CrewWork.objects.create(crew=crew, task=ceiling, order=0)
    offer, browser = begun(shed, class_of_two, shed.newest, FIGURES[1])
    said = browser.get("/today/").content
    assert ceiling.label.encode() in said
    assert b"176" not in said
    SealedOffer.objects.filter(pk=offer.pk).update(opened_at=begins)
    assert b"176" in browser.get("/today/").content


def test_a_student_of_another_class_finds_nothing(shed, class_of_two, school):
    from setday.web.keeping.members import keep_class, keep_member

    begun(shed, class_of_two, shed.newest, FIGURES[0])
    other = keep_class(school, name="Afternoon")
    dee = keep_member(school, name="Dee Park", shown_as="Dee P.", school_class=other)
    assert browser_of(dee).get("/sealed/1/").status_code == 404
    assert b"workroom" not in browser_of(dee).get("/sealed/").content
