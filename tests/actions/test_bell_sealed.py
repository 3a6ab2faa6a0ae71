"""What sealed figures keep off bell sheets: measures, boards, amounts, and what lies behind a wall."""

import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.bells.pictures import Pictures
from setday.actions.bells.sealed import NOTHING, is_about, withheld_of
from setday.boards import board_rules
from setday.learning import figures_of
from setday.timetable.tasks import Work, timetable_rules, zones_of


@pytest.fixture(scope="module")
def opened():
    return open_house(demo_text("wired"), name="wired.yaml")


@pytest.fixture(scope="module")
def house(opened):
    return opened.built()


def pictures(opened, *keys, by_layout=False):
    house = opened.built()
    return Pictures(
        opened,
        zones=zones_of(house, rules=timetable_rules(opened.local)),
        clock=time.perf_counter,
        withheld=withheld_of([(key, by_layout) for key in keys], house),
    )


def hanging(place, kind="hang-walls"):
    facts = {"trade": "boards", "minutes": 100, "quantity": 174.0, "unit": "ft2"}
    return Work(key=f"{kind} {place}", label=place, kind=kind, place=place, **facts)


def titles(drawn):
    return [svg.partition("</title>")[0].rpartition(">")[2] for svg in drawn]


def test_nothing_is_withheld_while_nothing_is_sealed(house):
    assert withheld_of([], house) == NOTHING


def test_every_figure_of_a_house_that_touches_a_room_sketches_it(opened, house):
    for figure in figures_of(house, board_rules=board_rules(opened.local)):
        found = withheld_of([(figure.key, False)], house)
        rooms = {figure.room} if figure.room else set()
        rooms |= {surface.room for surface in house.surfaces if surface.id in figure.surfaces}
        own = [surface for surface in house.surfaces if surface.room in rooms]
        assert all(found.sketches(surface) for surface in own), figure.key
        if figure.wall:
            along = [s for s in house.surfaces if any(span.wall == figure.wall for span in s.spans)]
            assert along, figure.key
            assert all(found.sketches(surface) for surface in along), figure.key
        assert rooms or figure.wall or found.everything, figure.key


def test_what_lies_behind_a_sealed_wall_is_sketched_too(house):
    found = withheld_of([("room/bath/boards", False)], house)
    spans = [span.wall for surface in house.surfaces if surface.room == "bath" for span in surface.spans]
    behind = [
        surface
        for surface in house.surfaces
        if surface.room != "bath" and found.sketches(surface) and surface.spans
    ]
    assert behind
    assert all(any(span.wall in spans for span in surface.spans) for surface in behind)


def test_a_room_far_from_what_is_sealed_keeps_its_measures(opened, house):
    living = pictures(opened, "room/bath/boards").of_work(hanging("living"))[0]
    assert any("without measures" not in title for title in titles(living))


@pytest.mark.parametrize("key", ["room/bath/boards", "room/bath/floor", "surface/bath/north/net"])
def test_a_sealed_place_is_sketched_and_says_so(opened, key):
    drawn, more = pictures(opened, key).of_work(hanging("bath"))
    assert all("without measures" in title for title in titles(drawn))
    assert "sealed" in more


def test_a_wall_to_lay_boards_on_keeps_its_measures(opened):
    drawn, more = pictures(opened, "surface/bath/north/run", by_layout=True).of_work(hanging("bath"))
    assert all("without measures" not in title for title in titles(drawn))
    assert "boards of this place are sealed" in more


@pytest.mark.parametrize("kind", ["pull", "set-boxes", "make-up"])
def test_while_a_cable_is_sealed_no_wiring_is_drawn(opened, kind):
    place = "living" if kind != "pull" else "house"
    work = Work(key=kind, label=kind, trade="cable", kind=kind, place=place, minutes=60)
    assert pictures(opened, "cable/circuit/range").of_work(work)[0] == ()


def test_no_plan_of_the_house_while_anything_is_sealed(opened):
    work = Work(key="wrap", label="house wrap", trade="siding", kind="siding", place="house", minutes=60)
    assert pictures(opened).of_work(work)[0]
    assert pictures(opened, "room/bath/floor").of_work(work)[0] == ()


@pytest.mark.parametrize(
    ("kind", "place"), [("hang-walls", "bath"), ("tape", "bath"), ("set-boxes", "bath"), ("pull", "house")]
)
def test_material_has_no_amount_while_anything_is_sealed(opened, kind, place):
    work = Work(key=kind, label=kind, trade="boards", kind=kind, place=place, minutes=60, quantity=174.0)
    said = " ".join(pictures(opened, "room/living/floor").material(work))
    assert said
    assert not any(sign.isdecimal() for sign in said)


def test_a_figure_this_house_does_not_know_withholds_everything(house):
    assert withheld_of([("room/sauna/boards", False)], house).everything


@pytest.mark.parametrize(
    ("key", "rooms", "trade", "about"),
    [
        ("room/bath/boards", ("bath",), "boards", True),
        ("room/bath/boards", ("living",), "boards", False),
        ("surface/bath/north/run", ("bath",), "boards", True),
        ("cable/circuit/range", ("bath",), "cable", True),
        ("cable/circuit/range", ("bath",), "boards", False),
        ("house/subfloor", (), "floor", True),
        ("house/subfloor", ("bath",), "floor", False),
    ],
)
def test_a_figure_is_offered_where_it_is_about_the_work(house, key, rooms, trade, about):
    assert is_about(key, house, rooms=rooms, trade=trade) is about
