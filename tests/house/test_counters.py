"""Counters on their walls, and what is said of those that do not fit."""

from dataclasses import replace

import pytest

from setday.actions import demo_text, open_house
from setday.house import TypedCounter, build_house
from setday.measure import parse_length
from tests.house.sketches import shed

COUNTER = TypedCounter(
    name="bench",
    room="shop",
    wall="north",
    measured_from="west",
    distance=parse_length('12"'),
    width=parse_length("4'"),
)


def made(counter):
    return build_house(replace(shed(), counters=(counter,)))


def test_a_counter_lies_on_its_surface():
    counter = made(COUNTER).house.counters[0]
    assert (counter.surface, counter.x.inches) == ("shop/north", 12.0)


def test_an_island_lies_on_none():
    assert made(replace(COUNTER, wall="", measured_from="")).house.counters[0].surface == ""


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"room": "attic"}, "no room 'attic'"),
        ({"wall": "across"}, "shows no face"),
        ({"measured_from": "north"}, "names no end"),
        ({"width": parse_length("40'")}, "reaches from"),
    ],
)
def test_a_counter_that_cannot_be_is_found(change, said):
    found = made(replace(COUNTER, **change)).findings
    assert [f.rule for f in found if said in f.found] == ["house.counter"]


def test_a_counter_must_be_on_walls_or_an_island():
    text = demo_text("house").replace(
        "  serving counter:\n    room: kitchen\n", "  serving counter:\n    room: kitchen\n    length: 5'\n"
    )
    found = [f for f in open_house(text, name="demo").findings if "counter" in f.about]
    assert [f.found for f in found] == ["it is written both on walls and as an island."]
    assert found[0].where.line > 0
