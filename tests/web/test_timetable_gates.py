"""The gates in the records, read by the searches of the site and shown beside the timetable."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest

from tests.web.people import browser_of, one_of
from tests.web.timetables import searched

AT = "/houses/practice-shed/timetable/"
NOW = datetime(2027, 1, 8, 9, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def afresh():
    """Forget what the site keeps in memory: the records of every test begin at the same numbers."""
    from setday.web.timetable.figured import forget

    forget()


def gates_of(house):
    from setday.web.gates.house import gates_in_force

    return gates_in_force(house)


def mark(house, stand, kind, words=""):
    """Write a mark on one thing as the instructor."""
    from setday.closein import Mark, MarkKind, Role, Signer
    from setday.web.keeping.gate_store import DjangoGates

    DjangoGates(house=house).write(
        Mark(entry=str(uuid4()), surface=stand.item.surface, item=stand.item.key, label=stand.item.label,
             kind=MarkKind(kind), by=Signer(key="t", name="R. Halvorsen", role=Role.INSTRUCTOR), at=NOW,
             words=words),
        version=house.newest.number,
    )  # fmt: skip


@pytest.fixture
def seen(shed):
    """Confirm everything at every gate of the shed."""
    for gate in gates_of(shed).by_surface.values():
        for stand in gate.items:
            mark(shed, stand, "confirmed")
    return shed


def begins(run):
    return {each["key"]: each["begins"] for each in run.document["tasks"]}


def test_before_any_mark_everything_is_looked_at_before_its_boards(shed):
    run = searched(shed)
    looked = [day for key, day in begins(run).items() if key.startswith("look/")]
    hung = [day for key, day in begins(run).items() if key.startswith("boards/hang/")]
    assert looked
    assert begins(run)["inspect/framing"] <= min(looked) < min(hung)


def test_what_was_seen_and_inspected_is_not_planned_again(seen):
    """The shed names no devices, so its gates ask for no inspection of wiring: that one stays."""
    found = begins(searched(seen))
    asked = {key: day for key, day in found.items() if key.startswith(("look/", "inspect/"))}
    assert {key for key, day in asked.items() if day} == {"inspect/rough electrical"}


def test_the_page_says_which_boards_are_free(desk, seen):
    searched(seen)
    held = desk.get(AT).context["held_boards"]
    assert {(each.open, each.to_see) for each in held} == {(each.surfaces, 0) for each in held}
    assert not [each for each in held if each.too_early]


def test_what_is_refused_later_is_told_until_a_repair_looks_again(desk, seen):
    first = searched(seen)
    gate = next(iter(gates_of(seen).by_surface.values()))
    mark(seen, gate.items[0], "refused", words="a corner without backing")
    page = desk.get(AT)
    assert page.context["boards_too_early"]
    assert "This timetable hangs boards before their gates open" in page.content.decode()
    again = searched(seen, before=first, kind="repaired", options={"seconds": 0.3, "workers": 1})
    days = begins(again)
    room = gate.surface.partition("/")[0]
    assert any(key.startswith("look/") and days[key] for key in days)
    assert not desk.get(AT).context["boards_too_early"], room


def test_a_reader_sees_the_gates_without_what_is_missing_in_them(school, shed):
    searched(shed)
    reader = browser_of(one_of(school, "reader", name="R"))
    page = reader.get(AT).content.decode()
    assert "Gates before the boards" in page
    assert "backing at every corner" not in page


def test_a_house_whose_gates_cannot_be_read_still_shows_its_timetable(desk, shed, monkeypatch):
    from setday.errors import NoAnswer
    from setday.web.timetable import shown

    def failing(run):
        raise NoAnswer("They are of another file.")

    searched(shed)
    monkeypatch.setattr(shown, "held_boards", failing)
    page = desk.get(AT)
    assert (page.status_code, page.context["gates_unread"]) == (200, "They are of another file.")


def test_the_gates_are_handed_out_as_the_file_the_command_line_reads(desk, seen):
    from setday.closein import standings_of
    from setday.files import read_gates

    read = read_gates(desk.get(f"{AT}gates.yaml").content, name="gates.yaml")
    assert (read.findings, read.standings) == ((), standings_of(gates_of(seen)))
