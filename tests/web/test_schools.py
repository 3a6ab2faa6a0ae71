"""Several schools in one installation: none sees anything of another."""

import ast
import re
from datetime import date
from pathlib import Path

import pytest
from django.urls import reverse
from django.utils import timezone

import setday.web
from setday.actions.switching.hookups import example_text
from setday.web.keeping.houses import keep_house
from setday.web.keeping.lists import keep_list, newest
from setday.web.keeping.members import keep_member, keep_school
from setday.web.keeping.models import (
    BoardRun,
    ClassPeriod,
    Device,
    FaultSearch,
    House,
    Hunt,
    KeptHookup,
    MemberRole,
    MemberSignOff,
    PriceList,
    SealedOffer,
    StockCount,
)
from tests.web.people import browser_of, morning_of, one_of
from tests.web.screens import ADDRESSES

NAME = "three-way-light-between"
OF_NO_SCHOOL = {"hunts:plant", "hunts:begin-search"}
"""Their samples name a standard circuit; of a hookup that was kept they are tried apart."""

CREWS_OWN = {"sealed:try", "sealed:lay"}
"""Who is no crew member is led to the houses, whatever the address names."""


@pytest.fixture
def full(school, shed, hall, laid_out):
    """Fill the first school: one of everything an address can name."""
    House.objects.update(name="Our own shed")
    KeptHookup.objects.update(name="Light of ours")
    text = example_text(NAME)
    facts = {"school": school, "name": "Porch of ours", "file_name": "porch.yaml", "text": text}
    hunt = Hunt.objects.create(code="BCDFG", planted="lamp lamp burnt out", **facts)
    search = FaultSearch.objects.create(**facts)
    keep_list(PriceList, school=school, file_name="our prices.csv", text="item\n")
    keep_list(StockCount, school=school, file_name="our stock.csv", text="item,quantity\n")
    cal = morning_of(school).members.get(key="cal-o")
    signed = MemberSignOff.objects.create(member=cal, what="drill", on=date(2026, 9, 1), by="Ana Ruiz")
    device = Device.objects.create(school=school, name="Tablet of ours", digest="x")
    keep_member(school, name="Dee Park", shown_as="Dee Park", role=MemberRole.HELPER)
    begins = timezone.now()
    morning = cal.school_class
    period = ClassPeriod.objects.create(
        school=school, school_class=morning, house=shed, begins=begins, minutes=90
    )
    offer = SealedOffer.objects.create(
        school=school, school_class=morning, version=shed.newest, figure="room/workroom/boards"
    )
    return {
        "hunts": hunt.pk,
        "faults": search.pk,
        "people:sign-off-away": signed.pk,
        "people:device-away": device.pk,
        "period": period.pk,
        "sealed": offer.pk,
    }


@pytest.fixture
def stranger(school):
    """Return the browser of another school's instructor."""
    return browser_of(one_of(keep_school(name="Elm Street"), "instructor", name="Lou Field"))


def named(screen, full):
    """Return what the address of a screen names in the first school."""
    names = dict(ADDRESSES[screen])
    group = screen.partition(":")[0]
    if "number" in names and group == "hunts":
        one = {"hunts:hunt", "hunts:crews", "hunts:change"}
        names["number"] = full["hunts" if screen in one else "faults"]
    elif "number" in names and (group in full or screen in full):
        names["number"] = full.get(screen) or full[group]
    return names


NAMING = sorted(
    screen for screen, names in ADDRESSES.items() if names and screen not in OF_NO_SCHOOL | CREWS_OWN
)


@pytest.mark.parametrize("screen", NAMING)
def test_another_schools_instructor_finds_nothing_at_any_address(stranger, full, screen):
    address = reverse(screen, kwargs=named(screen, full))
    answers = {stranger.get(address).status_code, stranger.post(address).status_code}
    assert answers <= {404, 405}
    assert 404 in answers


NOT_THERE = {
    *("cable:device", "cable:circuit", "cable:pulled", "switching:take"),
    *("gates:record", "gates:record-pdf", "photos:one", "period:release", "period:take-back", "sealed:mark"),
}
"""What is made in the course of work; `test_schools_filled` makes it, and timetables."""


@pytest.mark.parametrize(
    "screen", [each for each in NAMING if each not in NOT_THERE and not each.startswith("timetable:")]
)
def test_the_schools_own_instructor_finds_something_there(desk, full, screen):
    address = reverse(screen, kwargs=named(screen, full))
    assert {desk.get(address).status_code, desk.post(address).status_code} - {404, 405}


@pytest.mark.parametrize("screen", sorted(OF_NO_SCHOOL))
def test_no_fault_is_planted_or_sought_in_another_schools_hookup(stranger, full, screen):
    address = reverse(screen, kwargs={"source": "kept", "key": "hall-light"})
    assert stranger.post(address).status_code == 404


@pytest.mark.parametrize("screen", sorted(CREWS_OWN))
def test_another_schools_student_finds_no_sealed_figure(full, screen):
    other = keep_school(name="Elm Street")
    student = browser_of(morning_of(other).members.get(key="cal-o"))
    assert student.get(reverse(screen, kwargs={"number": full["sealed"]})).status_code == 404


OURS = (
    "Our own shed",
    "Light of ours",
    "Porch of ours",
    "our prices",
    "our stock",
    "Cal O",
    "Morning",
    "Dee Park",
)


@pytest.mark.parametrize("screen", sorted(name for name, names in ADDRESSES.items() if not names))
def test_no_list_names_anything_of_another_school(stranger, full, screen):
    if screen in {"desk:sign-out", "desk:help"}:
        pytest.skip("the words on it are the same for everybody")
    said = stranger.get(reverse(screen)).content.decode()
    assert [each for each in OURS if each in said] == []


def test_the_lists_of_ones_own_school_do_name_it(desk, full):
    said = "".join(
        desk.get(a).content.decode() for a in ("/", "/hookups/", "/prices/", "/people/", "/hunts/")
    )
    for each in ("Our own shed", "Light of ours", "our prices", "Morning", "Porch of ours"):
        assert each in said


def test_another_schools_house_and_prices_cannot_be_sent_along(stranger, full):
    own = House.objects.get(key="practice-shed")
    stranger.post("/houses/new/", {"text": own.newest.text, "file_name": "shed.yaml"})
    mine = House.objects.exclude(pk=own.pk).get()
    prices = PriceList.objects.get()
    answer = stranger.post(
        f"/houses/{mine.key}/boards/", {"seconds": "15", "prices": prices.pk, "offcuts": "", "longest": ""}
    )
    assert (answer.status_code, BoardRun.objects.filter(version__house=mine).count()) == (422, 0)
    stranger.post("/hookups/new/?house=practice-shed", {"text": example_text(NAME), "file_name": "a.yaml"})
    kept = KeptHookup.objects.exclude(key="hall-light").get()
    assert kept.house == mine, "the key is that of the school's own shed"


def test_the_same_key_may_be_in_two_schools(school, shed):
    other = keep_school(name="Elm Street")
    theirs = keep_house(school=other, name="Practice shed", file_name="a.yaml", text="x")
    assert (theirs.key, shed.key) == ("practice-shed", "practice-shed")


def test_lists_are_numbered_in_each_school_by_itself(school):
    other = keep_school(name="Elm Street")
    first = keep_list(PriceList, school=school, file_name="a.csv", text="a")
    theirs = keep_list(PriceList, school=other, file_name="b.csv", text="b")
    assert (first.number, theirs.number) == (1, 1)
    assert newest(PriceList, school=school) == first


def test_a_second_school_is_made_by_who_keeps_the_installation(desk, outsider):
    answer = desk.post("/people/schools/", {"do": "new", "name": "Elm Street", "instructor": "Lou Field"})
    code = re.search(r"\d{4}-\d{5}", answer.content.decode())[0]
    typed = {"code": code, "name": "Lou Field", "password": "a short flight of stairs"}
    assert outsider.post("/choose/", {**typed, "again": typed["password"]}).status_code == 302
    assert outsider.get("/people/").status_code == 200
    assert outsider.get("/people/schools/").status_code == 403
    assert "Elm Street" in outsider.get("/people/").content.decode()


# ------------------------------------------------- every query of the site goes through the school
OWNED = {
    *("House", "KeptHookup", "Hunt", "FaultSearch", "PriceList", "StockCount"),
    *("SchoolClass", "Member", "Device"),
}
WITHOUT_A_REQUEST = {
    "houses/demo.py": "puts the demo into an installation without houses",
    "houses/opening.py": "reads the first house ahead, shows nothing",
    "gates/house.py": "works the gates of houses with an open period out ahead, shows nothing",
    "hunts/worker.py": "works off what is in line",
    "hunts/crews.py": "finds the hunt by its own code, which no other has",
    "hunts/views_crew.py": "finds the hunt by its own code, which no other has",
    "switching/seats.py": "finds the bench by its own code, which no other has",
    "keeping/members.py": "writes",
    "keeping/people.py": "defines",
    "people/devices.py": "finds a device by its own code",
    "people/who.py": "finds out whose request it is",
    "people/way_back.py": "the command on the machine itself",
    "desk/door.py": "the first start",
}


BOUND = re.compile(r"\b(school|school_class|member__school)=|\bpk=[\w.]*\bpk\b")
"""In the statement: rows of a school in hand, or a row found through its school and held again."""


def unbound(path):
    """Return the lines of a module that ask for rows of a school, and not through it."""
    text = path.read_text(encoding="utf-8")
    for statement in ast.walk(ast.parse(text)):
        if not isinstance(statement, ast.stmt) or hasattr(statement, "body"):
            continue
        if BOUND.search(ast.get_source_segment(text, statement)):
            continue
        for node in ast.walk(statement):
            if isinstance(node, ast.Attribute) and asks_for_all(node):
                yield node.lineno


def asks_for_all(node):
    """Return whether an expression begins at all rows of what belongs to schools."""
    owner = node.value
    if not (isinstance(owner, ast.Attribute) and owner.attr == "objects"):
        return False
    named = isinstance(owner.value, ast.Name) and owner.value.id in OWNED
    return named and node.attr not in {"of", "create", "none"}


def test_every_page_asks_through_its_school():
    root = Path(setday.web.__file__).parent
    places = {path.relative_to(root).as_posix(): path for path in root.rglob("*.py")}
    asked = [
        place for place in sorted(places) if "migrations" not in place and place not in WITHOUT_A_REQUEST
    ]
    assert [f"{place}:{line}" for place in asked for line in unbound(places[place])] == []


@pytest.mark.parametrize(
    ("line", "free"),
    [
        ("House.objects.filter(key=key).first()", True),
        ("houses = list(House.objects.all())", True),
        ("House.objects.of(request.school).filter(key=key)", False),
        ("Member.objects.filter(school_class=shown.school_class)", False),
        ("House.objects.select_for_update().get(pk=house.pk)", False),
        ("House.objects.get(pk=number)", True),
    ],
)
def test_what_asks_for_every_schools_rows_is_seen(tmp_path, line, free):
    path = tmp_path / "views.py"
    path.write_text(f"{line}\n")
    assert bool(list(unbound(path))) == free
