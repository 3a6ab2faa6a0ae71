"""The tasks of a house: gathered from the trades and the class file, gated, timed, placed."""

import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.tasks.gathering import house_work
from setday.roster import Rate, TypedTask
from tests.actions.invented_class import cable_figured_once, class_plan, finishing_rates, typed_tasks


@pytest.fixture(scope="module")
def opened():
    with cable_figured_once():
        yield open_house(demo_text("wired"), name="wired.yaml")


@pytest.fixture(scope="module")
def gathered(opened):
    return house_work(opened, class_plan(), clock=time.perf_counter)


def before(gathered, key):
    """Return the keys of everything a work waits for, near and far."""
    works = {work.key: work for work in gathered.works}
    found, left = set(), [key]
    while left:
        for after in works[left.pop()].after:
            if after.key not in found:
                found.add(after.key)
                left.append(after.key)
    return found


def typed(key, **changes):
    return TypedTask(**({"key": key, "label": key, "trade": "trim", "place": "house", "hours": 4} | changes))


def gathered_with(opened, **changes):
    return house_work(opened, class_plan(**changes), clock=time.perf_counter)


def test_boards_wait_for_the_cable_of_the_house_the_trials_and_the_inspection(gathered):
    waited = before(gathered, "boards/hang/kitchen/ceilings")
    kinds = {work.kind for work in gathered.works if work.key in waited}
    assert kinds >= {"set-boxes", "bore", "pull", "make-up", "try", "inspect", "look", "insulate"}


def test_ceilings_hang_before_walls(gathered):
    assert "boards/hang/kitchen/ceilings" in before(gathered, "boards/hang/kitchen/walls")


def test_coats_wait_a_day_for_the_one_before_to_dry(gathered):
    """17 h at 70 F and 50 %: one day (drying table of boards)."""
    waits = {after.key: after.days for after in gathered.work("second-coat/kitchen").after}
    assert waits == {"tape/kitchen": 1}


def test_level_four_is_tape_two_coats_and_sanding(gathered):
    """Finish level 4 takes two coats on flat joints after the tape is bedded (GA-214)."""
    kinds = [work.kind for work in gathered.works if work.place == "kitchen" and work.trade != "cable"]
    assert kinds[-4:] == ["tape", "second-coat", "third-coat", "sand"]


def test_nobody_paints_a_room_that_is_sanded(gathered):
    assert "painting" in gathered.work("sand/kitchen").clashes


def test_hours_of_hanging_are_those_of_the_published_rate_and_the_class_factor(gathered):
    """33 man-hours for 1,000 ft2 (NAVEDTRA 14045), times the house file's class factor, 2.5."""
    work = gathered.work("boards/hang/bath/walls")
    assert work.minutes == pytest.approx(work.quantity * 33 / 1000 * 2.5 * 60, rel=0.01)


def test_the_class_file_sets_another_factor(opened):
    usual = gathered_with(opened).work("boards/hang/bath/walls").minutes
    assert gathered_with(opened, factors=(("boards", 5.0),)).work(
        "boards/hang/bath/walls"
    ).minutes == pytest.approx(2 * usual, rel=0.01)


def test_rates_that_nobody_published_are_asked_for_one_by_one(opened):
    missing = gathered_with(opened, rates=finishing_rates()[:1]).problems
    assert [each.about for each in missing] == [
        "rate of 'sand'",
        "rate of 'second coat'",
        "rate of 'third coat'",
    ]


def test_a_rate_says_who_set_it(opened):
    rates = (*finishing_rates()[1:], Rate(trade="finishing", work="tape and bed joints", hours=0.1,
             unit="ft2", said_by="our log"))  # fmt: skip
    assert "our log" in gathered_with(opened, rates=rates).work("tape/bath").said_by


def test_a_typed_task_opens_a_gate_of_the_house(gathered):
    assert "insulate" in {after.key for after in gathered.work("look/bath").after}


def test_a_gate_of_one_room_holds_that_room_alone(opened):
    tasks = (typed("tub", opens_gates=("close-in bath",)),)
    found = gathered_with(opened, tasks=tasks)
    assert ["tub" in before(found, f"look/{place}") for place in ("bath", "kitchen")] == [True, False]


def test_a_gate_that_nobody_opens_is_told_with_those_that_are(opened):
    found = gathered_with(opened, tasks=(*typed_tasks(), typed("x", needs_gates=("plumbed",)))).problems
    assert [(each.about, "'plumbed'" in each.found, "wired" in each.expected) for each in found] == [
        ("task 'x'", True, True)
    ]


def test_devices_are_set_after_the_room_is_finished_and_painted(gathered):
    assert before(gathered, "cable/trim/bath") >= {"sand/bath", "paint"}


def test_every_work_has_a_place_that_holds_somebody(gathered):
    holds = dict(gathered.places)
    assert [work.key for work in gathered.works if holds[work.place] < work.crew_least] == []


def test_the_instructor_says_how_many_a_place_holds(opened):
    assert dict(gathered_with(opened, places=(("kitchen", 5),)).places)["kitchen"] == 5


def test_a_class_without_boards_wiring_and_tasks_has_nothing_to_do():
    shed = open_house(demo_text("shed"), name="shed.yaml")
    found = house_work(shed, class_plan(), clock=time.perf_counter)
    assert {work.trade for work in found.works} >= {"boards", "siding"}
