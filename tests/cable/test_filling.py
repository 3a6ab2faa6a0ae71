"""Fill of the boxes of a house, against published examples and the parts it is the sum of."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.cable import Cable, cable_rules
from setday.cable.circuit import PANEL
from setday.cable.circuits.planning import plan_circuits
from setday.cable.loads.filling import check_fill, fill_boxes, fill_rule
from setday.electric import box_sizes, cable_kind, fill_working, volume_each_in3
from setday.measure import Length
from setday.rules import LocalRules
from tests.cable.wired import circuit, device, straight, wired


def rules(**values):
    return cable_rules(LocalRules(values={f"cable.{key}": value for key, value in values.items()}))


RULES = rules()


def fill(house, *kinds, book=RULES, box="outlet", end=PANEL):
    """The fill of one box into which such cables come."""
    plan = plan_circuits(house, distance=straight(house), rules=book)
    cables = [
        Cable(number=f"1-{n}", circuit=plan.circuits[0].name, start=end, end=box, kind=kind)
        for n, kind in enumerate(kinds)
    ]
    return next(each for each in fill_boxes(house, plan.circuits, cables, rules=book) if each.box == box)


def one(is_="receptacle", *, breaker=20, **more):
    outlet = device("outlet", "bedroom", is_, **more)
    return wired(outlet, circuits=[circuit("first", "outlet", breaker=breaker)])


def test_two_cables_a_receptacle_and_clamps():
    # E19: NEC 314.16(B): 4 conductors, grounds, clamps, 2 for the device: 8 x 2.25 = 18.0, fits 18.0
    found = fill(one(), "12/2", "12/2", book=rules(box_clamps="yes"))
    assert found.needed_in3 == pytest.approx(18.0)
    assert (found.size, found.fits) == ("3 x 2 x 3 1/2 device", True)


def test_three_cables_of_12_a_device_and_clamps():
    # E20: NEC 314.16(B): 6 conductors of 12 AWG, device, clamps: 20.25 in3; the example has no grounds
    steps = fill(one(), "12/2", "12/2", "12/2", book=rules(box_clamps="yes")).working.steps
    assert sum(step.value for step in steps if "ground" not in step.label) == pytest.approx(20.25)


def test_cables_of_two_sizes():
    # E21: NEC 314.16(B): 7 of 12 AWG, 2 of 10 AWG, grounds up to 10 AWG, a device on 12 AWG: 30.0 in3 with
    # an isolated ground of 2.25 in3, which no cable of a house has
    found = fill(one(), "12/3", "12/2", "12/2", "10/2")
    assert found.needed_in3 == pytest.approx(30.0 - 2.25)


@pytest.mark.parametrize(("inside", "count"), [(6, 1), (11.75, 1), (12, 2), (20, 2)])
def test_a_long_loop_counts_twice(inside, count):
    # E23: NEC 314.16(B)(1): unbroken through the box counts once, looped by 12 in or more twice
    loop = ((12, Length.of(inches=inside)),)
    working = fill_working(conductors=(14,), through=loop, rule=fill_rule(RULES), key="loop")
    assert working.value == pytest.approx(2.0 + count * 2.25)


def test_the_device_counts_by_the_conductors_on_it():
    # E23: a receptacle on a 20 A circuit in a box through which 10 AWG passes counts 2 x 2.25
    found = fill(one(), "12/2", "10/2")
    assert found.needed_in3 == pytest.approx(2 * 2.25 + 2 * 2.5 + 2.5 + 2 * 2.25)


@pytest.mark.parametrize(
    ("edition", "count", "grounds"), [("2020", 6, 3.0), ("2017", 6, 2.0), ("2020", 4, 2.0)]
)
def test_grounds_by_edition(edition, count, grounds):
    # E22: NEC 314.16(B)(5)
    found = fill(one(breaker=15), *["14/2"] * count, book=rules(edition=edition))
    assert found.needed_in3 == pytest.approx(2 * count * 2.0 + grounds + 4.0)


def test_a_light_covers_its_box_and_takes_no_room_in_it():
    assert fill(one("light", breaker=15), "14/2", "14/2").needed_in3 == pytest.approx(4 * 2 + 2)


def test_the_receptacle_of_a_range_takes_two_gangs():
    house = wired(device("outlet", "kitchen", what="range", volts=240, load=12_000))
    found = fill(house, "6/3")
    assert found.gangs == 2
    assert found.needed_in3 == pytest.approx(3 * 5 + 5 + 4 * 5)


def test_a_wired_appliance_has_no_box_of_ours():
    house = wired(device("heater", "laundry", what="water heater", volts=240))
    plan = plan_circuits(house, distance=straight(house), rules=RULES)
    assert fill_boxes(house, plan.circuits, [], rules=RULES) == ()


def test_a_box_too_full_is_found_with_its_line():
    house = wired(
        device("outlet", "bedroom", "receptacle", line=33), circuits=[circuit("first", "outlet", breaker=20)]
    )
    full = fill(house, *["12/2"] * 6)
    (finding,) = check_fill([full], house, rules=RULES)
    assert not full.fits
    assert (finding.where.line, finding.rule) == (33, "cable.box-full")
    assert "in3" in finding.found


def test_switches_of_one_box_stand_in_as_many_gangs():
    devices = (
        device("light", "bedroom", "light"),
        device("one", "bedroom", "switch", box="both", serves=("light",)),
        device("other", "bedroom", "switch", box="both", serves=("light",)),
    )
    assert fill(wired(*devices), "14/2", box="both").gangs == 2


KINDS = st.lists(st.sampled_from(["14/2", "14/3", "12/2", "12/3", "10/2", "10/3"]), min_size=1, max_size=6)


@given(KINDS)
def test_fill_is_the_sum_of_its_parts(kinds):
    found = fill(HOUSE, *kinds)
    awgs = [cable_kind(kind).awg for kind in kinds]
    insulated = sum(len(cable_kind(k).insulated) * volume_each_in3(cable_kind(k).awg) for k in kinds)
    grounds = volume_each_in3(min(awgs)) * (1 + max(0, len(kinds) - 4) / 4)
    assert found.needed_in3 == pytest.approx(insulated + grounds + 2 * volume_each_in3(12))
    assert found.needed_in3 == pytest.approx(sum(step.value for step in found.working.steps))


@given(KINDS)
def test_no_smaller_box_of_the_same_gangs_would_do(kinds):
    found = fill(HOUSE, *kinds)
    same = [s for s in box_sizes().values() if s.gangs == found.gangs and not s.clamps]
    assert found.fits == any(size.volume_in3 >= found.needed_in3 for size in same)
    if found.fits:
        assert not any(found.needed_in3 <= size.volume_in3 < found.volume_in3 for size in same)


HOUSE = one()
