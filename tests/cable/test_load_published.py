"""Load of dwellings against the examples of annex D, through a house with its devices."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.cable import cable_rules
from setday.cable.appliance import LoadClass
from setday.cable.loads.cooking import cooking_demand
from setday.cable.loads.legs import leg_loads
from setday.cable.loads.load import DwellingLoads, LoadItem, amperes, dwelling_loads
from setday.cable.loads.load_optional import optional_load
from setday.cable.loads.load_standard import neutral_load, standard_load
from setday.cable.loads.service import service_for
from setday.electric import ampacity_a
from setday.errors import RuleError
from setday.house import TypedDevice
from setday.rules import LocalRules
from tests.cable.wired import device, wired

RULES = cable_rules()


def large(what: str, load: int, volts: int = 240, name: str = "") -> TypedDevice:
    return device(name or what, "kitchen", what=what, load=load, volts=volts)


D1A = (large("range", 12_000), large("dryer", 5_500))
D1B = (
    *D1A,
    large("air conditioner", 6 * 240),
    large("room air conditioner", 12 * 120, 120),
    large("dishwasher", 10 * 120, 120),
    large("disposer", 8 * 120, 120),
)
D2A = (
    large("range", 12_000),
    large("water heater", 2_500),
    large("dishwasher", 1_200, 120),
    large("dryer", 5_000),
    large("air conditioner", 6 * 230),
    *(large("baseboard heater", 1_800, name=f"heater {n}") for n in range(5)),
)
D2B = (
    *(large("air conditioner", 7 * 240, name=f"unit {n}") for n in range(6)),
    large("oven", 4_000, name="oven 1"),
    large("oven", 4_000, name="oven 2"),
    large("cooktop", 5_100),
    large("water heater", 4_500),
    large("dishwasher", 1_200, 120),
    large("dryer", 5_000),
)


def loads(devices):
    """The loads of a house of 1500 ft2 outside with two small-appliance circuits and one for laundry."""
    found = dwelling_loads(wired(*devices), rules=RULES)
    assert found.area_sqft == pytest.approx(1500)
    return found


@pytest.mark.parametrize(
    ("devices", "method", "va", "current"),
    [
        (D1A, standard_load, 18_600, 78),  # E07: annex D, example D1(a)
        (D1A, neutral_load, 14_550, 61),  # E08: annex D, example D1(a), 220.61
        (D2A, optional_load, 21_480, 90),  # E11: annex D, example D2(a), 220.82
        (D2A, neutral_load, 15_400, 64),  # E12: annex D, example D2(a)
        (D2B, optional_load, 29_200, 122),  # E13: annex D, example D2(b)
    ],
    ids=["D1a", "D1a-neutral", "D2a", "D2a-neutral", "D2b"],
)
def test_examples_of_annex_d_to_the_volt_ampere(devices, method, va, current):
    working = method(loads(devices), RULES)
    assert working.value == pytest.approx(va, abs=1e-6)
    assert working.steps[-1].result == f"{current} A"


def test_the_steps_of_example_d1a_are_those_of_the_book():
    values = [step.value for step in standard_load(loads(D1A), RULES).steps]
    # E07: 4500 + 3000 + 1500 = 9000; 3000 + 35 % of 6000 = 5100; range 8000, dryer 5500
    assert values[:-1] == pytest.approx([4500, 3000, 1500, 9000, 3000, 2100, 8000, 5500, 18_600])


def test_example_d2b_counts_ovens_and_cooktop_by_note_3():
    demand = next(s for s in neutral_load(loads(D2B), RULES).steps if s.label.startswith("cooking"))
    assert demand.value == pytest.approx(0.70 * 0.55 * 13_100)  # E15: 13.1 kVA x 55 %, 7200 VA


def test_example_d1b_loads_each_leg():
    # E10: A 99, B 104, neutral 84 by arithmetic (83 as printed in 2005), service 110 A
    legs = leg_loads(loads(D1B), RULES)
    assert (amperes(legs.a_a), amperes(legs.b_a), amperes(legs.neutral_a)) == (99, 104, 84)
    assert service_for(loads(D1B), RULES).rating == 110


def test_a_dwelling_takes_at_least_100_a():
    assert service_for(loads(D1A), RULES).rating == 100  # E07: 78 A, 100-A minimum


def test_general_lighting_of_the_example_in_amperes():
    lighting = standard_load(loads(D1A), RULES).steps[0].value
    assert lighting / 120 == pytest.approx(37.5)  # E09: annex D, example D1(a); the circuits: test_circuits


@pytest.mark.parametrize(
    ("ratings", "demand"),
    [
        ([12_000], 8_000),  # E14: table 220.55, column C and note 1
        ([14_000], 8_800),
        ([16_000], 9_600),
        ([16_000] * 24, 46_800),  # E15: annex D, example D6
        ([13_600] * 30, 49_500),  # E15: 1.6 counts as 2
        ([4_000, 4_000, 5_100], 7_205),  # E15: note 3, 55 % of 13.1 kVA
    ],
)
def test_demand_of_cooking_appliances(ratings, demand):
    assert cooking_demand(ratings)[0] == pytest.approx(demand)


def test_a_range_over_27_kw_is_outside_the_table():
    with pytest.raises(RuleError, match="27 kW"):
        cooking_demand([28_000])


def test_a_small_dryer_counts_5000_va():
    # E16: 220.54, from memory
    step = next(s for s in standard_load(loads((large("dryer", 4_500),)), RULES).steps if s.label == "dryer")
    assert step.value == 5_000


@pytest.mark.parametrize(("count", "percent"), [(3, 100), (4, 75)])
def test_four_appliances_fastened_in_place_are_reduced(count, percent):
    # E16: three and four appliances, NEC 220.53
    devices = [large("dishwasher", 1_000, 120, name=f"dishwasher {n}") for n in range(count)]
    plain = standard_load(loads(()), RULES).value
    assert standard_load(loads(devices), RULES).value - plain == pytest.approx(count * 1_000 * percent / 100)


@pytest.mark.parametrize(("rating", "size", "carries"), [(100, "4", 85), (200, "2/0", 175)])
def test_service_conductors_carry_83_percent(rating, size, carries):
    # E17: 310.12; ampacities read in the 2018 residential code
    assert service_for(loads(D1A), RULES, rating=rating).conductor == size
    assert ampacity_a(size, column=75) == carries


def test_bath_and_garage_circuits_add_nothing():
    # E06: 210.11(C), 220.52
    more = (device("bath receptacle", "bath", "receptacle"), device("bath 2", "bath", "receptacle"))
    assert standard_load(loads((*D1A, *more)), RULES).value == standard_load(loads(D1A), RULES).value


def test_a_local_rule_changes_the_load_and_says_so():
    local = LocalRules(
        values={"cable.lighting_va_per_sqft": "2"}, reasons={"cable.lighting_va_per_sqft": "the town"}
    )
    working = standard_load(loads(D1A), cable_rules(local))
    assert working.value == pytest.approx(18_600 - 1500 * 0.35)
    assert working.steps[0].source.certainty == "local"


APPLIANCES = st.builds(
    LoadItem,
    name=st.sampled_from(["a", "b", "c"]),
    load_class=st.sampled_from(sorted(set(LoadClass) - {LoadClass.COOKING})),
    va=st.integers(100, 8_000).map(float),
    volts=st.sampled_from([120, 240]),
    motor=st.booleans(),
)
DWELLINGS = st.builds(
    DwellingLoads,
    area_sqft=st.integers(0, 5_000).map(float),
    small_appliance=st.integers(2, 4),
    laundry=st.integers(1, 2),
    items=st.lists(APPLIANCES, max_size=8).map(tuple),
)


@given(DWELLINGS, APPLIANCES)
def test_the_optional_load_never_falls_when_an_appliance_is_added_but_for_the_share_of_heat(found, item):
    more = DwellingLoads(
        area_sqft=found.area_sqft, small_appliance=found.small_appliance, laundry=found.laundry,
        items=(*found.items, item),
    )  # fmt: skip
    if item.load_class is LoadClass.HEAT:
        return  # the fourth heating unit lowers the share of all of them, 220.82(C)
    assert optional_load(more, RULES).value >= optional_load(found, RULES).value - 1e-9


@given(DWELLINGS, APPLIANCES)
def test_the_standard_load_never_falls_when_an_appliance_is_added_but_for_the_fourth_fastened(found, item):
    more = DwellingLoads(
        area_sqft=found.area_sqft, small_appliance=found.small_appliance, laundry=found.laundry,
        items=(*found.items, item),
    )  # fmt: skip
    if item.load_class is LoadClass.FASTENED and len(found.of(LoadClass.FASTENED)) == 3:
        return  # the fourth lowers the share of all of them, 220.53
    assert standard_load(more, RULES).value >= standard_load(found, RULES).value - 1e-9


@given(DWELLINGS)
def test_the_neutral_carries_no_more_than_the_whole(found):
    assert neutral_load(found, RULES).value <= standard_load(found, RULES).value + _idle(found) + 1e-9


def _idle(found):
    """Cooling at 120 V counts on the neutral even where heating outweighs it, and so does its motor."""
    return 1.25 * sum(i.va for i in found.items if i.load_class in {LoadClass.COOLING, LoadClass.HEAT})


@given(DWELLINGS)
def test_a_larger_house_never_loads_less(found):
    larger = DwellingLoads(
        area_sqft=found.area_sqft + 100, small_appliance=found.small_appliance, laundry=found.laundry,
        items=found.items,
    )  # fmt: skip
    for method in (standard_load, optional_load, neutral_load):
        assert method(larger, RULES).value >= method(found, RULES).value - 1e-9
