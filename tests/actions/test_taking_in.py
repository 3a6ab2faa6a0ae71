"""Taking in a house file: what is kept, what is asked first, and what is refused."""

import pytest

from setday.actions import demo_text, open_house
from setday.actions.taking_in import Twin, may_be_kept, take_in_house, take_in_version
from setday.findings import Severity
from tests.actions.memory_store import MemoryVersions

SHED = demo_text("shed")
ASKING = SHED.replace("center: 6'-0\"", "center: 6.3'")  # decimal feet: surely feet and inches were meant?


def opened(text: str = SHED):
    return open_house(text, name="shed.yaml")


@pytest.fixture
def store():
    return MemoryVersions()


def test_a_sound_file_is_kept_to_the_letter(store):
    house, version = take_in_house(opened(), store=store).kept
    assert (house.name, version.number, version.text) == (opened().built().name, 1, SHED)


def test_a_file_with_a_problem_is_not_kept(store):
    taken = take_in_house(opened(SHED.replace("walls:", "wals:", 1)), store=store, as_meant=True)
    assert (taken.kept, taken.twin, store.things) == (None, None, [])


def test_a_file_with_a_question_is_kept_once_it_was_seen(store):
    asking = opened(ASKING)
    assert {f.severity for f in asking.findings} >= {Severity.ASK}
    assert take_in_house(asking, store=store).kept is None
    assert take_in_house(asking, store=store, as_meant=True).kept is not None


def test_a_name_that_is_kept_already_is_asked_about(store):
    first, _ = take_in_house(opened(), store=store).kept
    taken = take_in_house(opened(), store=store)
    assert (taken.kept, taken.twin) == (None, first)
    assert len(store.things) == 1


def test_it_may_be_another_version_of_that_house(store):
    take_in_house(opened(), store=store)
    house, version = take_in_house(opened(SHED + "\n# mended\n"), store=store, twin=Twin.VERSION).kept
    assert (version.number, len(store.things)) == (2, 1)
    assert house is store.things[0]


def test_it_may_be_another_house_of_that_name(store):
    take_in_house(opened(), store=store)
    house, version = take_in_house(opened(), store=store, twin=Twin.ANOTHER).kept
    assert (version.number, len(store.things)) == (1, 2)
    assert house.key.endswith("-2")


def test_a_house_that_is_put_away_is_asked_about_last(store):
    away, _ = take_in_house(opened(), store=store).kept
    away.put_away = True
    second, _ = take_in_house(opened(), store=store, twin=Twin.ANOTHER).kept
    assert take_in_house(opened(), store=store).twin is second


@pytest.mark.parametrize("twin", [Twin.VERSION, Twin.ANOTHER])
def test_an_answer_nobody_asked_for_changes_nothing(store, twin):
    assert take_in_house(opened(), store=store, twin=twin).kept[1].number == 1


def test_another_version_keeps_what_changed(store):
    house, _ = take_in_house(opened(), store=store).kept
    mended = opened(SHED + "\n# mended\n")
    _, version = take_in_version(mended, store=store, house=house, note="mended").kept
    assert (version.number, version.note) == (2, "mended")


def test_another_version_with_a_problem_is_not_kept(store):
    house, _ = take_in_house(opened(), store=store).kept
    assert take_in_version(opened("walls: ["), store=store, house=house, as_meant=True).kept is None
    assert len(house.versions) == 1


def test_a_house_that_could_not_be_built_may_not_be_kept():
    assert not may_be_kept(opened(""), as_meant=True)
