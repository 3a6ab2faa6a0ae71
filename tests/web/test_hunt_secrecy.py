"""Two faults that look alike so far: no address a crew can reach tells them apart by one byte."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from setday.actions.switching.hookups import example_text
from setday.actions.switching.hunts import asked, begun, box_opened, faults_by_box, hunt_ground
from setday.files import read_hookup, read_test
from setday.web.access import TABLE
from setday.web.hunts import crews, worker
from setday.web.keeping.models import Hunt
from setday.web.keeping.people import first_school
from tests.web.screens import ADDRESSES

NAME = "three-way-light-between"
HALL = read_hookup(example_text(NAME), name="hall").sound()
BURNT = "The lamp in L1 is burnt out, or not screwed in."
LOOSE = "Box 'light': L1 brass is not joined to N2 black."
UP = {"handle-0": "1", "handle-1": "1"}
OPEN = {**UP, "do": "open:2", "dead-2": "yes"}
ASKED = [
    {**UP, "do": "look"},
    {"handle-0": "0", "handle-1": "1", "do": "look"},
    {"handle-0": "0", "handle-1": "1", "do": "look"},
    OPEN,
    {**UP, "do": "dead:2", "first-2": "S2 common", "second-2": "S2 traveler 1"},
    {**UP, "do": "dead:2", "first-2": "S2 common", "second-2": "S2 green"},
    {**UP, "do": "dead:2", "first-2": "S2 common", "second-2": "S2 common"},
    {"do": "nonsense"},
]
NAMES = [
    {"kind": "burnt_lamp", "first": "L1"},
    {"kind": "missing", "first": "light: L1 brass"},
    {"kind": "dead_switch", "first": "S1"},
]
GETS = ["?kind=moved", "?kind=burnt_lamp&first=L1", "?as=1", "?version=1", "?next=/hunts/1/"]


@pytest.fixture
def same_chance(monkeypatch):
    """Let chance draw the same signs in both hunts: they are drawn before anything of the fault is known."""

    def start_anew():
        signs = iter("BCDFGHJKMNPQRSTVWXZ23456789")
        monkeypatch.setattr(crews, "_drawn", lambda length: "".join(next(signs) for _ in range(length)))

    return start_anew


def told(answer):
    """Return all that an answer says: status, headers, cookies by name, and body, less Django's own marks."""
    body = re.sub(rb'name="csrfmiddlewaretoken" value="\w+"', b"", b"".join(answer))
    headers = {name: value for name, value in answer.headers.items() if name != "Set-Cookie"}
    return answer.status_code, headers, sorted(answer.cookies), body


def everything_reached(browser):
    """Yield what every address of the site answers to a crew, asked for in every way."""
    for screen in sorted(TABLE):
        address = reverse(screen, kwargs=ADDRESSES[screen])
        for query in ("", *GETS):
            yield f"get {address}{query}", told(browser.get(address + query))
        yield f"head {address}", told(browser.head(address))
        yield f"htmx {address}", told(browser.get(address, headers={"HX-Request": "true"}))
        if screen not in {"hunts:leave", "hunts:enter", "hunts:room", "hunts:name"}:
            yield f"post {address}", told(browser.post(address, {"do": "open", "crew": "1"}))


def went_through(planted, *, name, start_anew, shown=False):
    """Return what a crew is told on its whole way through a hunt, address by address."""
    start_anew()
    Hunt.objects.all().delete()
    hunt = Hunt.objects.create(
        school=first_school(),
        pk=1,
        code=crews.free_code(), name="Hall light", file_name=f"{NAME}.yaml", text=example_text(NAME),
        planted=planted, drawn={"difficulty": "easy", "seed": 3}, plan_shown=shown,
    )  # fmt: skip
    worker.work_on_best(hunt.pk)
    browser, said = Client(), []
    came_in = browser.post("/hunt/", {"code": hunt.code, "name": "Blue hats"})
    said.append(("come in", told(came_in)))
    for number, form in enumerate(ASKED):
        said.append((f"ask {number}", told(browser.post("/hunt/room/", form))))
        said.append((f"see {number}", told(browser.get("/hunt/room/"))))
    said += everything_reached(browser)
    said.append(("name", told(browser.post("/hunt/name/", name))))
    said += everything_reached(browser)
    said.append(("leave", told(browser.post("/hunt/leave/"))))
    said.append(("see after", told(browser.get("/hunt/room/"))))
    return said


def alike():
    """Return faults that answer all that is asked here as the burnt-out lamp does, itself first."""
    ground = hunt_ground(HALL)
    wanted = _answers(ground, BURNT)
    found = {ground.group_of(ground.planted(BURNT).variant): BURNT}
    for at in faults_by_box(ground):
        for _kind, words in at.faults:
            if _answers(ground, words) == wanted:
                found.setdefault(ground.group_of(ground.planted(words).variant), words)
    return list(found.values())


def _answers(ground, words):
    log = box_opened(begun(HALL), "far", HALL)
    for line in (
        "S1 up, S2 up",
        "S1 down, S2 up",
        "S1 up, S2 up: dead, S2 common to S2 traveler 1 in far",
        "S1 up, S2 up: dead, S2 common to S2 green in far",
    ):
        log = asked(log, read_test(line, HALL), ground=ground, planted=ground.planted(words))
    return log


def test_the_faults_of_this_test_look_alike_so_far_and_further_tests_would_tell_them_apart():
    assert len(alike()) >= 5


@pytest.mark.parametrize(
    ("name", "shown"),
    [(NAMES[0], False), (NAMES[1], True), (NAMES[2], False)],
    ids=["right for one", "wrong", "wrong too"],
)
def test_no_byte_tells_faults_apart_that_look_alike_so_far(db, instructor, same_chance, name, shown):
    first, *others = [
        went_through(words, name=name, start_anew=same_chance, shown=shown)
        for words in (BURNT, *alike()[-2:])
    ]
    assert len(first) > 2 * len(TABLE)
    for way in others:
        assert [what for what, _ in way] == [what for what, _ in first]
        assert [what for (what, one), (_, other) in zip(first, way, strict=True) if one != other] == []


def test_the_comparison_does_see_a_fault_that_looks_different(db, instructor, same_chance):
    ways = [
        went_through(words, name=NAMES[0], start_anew=same_chance)
        for words in (BURNT, "Switch S2 is dead: it never closes.")
    ]
    assert [what for (what, one), (_, other) in zip(*ways, strict=True) if one != other]


def test_no_answer_to_a_crew_holds_the_words_of_the_fault(db, instructor, same_chance):
    ways = went_through(LOOSE, name=NAMES[0], start_anew=same_chance)
    assert [what for what, (_s, headers, _c, body) in ways if b"L1 brass is not joined" in body] == []
    assert [what for what, (_s, headers, _c, _b) in ways if "brass" in str(headers)] == []


def test_the_session_of_a_crew_holds_nothing_but_which_crew_it_is(db, same_chance):
    same_chance()
    hunt = Hunt.objects.create(
        school=first_school(),
        code="BCDFG",
        name="Hall",
        file_name=f"{NAME}.yaml",
        text=example_text(NAME),
        planted=BURNT,
    )
    browser = Client()
    browser.post("/hunt/", {"code": hunt.code, "name": "Blue hats"})
    for form in ASKED:
        browser.post("/hunt/room/", form)
        browser.get("/hunt/room/")
    assert set(browser.session.keys()) <= {"hunt_crew"}


def test_once_opened_the_two_are_told_apart(db, instructor, same_chance):
    same_chance()
    hunt = Hunt.objects.create(
        school=first_school(),
        code="BCDFG",
        name="Hall",
        file_name=f"{NAME}.yaml",
        text=example_text(NAME),
        planted=LOOSE,
    )
    browser = Client()
    browser.post("/hunt/", {"code": hunt.code, "name": "Blue hats"})
    assert b"L1 brass is not joined" not in browser.get("/hunt/room/").content
    hunt.opened = True
    hunt.save()
    assert b"L1 brass is not joined" in browser.get("/hunt/room/").content
