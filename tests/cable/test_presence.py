"""What rooms must have, asked one lack at a time; and where boxes never go."""

from dataclasses import replace

import pytest

from setday.actions import demo_text, open_house
from setday.cable import cable_rules, check, check_devices, propose_devices
from setday.findings import Severity
from setday.house import DeviceKind, OpeningKind, Point, TypedReserve, build_house
from setday.rules import LocalRules
from tests.cable.shapes import inches, opening, plain_room

RULES = cable_rules()


@pytest.fixture(scope="module")
def house():
    bare = open_house(demo_text("house"), name="demo").house
    return build_house(replace(bare.description, devices=propose_devices(bare, RULES))).house


def without(house, gone):
    """Return the house without some of its devices."""
    kept = [d for d in house.description.devices if not gone(d)]
    names = {d.name for d in kept}
    devices = tuple(replace(d, serves=tuple(s for s in d.serves if s in names)) for d in kept)
    return build_house(replace(house.description, devices=devices)).house


def asked(house, rules=RULES):
    return {f.rule for f in check_devices(house, rules).findings if f.severity is Severity.ASK}


LACKS = {
    "cable.hall_least": lambda d: d.room == "hall" and d.kind is DeviceKind.RECEPTACLE,
    "cable.basin_reach": lambda d: d.room == "bath" and d.kind is DeviceKind.RECEPTACLE,
    "cable.outdoor_front": lambda d: d.name == "front outdoor receptacle",
    "cable.outdoor_back": lambda d: d.name == "back outdoor receptacle",
    "cable.outside_door_light": lambda d: d.name == "front door light switch",
    "cable.room_light": lambda d: d.name == "stair switch",
    "cable.bath_fan": lambda d: d.kind is DeviceKind.FAN,
    "cable.smoke_bedroom": lambda d: d.name == "north bedroom alarm",
    "cable.smoke_outside": lambda d: d.name == "hall alarm",
    "cable.co_outside": lambda d: d.name == "hall alarm",
    "cable.counter_reach": lambda d: d.name == "kitchen counter receptacle 3",
    "cable.reach": lambda d: d.name == "living receptacle 4",
}


@pytest.mark.parametrize("rule", LACKS)
def test_each_lack_is_asked_about(house, rule):
    lacking = without(house, LACKS[rule])
    assert rule in asked(lacking)


def test_nothing_is_asked_of_the_whole(house):
    assert asked(house) == set()
    assert {f.severity for f in check(house, rules=RULES)} == {Severity.NOTE}


@pytest.mark.parametrize(
    "rule", ["cable.outdoor_front", "cable.bath_fan", "cable.smoke_bedroom", "cable.outside_door_light"]
)
def test_a_local_rule_can_take_it_back(house, rule):
    lacking = without(house, LACKS[rule])
    assert rule not in asked(lacking, cable_rules(LocalRules(values={rule: "no"})))


def test_every_finding_on_a_rule_names_its_source(house):
    found = check_devices(without(house, lambda d: True), RULES).findings
    assert [str(f) for f in found if f.source is None] == []
    assert len(found) > 20


def test_a_large_foyer_has_a_receptacle_in_each_wall_space():
    """NEC 210.52(I), from memory: larger than 60 ft2, each wall space of 3 ft and more."""
    doors = (
        opening("front door", "south", 60, 38, OpeningKind.DOOR),
        opening("inner", "north", 60, 38, OpeningKind.CASED),
    )
    foyer = plain_room(width=140, depth=100, openings=doors, use="foyer")
    assert "cable.foyer_wall" in asked(foyer)
    devices = propose_devices(foyer, RULES)
    assert sum(d.kind is DeviceKind.RECEPTACLE and d.room == "room" for d in devices) == 2
    filled = build_house(replace(foyer.description, devices=devices)).house
    assert "cable.foyer_wall" not in asked(filled)


def test_a_practice_shed_is_no_dwelling():
    shed = open_house(demo_text("shed"), name="shed").house
    assert check_devices(shed, RULES).findings == ()


def test_no_box_stands_in_a_space_reserved_for_another_trade():
    door = opening("door", "south", 60, 38, OpeningKind.DOOR)
    house = plain_room(width=180, depth=140, openings=(door,))
    plain = [d for d in propose_devices(house, RULES) if d.wall == "north"]
    first = plain[0].along.inches
    at = house.wall("north").start.x.inches - first
    kept = TypedReserve(
        name="drain", trade="plumber", corner=Point(x=inches(at - 10), y=inches(146)), east=inches(20),
        north=inches(4), bottom=inches(0), top=inches(96),
    )  # fmt: skip
    moved = build_house(replace(house.description, reserves=(kept,))).house
    along = [d.along.inches for d in propose_devices(moved, RULES) if d.wall == "north"]
    assert all(abs(each - first) > 10 for each in along)


def used_as(house, use):
    """Return the house with another use written for the north bedroom, its alarm gone."""
    lacking = without(house, lambda d: d.name == "north bedroom alarm").description
    rooms = tuple(replace(r, use=use) if r.name == "north bedroom" else r for r in lacking.rooms)
    return build_house(replace(lacking, rooms=rooms)).house


@pytest.mark.parametrize("use", ["bedroom", "bed room", "guest room"])
def test_a_bedroom_is_known_however_it_is_written(house, use):
    assert "cable.smoke_bedroom" in asked(used_as(house, use))


def test_a_use_that_no_word_sorts_is_said(house):
    said = [f for f in check_devices(used_as(house, "bedchambre"), RULES).findings if "bedchambre" in f.found]
    assert [f.severity for f in said] == [Severity.NOTE]
    assert "bedroom" in said[0].expected


def test_a_room_of_a_known_kind_is_not_asked_for_its_use(house):
    assert not [
        f for f in check_devices(house, RULES).findings if "none that the wiring rules know" in f.found
    ]
