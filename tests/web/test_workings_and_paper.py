"""Every figure opened, and sets of sheets as PDF."""

import pytest

from setday.web.boards.figuring import figured


def page(answer):
    return answer.content.decode()


def test_before_a_layout_the_count_by_area_is_there(desk, shed):
    assert "Sheets for the house, by area" in page(desk.get("/houses/practice-shed/workings/"))


def test_every_working_is_listed_and_opens(desk, laid_out):
    listed = page(desk.get("/houses/practice-shed/workings/"))
    for working in figured(laid_out).workings:
        assert working.title in listed
        alone = desk.get(f"/houses/practice-shed/workings/{working.key}/")
        assert alone.status_code == 200
        assert page(alone).count("<li><div>") == len(working.steps)


def test_a_working_names_its_sources(desk, laid_out):
    working = next(each for each in figured(laid_out).workings if each.sources)
    assert working.sources[0].title in page(desk.get(f"/houses/practice-shed/workings/{working.key}/"))


def test_a_working_that_is_not_there_is_said(desk, laid_out):
    assert desk.get("/houses/practice-shed/workings/no/such/").status_code == 404


@pytest.mark.parametrize("name", ["house", "boards", "buying"])
def test_each_set_of_sheets_is_a_pdf(desk, laid_out, name):
    answer = desk.get(f"/houses/practice-shed/paper/{name}.pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


@pytest.mark.parametrize("name", ["boards", "buying", "no-such"])
def test_a_set_that_needs_a_layout_is_not_there_without_one(desk, shed, name):
    assert desk.get(f"/houses/practice-shed/paper/{name}.pdf").status_code == 404


def test_the_list_of_sets_says_what_is_missing(desk, shed):
    assert "Lay out the boards first" in page(desk.get("/houses/practice-shed/paper/"))


@pytest.mark.parametrize("address", ["workings/", "workings/boards/by-area/", "paper/", "paper/house.pdf"])
def test_the_wrong_verb_is_refused(desk, shed, address):
    assert desk.post(f"/houses/practice-shed/{address}").status_code == 405
