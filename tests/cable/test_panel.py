"""The panel directory: every circuit has its place, and no directory is more even."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.cable import cable_rules
from setday.cable.circuit import Circuit, CircuitUse, Leg
from setday.cable.circuits.panel import check_panel, directory, leg_of_space
from setday.cable.loads.legs import split_evenly
from setday.cable.loads.service import check_service, service_for
from setday.findings import Severity, Where
from setday.house import PanelPlace
from tests.cable.test_load_published import D1B, loads
from tests.house.sketches import at

RULES = cable_rules()


def made(name, load, volts=120):
    return Circuit(
        name=name, use=CircuitUse.GENERAL, devices=(name,), breaker=20, volts=volts, awg=12, cable="12/2",
        load_va=float(load),
    )  # fmt: skip


CIRCUITS = st.lists(
    st.tuples(st.integers(0, 12_000), st.sampled_from([120, 120, 240])), min_size=1, max_size=14
).map(lambda found: [made(f"circuit {n}", load, volts) for n, (load, volts) in enumerate(found)])


@given(CIRCUITS)
def test_every_circuit_has_its_spaces(circuits):
    found = directory(circuits, spaces=42)
    for circuit in circuits:
        spaces = found.spaces_of(circuit.name)
        assert len(spaces) == circuit.poles
        if circuit.poles == 2:
            assert spaces[1] - spaces[0] == 2  # one below the other, so on different legs
            assert {leg_of_space(space) for space in spaces} == set(Leg)
    assert len(found.spare) == 42 - sum(circuit.poles for circuit in circuits)


@given(CIRCUITS)
def test_the_legs_differ_by_no_more_than_the_largest_single_load(circuits):
    found = directory(circuits, spaces=42)
    single = [circuit.load_va for circuit in circuits if circuit.poles == 1]
    assert abs(found.leg_a_va - found.leg_b_va) <= max(single, default=0) + 1e-6
    assert found.leg_a_va + found.leg_b_va == pytest.approx(sum(circuit.load_va for circuit in circuits))
    assert found.proven


@settings(max_examples=80)
@given(st.lists(st.integers(0, 5_000), min_size=1, max_size=9), st.integers(0, 9), st.integers(0, 9))
def test_a_division_over_two_legs_is_the_best_of_all(loads_va, most_a, most_b):
    best = None
    for choice in product([Leg.A, Leg.B], repeat=len(loads_va)):
        if choice.count(Leg.A) <= most_a and choice.count(Leg.B) <= most_b:
            apart = abs(sum(v if leg is Leg.A else -v for v, leg in zip(loads_va, choice, strict=True)))
            best = apart if best is None else min(best, apart)
    legs = split_evenly(loads_va, most_a=most_a, most_b=most_b)
    assert (legs is None) == (best is None)
    if legs is not None:
        assert legs.count(Leg.A) <= most_a
        assert legs.count(Leg.B) <= most_b
        assert abs(sum(v if g is Leg.A else -v for v, g in zip(loads_va, legs, strict=True))) == best


def panel(spaces=30, rating=200):
    return PanelPlace(point=at("0'", "0'"), spaces=spaces, rating=rating, where=Where(file="h.yaml", line=90))


@pytest.mark.parametrize(
    ("spaces", "rule", "severity"),
    [
        (8, "cable.panel-spaces", Severity.PROBLEM),
        (12, "cable.panel-spare", Severity.NOTE),
        (20, None, None),
    ],
)
def test_a_panel_too_small_is_found_with_its_line(spaces, rule, severity):
    circuits = [made(f"circuit {n}", 1_000) for n in range(10)]
    found = check_panel(circuits, panel(spaces), RULES)
    assert [(f.rule, f.severity, f.where.line) for f in found] == ([(rule, severity, 90)] if rule else [])


def test_circuits_beyond_the_panel_still_get_a_directory():
    circuits = [made(f"circuit {n}", 1_000, 240) for n in range(7)]
    found = directory(circuits, spaces=4)
    assert all(len(found.spaces_of(circuit.name)) == 2 for circuit in circuits)


@pytest.mark.parametrize(("rating", "rules"), [(100, ["cable.panel-rating"]), (110, []), (200, [])])
def test_a_service_too_small_for_the_load_is_found(rating, rules):
    # E10: example D1(b) asks for 110 A
    service = service_for(loads(D1B), RULES)
    assert [f.rule for f in check_service(service, panel(rating=rating), RULES)] == rules


def test_a_rating_that_nobody_makes_is_asked_about():
    service = service_for(loads(D1B), RULES, rating=190)
    (finding,) = check_service(service, panel(rating=190), RULES)
    assert (finding.severity, finding.where.line) == (Severity.ASK, 90)
