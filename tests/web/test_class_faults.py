"""Class files that cannot be: each fault told with its line at the command line and on the class page."""

import datetime
import importlib
from importlib.resources import files as package_files

import pytest

from tests.web.timetables import FEW, kept_file

AT = "/houses/practice-shed/timetable/"
SHED = str(package_files("setday.demo") / "shed.yaml")
TODAY = datetime.date(2026, 12, 1)
EVENING = "  evening:\n    name: Evening class\n    meets: [Mon at 18:00 for 60 minutes]\n\nstudents:"
CRANE = "  crane work:\n    trade: haul\n    place: house\n    hours: 2\n    signoffs: crane\n"


@pytest.fixture(autouse=True)
def before_any_set_day(monkeypatch):
    importlib.import_module("setday.cli.app")  # it brings in its verbs in their order
    monkeypatch.setattr("setday.cli.timetable.today", lambda: TODAY)


def with_(*changes):
    """Return the class file with some words replaced, each once."""
    text = FEW
    for old, new in changes:
        assert text.count(old) >= 1
        text = text.replace(old, new, 1)
    return text


LOOP = ("  house wrap:\n    trade: siding\n", "  house wrap:\n    trade: siding\n    after: lap siding\n")
NOBODY = ("  insulate:\n", f"{CRANE}  insulate:\n")
HOLDS_ONE = ("yard: 8", "yard: 1")
PAST = ("  set day: 2027-06-10", "  set day: 2026-11-30")
PAST_TOO = ("  first day: 2027-01-11", "  first day: 2026-09-07")
OVERLAP = ("for 100 minutes]", "for 100 minutes, Tue at 9:00 for 60 minutes]")
NO_STUDENT = ("\nstudents:", f"\n{EVENING}")
LATE = ("    hours: 30\n", "    hours: 30\n    material due: 2027-06-20\n")

FAULTS = {
    "a loop": (LOOP, "house wrap:", "'house wrap' -> 'lap siding' -> 'house wrap'"),
    "a task no one may do": (NOBODY, "crane work:", "nobody may do it: the sign-off 'crane' is missing"),
    "a place that holds nobody": (("yard: 8", "yard: 0"), "places:", "'0' is not a number from 1 to 999"),
    "a place too small": (HOLDS_ONE, "house wrap:", "it takes a crew of 2, and yard holds 1"),
    "periods that overlap": (OVERLAP, "meets:", "lasts 100 minutes, into that of the same class at 09:00"),
    "an empty class": (NO_STUDENT, "meets: [Mon at", "nobody is in it"),
    "material after set day": (LATE, "lap siding:", "its material is due 20 June 2027, and set day is"),
}


def line_of(text, words):
    return next(number for number, line in enumerate(text.splitlines(), 1) if words in line)


def at_the_command_line(capsys, tmp_path, text):
    """Return what ends a search at the command line, line by line, with its status."""
    from setday.cli import main

    path = tmp_path / "class.yaml"
    path.write_text(text, encoding="utf-8")
    status = main(["timetable", "solve", SHED, str(path), "--time-limit", "0.2", "--workers", "1"])
    out, err = capsys.readouterr()
    assert (out, "Traceback" in err) == ("", False)
    return status, err.splitlines()


@pytest.mark.parametrize(("change", "at", "said"), FAULTS.values(), ids=FAULTS.keys())
def test_the_command_line_says_what_where_and_ends_with_two(capsys, tmp_path, change, at, said):
    text = with_(change)
    status, lines = at_the_command_line(capsys, tmp_path, text)
    place = f"class.yaml:{line_of(text, at)}: "
    assert (status, any(place in line and said in line for line in lines)) == (2, True)


@pytest.mark.parametrize(("change", "at", "said"), FAULTS.values(), ids=FAULTS.keys())
def test_the_class_page_says_it_beside_the_line_and_keeps_what_was_typed(desk, shed, change, at, said):
    text = with_(change)
    answer = desk.post(f"{AT}class/edit/", {"text": text, "file_name": "class.yaml"})
    lines = [each.where.line for each in answer.context["findings"] if said in each.found]
    assert (answer.status_code, lines[:1]) == (422, [line_of(text, at)])
    assert at in answer.context["form"]["text"].value()
    assert shed.class_files.count() == 0


def test_seven_faults_of_one_file_are_told_in_one_go(desk, shed, capsys, tmp_path):
    """A passed set day is a question on the class page: the file may be kept for the records."""
    changes = (LOOP, NOBODY, HOLDS_ONE, OVERLAP, NO_STUDENT, PAST, PAST_TOO)
    late = ("    hours: 30\n", "    hours: 30\n    material due: 2027-01-20\n")
    text = with_(*changes, late)
    told = (
        "'house wrap' -> 'lap siding' -> 'house wrap'",
        "the sign-off 'crane' is missing",
        "and yard holds 1",
        "into that of the same class at 09:00",
        "nobody is in it",
        "it has passed",
        "its material is due 20 January 2027",
    )
    status, lines = at_the_command_line(capsys, tmp_path, text)
    assert (status, [words for words in told if not any(words in line for line in lines)]) == (2, [])
    page = desk.post(f"{AT}class/edit/", {"text": text, "file_name": "class.yaml"})
    found = [each.found for each in page.context["findings"]]
    missing = [words for words in told if not any(words in line for line in found)]
    assert (page.status_code, missing) == (422, [])


def test_nothing_is_searched_for_before_a_set_day_that_has_passed(desk, shed, monkeypatch):
    from setday.web.keeping.models import TimetableRun

    kept_file(shed)
    monkeypatch.setattr("setday.web.timetable.past.today", lambda: datetime.date(2027, 6, 10))
    answer = desk.post(f"{AT}search/", {"seconds": "120"})
    said = answer.content.decode()
    assert (answer.status_code, "has passed" in said, TimetableRun.objects.count()) == (422, True, 0)
    assert 'value="120" selected' in said


def test_the_day_before_set_day_is_searched(desk, shed, monkeypatch):
    from setday.web.timetable import views_runs

    kept_file(shed)
    monkeypatch.setattr("setday.web.timetable.past.today", lambda: datetime.date(2027, 6, 9))
    monkeypatch.setattr(views_runs, "begin", lambda run: None)
    assert desk.post(f"{AT}search/", {"seconds": "5"}).status_code == 302


def test_a_class_file_whose_set_day_has_passed_is_asked_about_and_may_be_kept(desk, shed, monkeypatch):
    monkeypatch.setattr("setday.web.timetable.past.today", lambda: datetime.date(2027, 8, 1))
    sent = {"text": FEW, "file_name": "class.yaml"}
    asked = desk.post(f"{AT}class/edit/", sent)
    assert (asked.status_code, ["it has passed" in each.found for each in asked.context["findings"]]) == (
        422,
        [True],
    )
    desk.post(f"{AT}class/edit/", {**sent, "as_meant": "yes"})
    assert shed.class_files.count() == 1
