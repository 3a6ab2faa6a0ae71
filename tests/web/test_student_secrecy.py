"""A student's session at every address of the site: nothing of other students, nothing sealed.

That no byte of a sealed figure tells its answer is tried in `test_sealed_secrecy`, of a hunt in
`test_hunt_secrecy`; here it is what others are, and what a kept hookup holds.
"""

from datetime import date

import pytest
from django.urls import reverse

from setday.actions.switching.hookups import example_text
from setday.web.keeping.hookups import hookup_of, keep_hookup
from setday.web.keeping.members import keep_class, keep_member
from setday.web.keeping.models import Hunt, Member, MemberSignOff
from setday.web.people.codes import make_card
from tests.web.people import browser_of, morning_of, one_of
from tests.web.screens import ADDRESSES

BURNT = "The lamp in L1 is burnt out, or not screwed in."
HALL = "three-way-light-between"
ASKED = [{}, {"HX-Request": "true"}, {"Accept": "application/json"}]


@pytest.fixture
def others(school, instructor, shed):
    """Fill the school with what is not Cal's; return every word that must stay unsaid."""
    ivy = morning_of(school).members.get(key="ivy-l")
    Member.objects.filter(pk=ivy.pk).update(born=date(2008, 11, 30), number="A-4417")
    MemberSignOff.objects.create(member=ivy, what="miter saw", on=date(2026, 9, 1), by="Lou Field")
    keep_member(school, name="Oz Lee", school_class=keep_class(school, name="Afternoon"), number="B-2210")
    one_of(school, "helper", name="Dee Park")
    code = make_card(ivy)
    keep_hookup(school=school, name="Hall light", file_name="hall.yaml", text=example_text(HALL))
    facts = {"name": "Porch", "file_name": "porch.yaml", "text": example_text(HALL)}
    Hunt.objects.create(school=school, code="BCDFG", planted=BURNT, **facts)
    return [
        *("Ivy Lind", "A-4417", "2008-11-30", "Nov. 30, 2008", "miter saw", "Lou Field"),
        *("Oz L", "B-2210", "Afternoon", "Dee Park", code, code[5:], "BCDFG", "burnt out", "joins:"),
    ]


@pytest.mark.parametrize("headers", ASKED, ids=["page", "part of a page", "JSON"])
def test_no_address_tells_a_student_anything_of_others(school, others, headers):
    browser = browser_of(Member.objects.get(key="cal-o"))
    told = []
    for screen, names in ADDRESSES.items():
        answer = browser.get(reverse(screen, kwargs=names), headers=headers)
        said = b"".join(answer).decode("utf-8", "replace") + str(dict(answer.headers))
        told += [(screen, word) for word in others if word in said]
    assert told == []


def test_the_instructor_is_told_every_one_of_them_but_the_code(desk, school, others):
    hunt, kept = Hunt.objects.get(), hookup_of(school, "hall-light")
    addresses = (
        *("/people/", "/people/classes/morning/", "/people/classes/afternoon/", "/people/accounts/"),
        *("/people/members/ivy-l/", "/people/members/oz-l/"),
        *(f"/hunts/{hunt.pk}/", f"/hookups/{kept.key}/file/"),
    )
    said = "".join(desk.get(address).content.decode() for address in addresses)
    unsaid = {word for word in others if word not in said} - {"2008-11-30", "Nov. 30, 2008"}
    assert all(word.replace("-", "").isdecimal() for word in unsaid), "all but the digits of the card"


def test_classmates_are_read_by_their_short_names_only(school, others):
    said = browser_of(Member.objects.get(key="cal-o")).get("/present/").content.decode()
    assert "Ivy L." in said
    assert "Ivy Lind" not in said
