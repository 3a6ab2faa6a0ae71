"""The class file of a house in the browser: begun, checked, kept, versions, handed out."""

import pytest

from setday.actions.classes import demo_class_text
from tests.web.people import browser_of, one_of
from tests.web.timetables import FEW, kept_file

AT = "/houses/practice-shed/timetable/class/"


def test_a_house_without_a_class_file_is_asked_for_one(desk, shed):
    assert desk.get(AT).headers["Location"] == f"{AT}edit/"


def test_the_form_can_begin_with_the_class_file_of_the_demo(desk, shed):
    assert desk.get(f"{AT}edit/?start=demo").context["form"].initial["text"] == demo_class_text()


def test_a_class_file_is_kept_to_the_letter(desk, shed):
    answer = desk.post(f"{AT}edit/", {"text": FEW})
    assert (answer.status_code, shed.class_files.get().text) == (302, FEW)


def test_a_class_file_with_a_fault_is_kept_by_nobody_and_its_line_named(desk, shed):
    wrong = FEW.replace("first day: 2027-01-11", "first day: soon")
    answer = desk.post(f"{AT}edit/", {"text": wrong})
    marked = [row.text.strip() for row in answer.context["rows"] if row.mark == "problem"]
    assert (answer.status_code, marked, shed.class_files.count()) == (422, ["first day: soon"], 0)


def test_a_refused_class_file_keeps_what_was_typed(desk, shed):
    wrong = FEW.replace("first day: 2027-01-11", "first day: soon")
    answer = desk.post(f"{AT}edit/", {"text": wrong, "note": "earlier"})
    form = answer.context["form"]
    assert (form.initial["text"], form.initial["note"]) == (wrong, "earlier")


@pytest.mark.parametrize("sent", [{}, {"text": "  "}, {"text": "- a list"}, {"text": "setday house: 1"}])
def test_what_is_no_class_file_is_refused_with_words(desk, shed, sent):
    answer = desk.post(f"{AT}edit/", sent)
    assert (answer.status_code, shed.class_files.count()) == (422, 0)


def test_checking_says_what_is_wrong_and_keeps_nothing(desk, shed):
    answer = desk.post(f"{AT}check/", {"text": FEW.replace("minutes]", "hours]")})
    assert (answer.status_code, shed.class_files.count()) == (200, 0)
    assert "8:05" in answer.content.decode()


def test_every_version_stays_and_the_newest_is_in_force(desk, shed):
    kept_file(shed)
    desk.post(f"{AT}edit/", {"text": FEW.replace("Ned Sorensen", "Ned Sorrel"), "note": "a name"})
    shown = desk.get(AT).content.decode()
    assert ("Ned Sorrel" in shown, "Ned Sorrel" in desk.get(f"{AT}?version=1").content.decode()) == (
        True,
        False,
    )


def test_a_class_file_is_handed_out_to_the_letter(desk, shed):
    kept_file(shed)
    assert desk.get(f"{AT}download/").content.decode() == FEW


@pytest.mark.parametrize("page", ["", "edit/", "download/"])
def test_a_helper_does_not_read_the_class_file(shed, school, page):
    kept_file(shed)
    assert browser_of(one_of(school, "helper", name="Dee Park")).get(AT + page).status_code == 403


@pytest.mark.parametrize("number", ["7", "x", "-1", "99999999999"])
def test_a_version_that_never_was_is_not_found(desk, shed, number):
    kept_file(shed)
    assert desk.get(f"{AT}?version={number}").status_code == 404


def test_a_class_file_of_another_schools_house_is_not_found(desk, db):
    assert desk.get("/houses/elsewhere/timetable/class/").status_code == 404
