"""Every role at every address: what it may open, and how it is refused."""

import pytest
from django.test import Client
from django.urls import reverse

from setday.web.access import BENCH_CREW, HUNT_CREW, TABLE, Role, may
from tests.web.people import browser_of, morning_of, one_of
from tests.web.screens import ADDRESSES

DOOR = {
    *(f"desk:{name}" for name in ("begin", "sign-in", "sign-out", "language", "help")),
    *("people:card", "people:choose", "people:device", "hunts:enter", "switching:enter"),
}
HUNT = {"hunts:room", "hunts:name", "hunts:leave"}
BENCH = {f"switching:{name}" for name in ("bench", "bench-try", "bench-judge", "bench-plan", "leave")}
OWN = {
    *("people:mine", "people:present"),
    *(f"period:{name}" for name in ("today", "own-hours", "mark", "fix", "note")),
}
LOOKED_AT = {f"houses:{name}" for name in ("list", "house", "rooms", "wall", "surface")}
TIMETABLE = {f"timetable:{name}" for name in ("plan", "run", "progress", "period", "odds")}
GATES = {"gates:list", "gates:plan", "gates:surface", "photos:one"}
READERS = {"period:progress"}
SEALED = {"sealed:mine", "sealed:try", "sealed:lay"}
KEEPERS = {"people:schools"}
NOT_A_HELPERS = {
    *(f"houses:{name}" for name in ("put-away", "new", "check", "edit")),
    *(f"buying:{name}" for name in ("prices", "prices-download", "stock", "stock-download")),
    *("switching:away", "switching:put-away", "cable:write"),
    *(f"period:{name}" for name in ("take", "new-task", "hours", "class-hours", "hours-csv", "hours-pdf")),
    "period:release",
    *(f"gates:{name}" for name in ("overrule", "add", "strike", "close", "open", "helpers")),
    *(f"timetable:{name}" for name in ("file", "edit", "check", "download", "undo", "begin", "stop", "hand")),
    *(f"timetable:{name}" for name in ("change", "school", "repair", "begin-odds", "begin-reasons")),
    "sealed:odds",
    *(name for name in ADDRESSES if name.startswith("people:") and name not in DOOR | OWN),
}
"""What only an instructor does: houses, lists and people are changed by nobody else."""

EVERYTHING = set(ADDRESSES)
ALLOWED = {
    Role.OUTSIDER: DOOR,
    Role.CREW: DOOR | HUNT,
    Role.BENCH: DOOR | BENCH,
    Role.MEMBER: DOOR | HUNT | BENCH | OWN | GATES | SEALED | {"gates:mark"},
    Role.READER: DOOR | LOOKED_AT | GATES | READERS | TIMETABLE,
    Role.HELPER: EVERYTHING - NOT_A_HELPERS,
    Role.INSTRUCTOR: EVERYTHING - KEEPERS,
    Role.KEEPER: EVERYTHING,
}


@pytest.fixture
def browsers(school, instructor):
    """Return a function that gives the browser of somebody of a role."""

    def give(role):
        if role is Role.KEEPER:
            browser = Client()
            browser.force_login(instructor)
            return browser
        if role is Role.MEMBER:
            return browser_of(morning_of(school).members.get(key="cal-o"))
        if role in {Role.HELPER, Role.READER, Role.INSTRUCTOR}:
            return browser_of(one_of(school, role.value, name="Dee Park"))
        return seated(role)

    return give


SEATS = {Role.CREW: {HUNT_CREW: 1}, Role.BENCH: {BENCH_CREW: {"hookup": 1, "code": "BCDFG", "by": "Blue"}}}


def seated(role):
    """Return a browser in which nobody is signed in, but that came in by a code; the seat is gone since."""
    browser = Client()
    session = browser.session
    session.update(SEATS.get(role, {}))
    session.save()
    return browser


@pytest.mark.parametrize("role", list(Role))
def test_the_table_says_what_is_meant(role):
    assert {screen for screen in TABLE if may(role, screen)} == ALLOWED[role]


def refusal(answer, *, part):
    """Return how an answer refuses: led to the door, told no, or not at all."""
    door = {"/sign-in/", "/begin/"}
    if part and answer.status_code == 401 and answer.headers.get("HX-Redirect") in door:
        return "door"
    to_the_door = answer.headers.get("Location", "").partition("?")[0] in door
    if answer.status_code == 302 and to_the_door and not part:
        return "door"
    return "told no" if answer.status_code == 403 else "none"


def expected(role, screen, *, verb):
    """Return how a role is refused at a screen."""
    if screen in ALLOWED[role] and (verb == "get" or role is not Role.READER or screen in DOOR):
        return "none"
    if role in {Role.OUTSIDER, Role.CREW, Role.BENCH}:
        return "door"
    return "none" if role is Role.MEMBER and screen == "houses:list" else "told no"


@pytest.mark.parametrize("part", [False, True], ids=["page", "part of a page"])
@pytest.mark.parametrize("verb", ["get", "post"])
@pytest.mark.parametrize("role", list(Role))
def test_every_role_gets_what_it_may_at_every_address_and_no_more(browsers, shed, role, verb, part):
    browser = browsers(role)
    headers = {"HX-Request": "true"} if part else {}
    wrong = []
    for screen, names in ADDRESSES.items():
        if screen in DOOR - {"desk:help"} or screen.endswith(("away", "leave")):
            continue  # these change who is there, or take away what the next address names
        browser = seated(role) if role in SEATS else browser  # a seat that is gone is given up at once
        answer = getattr(browser, verb)(reverse(screen, kwargs=names), headers=headers)
        if refusal(answer, part=part) != expected(role, screen, verb=verb) and not led_back(answer):
            wrong.append((screen, answer.status_code, refusal(answer, part=part)))
    assert wrong == []


def led_back(answer):
    """Return whether a crew is led from a closed room or bench to the door of rooms and benches."""
    return answer.headers.get("Location", "") in {"/hunt/", "/bench/"}


def test_a_student_who_asks_for_the_houses_comes_to_their_own_sheet(browsers):
    assert browsers(Role.MEMBER).get("/").headers["Location"] == "/mine/"


def test_a_reader_may_look_at_a_house_and_change_nothing(browsers, shed):
    browser = browsers(Role.READER)
    assert browser.get("/houses/practice-shed/").status_code == 200
    assert browser.post("/houses/practice-shed/").status_code == 403
    assert browser.post("/language/", {"language": "es", "next": "/"}).status_code == 302


def test_a_member_who_was_put_away_is_an_outsider(browsers, school):
    browser = browsers(Role.HELPER)
    assert browser.get("/").status_code == 200
    school.members.filter(name="Dee Park").update(active=False)
    assert browser.get("/").headers["Location"].startswith("/sign-in/")


def test_students_of_a_class_that_was_put_away_are_outsiders(browsers, school):
    browser = browsers(Role.MEMBER)
    assert browser.get("/mine/").status_code == 200
    school.classes.update(put_away=True)
    assert browser.get("/mine/").headers["Location"].startswith("/sign-in/")
