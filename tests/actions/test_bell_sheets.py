"""Bell sheets: a page a crew that says all it needs, and what to do when done early."""

import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.bells.pictures import Pictures
from setday.actions.bells.sheets import bell_periods, bells_pdf
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.sheets import timetable_pdf
from setday.actions.timetable.solving import solve_timetable
from setday.solving import Limits
from tests.actions.invented_class import FIRST, class_plan


@pytest.fixture(scope="module")
def opened():
    return open_house(demo_text("wired"), name="wired.yaml")


@pytest.fixture(scope="module")
def found(opened):
    day = class_day(opened, class_plan(), clock=time.perf_counter)
    return solve_timetable(day, limits=Limits(seconds=1, clock=time.perf_counter, workers=1))


@pytest.fixture(scope="module")
def pictures(opened, found):
    return Pictures(opened, zones=found.day.work.zones, clock=time.perf_counter)


def begins(found, kind):
    """Return the day on which the first work of a kind begins."""
    for number, row in enumerate(found.crews):
        for crew in row:
            work = found.day.works.get(crew.work)
            if work and work.kind == kind:
                return found.day.meetings[number].date
    raise AssertionError(kind)


def cards(found, kind, pictures=None):
    on = begins(found, kind)
    labels = {work.label for work in found.day.works.values() if work.kind == kind}
    return [c for p in bell_periods(found, on, pictures=pictures) for c in p.crews if c.what in labels]


def test_everybody_present_is_on_one_crew(found):
    for period in bell_periods(found, FIRST):
        names = [name for crew in period.crews for name in crew.members]
        assert len(names) == len(set(names)) == 16


@pytest.mark.parametrize("kind", ["set-boxes", "pull", "hang-walls", "tape", "sand", "plain", "inspect"])
def test_a_crew_is_told_all_it_needs(found, pictures, kind):
    if kind == "plain":
        kind = "siding"
    card = cards(found, kind, pictures)[0]
    assert all((card.members, card.where, card.material, card.tools, card.steps, card.cautions))
    assert all((card.figure_first, card.signs, card.early))


@pytest.mark.parametrize("kind", ["set-boxes", "pull", "hang-ceilings", "tape"])
def test_a_crew_sees_its_place(found, pictures, kind):
    assert all("<svg" in svg for svg in cards(found, kind, pictures)[0].pictures)
    assert cards(found, kind, pictures)[0].pictures


def test_those_who_pull_know_their_runs(found, pictures):
    assert "cut from the coils on the pull list" in cards(found, "pull", pictures)[0].material[0]


def test_the_instructor_is_asked_for_no_more_eyes_than_there_are(found):
    for number in range(0, len(found.crews), 7):
        for period in bell_periods(found, found.day.meetings[number].date):
            assert period.attention_asked <= period.attention_there


def test_what_to_do_when_done_early_is_open_to_the_whole_crew(found):
    works = {work.label: work for work in found.day.works.values()}
    for number in range(0, len(found.crews), 5):
        for period in bell_periods(found, found.day.meetings[number].date):
            for crew in period.crews:
                label = crew.early.partition("Begin: ")[2].partition(" (")[0]
                if label:
                    task = found.day.problem.tasks[found.day.problem.number[works[label].key]]
                    names = {name: key for key, name in found.day.names.items()}
                    students = {s.key: s for s in found.day.problem.students}
                    assert all(found.day.problem.may(students[names[n]], task) for n in crew.members)


def test_what_to_do_when_done_early_is_not_begun_nor_behind_a_gate(found):
    on = begins(found, "set-boxes")
    early = [crew.early for period in bell_periods(found, on) for crew in period.crews]
    assert not [said for said in early if "Hang boards" in said]


def test_bell_sheets_are_pages(found, pictures):
    periods = bell_periods(found, FIRST, pictures=pictures)
    assert bells_pdf(found, periods, dated=FIRST).startswith(b"%PDF")


def test_the_whole_timetable_is_pages(found):
    assert timetable_pdf(found, dated=FIRST).startswith(b"%PDF")
