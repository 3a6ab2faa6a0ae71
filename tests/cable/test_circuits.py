"""Circuits proposed and checked: what is required, what is forbidden, what is found with its line."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from setday.cable import cable_rules
from setday.cable.circuit import CircuitUse, Grouping
from setday.cable.circuits.planning import plan_circuits
from setday.cable.circuits.sizing import breaker_for, most_breaker, wire_for
from setday.electric import ampacity_a
from setday.findings import Severity
from setday.rules import LocalRules
from tests.cable.wired import ROOMS, circuit, device, straight, wired

RULES = cable_rules()


def plan(*devices, rules=RULES, **more):
    house = wired(*devices, **more)
    return plan_circuits(house, distance=straight(house), rules=rules)


def receptacles(room, count, what=""):
    return tuple(device(f"{room} {what} {n}", room, "receptacle", what=what) for n in range(count))


WHOLE = (
    *receptacles("kitchen", 4, "counter"),
    *receptacles("bath", 2),
    *receptacles("laundry", 1),
    *receptacles("bedroom", 6),
    *receptacles("living", 6),
    device("range", "kitchen", what="range", volts=240),
    device("dryer", "laundry", what="dryer", volts=240),
    device("washer", "laundry", what="washer"),
    device("refrigerator", "kitchen", what="refrigerator"),
    device("dishwasher", "kitchen", what="dishwasher"),
    device("lamp", "bedroom", "light"),
    device("switch", "bedroom", "switch", serves=("lamp",)),
    device("alarm 1", "bedroom", "alarm"),
    device("alarm 2", "living", "alarm"),
)
PROPOSED = plan(*WHOLE)


def test_the_required_circuits_are_proposed():
    # E06: 210.11(C): two for small appliances, one for the laundry, one for baths, each 20 A on 12 AWG
    required = {CircuitUse.SMALL_APPLIANCE: 2, CircuitUse.LAUNDRY: 1, CircuitUse.BATH: 1}
    for use, count in required.items():
        found = [each for each in PROPOSED.circuits if each.use is use]
        assert [(each.breaker, each.awg) for each in found] == [(20, 12)] * count


def test_a_garage_has_its_circuit_from_2017_on():
    # E06: NEC 210.11(C)(4), a twenty-ampere circuit
    rooms = ("garage", "hall")
    for edition, use in (("2014", CircuitUse.GENERAL), ("2017", CircuitUse.GARAGE)):
        rules = cable_rules(LocalRules(values={"cable.edition": edition}))
        found = plan(device("outlet", "garage", "receptacle"), rooms=rooms, rules=rules)
        assert found.of_device("outlet").use is use


def test_counters_hang_on_both_small_appliance_circuits():
    serving = {PROPOSED.of_device(f"kitchen counter {n}").name for n in range(4)}
    assert len(serving) == 2  # 210.52(B)(3)


@pytest.mark.parametrize(
    ("name", "breaker", "cable"),
    [("range", 50, "6/3"), ("dryer", 30, "10/3"), ("dishwasher", 20, "12/2")],
)
def test_large_appliances_have_a_circuit_to_themselves(name, breaker, cable):
    found = PROPOSED.of_device(name)
    assert (found.use, found.devices) == (CircuitUse.INDIVIDUAL, (name,))
    assert (found.breaker, found.cable) == (breaker, cable)


def test_washer_and_refrigerator_are_on_the_circuits_meant_for_them():
    assert PROPOSED.of_device("washer").use is CircuitUse.LAUNDRY
    assert PROPOSED.of_device("refrigerator").use is CircuitUse.SMALL_APPLIANCE


def test_a_switch_is_with_its_light_and_the_alarms_are_together():
    assert PROPOSED.of_device("switch") == PROPOSED.of_device("lamp")
    assert PROPOSED.of_device("alarm 1") == PROPOSED.of_device("alarm 2")


def test_what_is_proposed_has_nothing_wrong_with_it():
    assert [str(f) for f in PROPOSED.findings if f.severity is not Severity.NOTE] == []


def test_the_division_tells_what_is_proven():
    found = PROPOSED.grouping
    assert isinstance(found, Grouping)
    assert 0 < found.bound_ft <= found.cable_ft + 1e-6
    assert found.method


DRAWN = st.lists(
    st.tuples(
        st.sampled_from(ROOMS),
        st.sampled_from(
            ["receptacle", "light", "alarm", "range", "dryer", "water heater", "disposer", "kiln"]
        ),
    ),
    min_size=1,
    max_size=20,
)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(DRAWN)
def test_every_device_is_on_one_circuit_that_its_wire_and_breaker_carry(drawn):
    devices = [
        device(
            f"{what} {n}", room, what, what="" if what in {"receptacle", "light", "alarm"} else what,
            volts=240 if what in {"range", "dryer", "water heater"} else 120,
        )
        for n, (room, what) in enumerate(drawn)
        if sum(other == room for other, _ in drawn[:n]) < 13
    ]  # fmt: skip
    found = plan(*devices, spaces=42)
    on = [name for each in found.circuits for name in each.devices]
    assert sorted(on) == sorted(each.name for each in devices)
    assert all(each.breaker <= most_breaker(each.awg) for each in found.circuits)
    problems = {f.rule for f in found.findings if f.severity is Severity.PROBLEM}
    assert problems <= {"cable.required-missing", "cable.panel-rating", "cable.panel-spaces"}


@pytest.mark.parametrize(("breaker", "awg"), [(15, 14), (20, 12), (30, 10), (40, 8), (50, 6), (60, 6)])
def test_wire_for_a_breaker(breaker, awg):
    assert wire_for(breaker) == awg  # E31: 240.4(D); E30: the 60 degree column above


@given(st.integers(1, 55))
def test_a_larger_breaker_never_gets_thinner_wire(breaker):
    assert wire_for(breaker) >= wire_for(breaker + 1)
    assert ampacity_a(wire_for(breaker), column=60) >= breaker


def test_a_heater_that_runs_for_hours_gets_a_quarter_more():
    from setday.cable.appliance import appliance_kind

    known = appliance_kind("water heater")
    assert breaker_for(4_500, 240, known=known) == 30
    assert breaker_for(6_000, 240, known=known) == 35  # 25 A x 125 % = 31.3 A


BEDROOM = receptacles("bedroom", 3)
NAMES = tuple(each.name for each in BEDROOM)


def typed(*devices, names=None, line=50, others=(), **more):
    """The findings of one typed circuit, by rule."""
    names = names or tuple(each.name for each in devices)
    found = plan(*devices, *others, circuits=[circuit("first", *names, line=line, **more)])
    return {f.rule: f for f in found.findings if "first" in f.about}


@pytest.mark.parametrize(
    ("devices", "more", "rule"),
    [
        (BEDROOM, {"breaker": 20, "wire": 14}, "cable.wire-small"),
        (BEDROOM, {"breaker": 30, "wire": 12}, "cable.wire-small"),
        (BEDROOM, {"breaker": 17}, "cable.breaker-standard"),
        (BEDROOM, {"use": "bedrooms"}, "cable.circuit-use"),
        (BEDROOM, {"breaker": 200}, "cable.circuit-wire"),
        (BEDROOM, {"wire": 3}, "cable.circuit-wire"),
        (BEDROOM, {"volts": 240, "breaker": 20}, "cable.circuit-volts"),
        (BEDROOM, {"use": "laundry", "breaker": 20}, "cable.mixed-use"),
        (BEDROOM, {"use": "individual"}, "cable.individual-shared"),
        (receptacles("bath", 1), {"use": "bath", "breaker": 15}, "cable.breaker-required"),
        (receptacles("bath", 1) + BEDROOM, {"breaker": 20}, "cable.required-circuit"),
        (receptacles("kitchen", 2, "counter"), {"breaker": 20}, "cable.required-circuit"),
        (receptacles("living", 11), {}, "cable.many-outlets"),
        (
            (device("heater", "laundry", what="water heater", volts=240),),
            {"use": "individual", "volts": 240, "breaker": 20, "wire": 12},
            "cable.breaker-continuous",
        ),
        (
            (device("heater", "laundry", what="water heater", volts=240, load=6_000),),
            {"use": "individual", "volts": 240, "breaker": 20, "wire": 12},
            "cable.breaker-overloaded",
        ),
        (
            (*BEDROOM, device("disposer", "bedroom", what="disposer")),
            {"breaker": 20},
            "cable.own-circuit",
        ),
        (
            (*BEDROOM, device("freezer", "bedroom", what="freezer", load=1_600)),
            {"breaker": 15},
            "cable.share-cord",
        ),
        (
            (*BEDROOM, device("fan", "bedroom", what="whole-house fan", load=1_000)),
            {"breaker": 15},
            "cable.share-fastened",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_typed_circuit_is_checked_and_its_line_told(devices, more, rule):
    found = typed(*devices, line=57, **more)
    assert rule in found
    assert (found[rule].where.file, found[rule].where.line) == ("h.yaml", 57)
    assert found[rule].found
    assert found[rule].do


@pytest.mark.parametrize(
    ("devices", "more"),
    [
        (BEDROOM, {"breaker": 15}),
        (BEDROOM, {"breaker": 20, "wire": 12}),
        (receptacles("living", 10), {"breaker": 15}),
        (receptacles("bath", 2), {"use": "bath", "breaker": 20}),
        (
            (device("bath lamp", "bath", "light"), *receptacles("bath", 1)),
            {"use": "bath", "breaker": 20},
        ),  # a circuit for one bath alone may take all that is in it
        (
            (device("range", "kitchen", what="range", volts=240),),
            {"use": "individual", "volts": 240, "breaker": 40},
        ),  # E14: 12 kW counts 8 kW, 33 A
        (
            (device("heater", "laundry", what="water heater", volts=240),),
            {"use": "individual", "volts": 240, "breaker": 30},
        ),
        (
            (BEDROOM[0], device("freezer", "bedroom", what="freezer", load=1_400)),
            {"breaker": 15},
        ),  # 80 % of 1800 VA is 1440 VA
    ],
    ids=lambda value: "",
)
def test_a_sound_circuit_is_left_alone(devices, more):
    assert typed(*devices, **more) == {}


def test_an_outlet_load_just_at_the_breaker_is_left_alone():
    heavy = device("heater", "bedroom", what="room air conditioner", load=1_800)
    found = plan(heavy, circuits=[circuit("first", "heater", use="individual", breaker=15)])
    assert "cable.breaker-overloaded" not in {f.rule for f in found.findings}
    found = plan(
        device("heater", "bedroom", what="room air conditioner", load=1_801),
        circuits=[circuit("first", "heater", use="individual", breaker=15)],
    )
    assert "cable.breaker-overloaded" in {f.rule for f in found.findings}


def test_several_faults_are_told_at_once():
    found = typed(*BEDROOM, *receptacles("bath", 1), breaker=25, wire=14)
    assert {"cable.wire-small", "cable.required-circuit"} <= set(found)


def test_typed_circuits_stay_and_the_rest_is_proposed_beside_them():
    small = circuit("left counter", "kitchen counter 0", use="small appliance", breaker=20)
    found = plan(*WHOLE, circuits=[small])
    assert found.circuit("left counter").typed
    assert sum(each.use is CircuitUse.SMALL_APPLIANCE for each in found.circuits) == 2
    assert "cable.devices-left" in {f.rule for f in found.findings}


def test_a_required_circuit_that_is_missing_is_found():
    names = tuple(f"kitchen counter {n}" for n in range(3))
    all_on_one = circuit("counters", *names, use="small appliance", breaker=20)
    found = {f.rule for f in plan(*receptacles("kitchen", 3, "counter"), circuits=[all_on_one]).findings}
    assert {"cable.required-missing", "cable.counters-one-circuit"} <= found


def test_an_appliance_nobody_knows_is_asked_for_its_load():
    found = plan(device("kiln", "living", what="kiln", line=44))
    (finding,) = [f for f in found.findings if f.rule == "cable.load-unknown"]
    assert (finding.where.line, finding.severity) == (44, Severity.ASK)


def test_names_of_proposed_circuits_are_free_ones():
    found = plan(*WHOLE, circuits=[circuit("general 1", "lamp", "switch", breaker=15)])
    names = [each.name for each in found.circuits]
    assert len(set(names)) == len(names)


def test_the_plan_is_the_same_every_time():
    assert plan(*WHOLE) == PROPOSED


# E09: annex D, example D1(a): 1500 ft2 x 3 VA/ft2 = 4500 VA = 37.5 A: three circuits of 15 A or two of 20 A.
OUTLETS = (*receptacles("bedroom", 8), *receptacles("living", 8))


@pytest.mark.parametrize(("breaker", "count"), [("15", 3), ("20", 2)])
def test_general_circuits_proposed_carry_the_general_lighting(breaker, count):
    book = cable_rules(LocalRules(values={"cable.general_breaker": breaker}))
    uses = [each.use for each in plan(*OUTLETS, rules=book).circuits]
    assert uses.count(CircuitUse.GENERAL) == count


@pytest.mark.parametrize(
    ("breaker", "count", "asked"), [(15, 2, True), (15, 3, False), (20, 1, True), (20, 2, False)]
)
def test_general_circuits_typed_are_asked_about_where_they_carry_less(breaker, count, asked):
    names = [each.name for each in OUTLETS]
    typed = [circuit(f"general {n}", *names[n::count], use="general", breaker=breaker) for n in range(count)]
    found = [f for f in plan(*OUTLETS, circuits=typed).findings if f.rule == "cable.general-few"]
    assert bool(found) is asked
    assert all("4,500 VA" in f.expected for f in found)
