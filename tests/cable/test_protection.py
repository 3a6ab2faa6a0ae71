"""Where ground-fault and arc-fault protection is asked for, by edition, and that each says why."""

import pytest

from setday.cable import cable_rules
from setday.cable.circuit import ProtectionKind
from setday.cable.circuits.planning import plan_circuits
from setday.cable.circuits.protection import protections_of, wiring_kinds
from setday.rules import LocalRules
from tests.cable.wired import circuit, device, straight, wired

GROUND, ARC = ProtectionKind.GROUND_FAULT, ProtectionKind.ARC_FAULT
EDITIONS = ("2005", "2008", "2011", "2014", "2017", "2020", "2023")


def rules(edition="2020", **values):
    given = {"cable.edition": edition} | {f"cable.{key}": value for key, value in values.items()}
    return cable_rules(LocalRules(values=given))


def asked(of, *, edition="2020", breaker=20, near_water=(), **values):
    """The kinds of protection that one device in a house asks for."""
    rooms = (of.room or "bedroom", "stair")
    house = wired(of, rooms=rooms)
    found = protections_of(
        house.devices,
        breaker=breaker,
        kinds=wiring_kinds(house),
        near_water=frozenset(near_water),
        rules=rules(edition, **values),
    )
    assert all(reason.devices == (of.name,) and reason.sentence for p in found for reason in p.reasons)
    assert all(reason.source.title for p in found for reason in p.reasons)
    return {protection.kind for protection in found}


def outlet(room, what=""):
    return device("outlet", room, "receptacle", what=what)


@pytest.mark.parametrize(
    "place",
    [outlet("bath"), outlet("garage"), outlet(""), outlet("unfinished basement"), outlet("crawl space")],
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_places_that_every_edition_lists(place, edition):
    assert GROUND in asked(place, edition=edition)  # E43: NEC 210.8(A)


@pytest.mark.parametrize(
    ("place", "first"),
    [
        (outlet("laundry"), "2014"),  # E43; the editions are in part from memory
        (outlet("finished basement"), "2020"),
        (outlet("kitchen"), "2023"),
        (device("outlet", "laundry", what="dryer", volts=240), "2020"),
        (device("outlet", "bath", "receptacle", volts=240), "2020"),
        (device("outlet", "kitchen", what="dishwasher"), "2014"),
    ],
    ids=[
        "laundry",
        "finished basement",
        "kitchen, not over a counter",
        "dryer",
        "240 V in a bath",
        "dishwasher",
    ],
)
def test_the_edition_that_brought_a_place(place, first):
    by_edition = [edition for edition in EDITIONS if GROUND in asked(place, edition=edition, breaker=20)]
    assert by_edition == list(EDITIONS[EDITIONS.index(first) :])


def test_kitchen_counters_are_in_every_edition():
    assert all(GROUND in asked(outlet("kitchen", "counter"), edition=each) for each in EDITIONS)  # E43


def test_a_receptacle_near_a_sink_asks_for_it_anywhere():
    assert GROUND in asked(outlet("bedroom"), near_water=["outlet"])  # E43: within 6 ft of a sink or tub
    assert GROUND not in asked(outlet("bedroom"))


@pytest.mark.parametrize("room", ["kitchen", "laundry", "dining", "living", "bedroom", "closet", "hall"])
def test_rooms_with_arc_fault_protection(room):
    assert ARC in asked(device("outlet", room, "light"))  # E44: NEC 210.12, 120 V, 15 and 20 A


@pytest.mark.parametrize("room", ["bath", "garage", "unfinished basement", ""])
def test_rooms_without_arc_fault_protection(room):
    assert ARC not in asked(device("outlet", room, "light"))  # E44


@pytest.mark.parametrize(
    ("room", "first"), [("bedroom", "2005"), ("living", "2008"), ("hall", "2008"), ("kitchen", "2014")]
)
def test_the_edition_that_brought_a_room(room, first):
    place = device("outlet", room, "light")
    assert [e for e in EDITIONS if ARC in asked(place, edition=e)] == list(EDITIONS[EDITIONS.index(first) :])


@pytest.mark.parametrize(
    ("breaker", "volts", "wanted"), [(20, 120, True), (30, 120, False), (20, 240, False)]
)
def test_arc_fault_protection_ends_at_20_a_and_120_v(breaker, volts, wanted):
    place = device("outlet", "bedroom", "receptacle", volts=volts)
    assert (ARC in asked(place, breaker=breaker)) is wanted  # E44


def test_a_local_rule_ends_it():
    assert asked(outlet("kitchen", "counter"), arc_fault="nowhere", ground_fault="nowhere") == set()


def test_a_utility_room_with_a_washer_is_a_laundry_area():
    washer = device("washer", "utility", what="washer")
    assert wiring_kinds(wired(washer, rooms=("utility", "hall")))["utility"] == "laundry"
    assert wiring_kinds(wired(outlet("utility"), rooms=("utility", "hall")))["utility"] == "utility"


def test_a_circuit_tells_each_reason_with_its_devices():
    devices = device("lamp", "bedroom", "light"), device("porch", "", "receptacle")
    house = wired(*devices, circuits=[circuit("first", "lamp", "porch")])
    plan = plan_circuits(house, distance=straight(house), rules=rules())
    general = plan.of_device("lamp")
    assert general.protected(GROUND)
    assert general.protected(ARC)
    reasons = {r.devices: r.sentence for p in general.protections for r in p.reasons}
    assert "outdoors" in reasons["porch",]
    assert "bedroom" in reasons["lamp",]
