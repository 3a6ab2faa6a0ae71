"""Voltage drop against published examples; advice, never a violation."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.cable import cable_rules
from setday.cable.circuit import PANEL, Circuit, CircuitUse, RunLength
from setday.cable.loads.dropping import advise_on_drop, drop_of, longest_ft, voltage_drop
from setday.findings import Severity
from setday.rules import LocalRules

RULES = cable_rules()
STRANDED = cable_rules(LocalRules(values={"cable.drop_stranded": "yes"}))


def made(use=CircuitUse.INDIVIDUAL, load=2400.0, breaker=20, awg=12, volts=120):
    return Circuit(
        name="first", use=use, devices=("far",), breaker=breaker, volts=volts, awg=awg, cable=f"{awg}/2",
        load_va=load,
    )  # fmt: skip


def run(length, start=PANEL, end="far", cable="12/2"):
    return RunLength(start=start, end=end, cable=cable, length_ft=length)


@pytest.mark.parametrize(
    ("awg", "constant", "table", "rules"),
    [
        (12, 7.90, 7.92, STRANDED),  # E35: K = 12.9; table 8, stranded
        (12, 7.90, 7.72, RULES),  # E35: table 8, solid
        (10, 4.97, 4.96, STRANDED),
        (8, 3.13, 3.11, STRANDED),
    ],
)
def test_a_hundred_feet_at_20_a(awg, constant, table, rules):
    drop = voltage_drop(100, awg=awg, current_a=20, rules=rules)
    assert drop == pytest.approx(table, rel=0.01)
    assert drop == pytest.approx(constant, rel=0.03)  # the two methods differ by up to 3 %


def test_through_a_circuit_it_is_the_same():
    drop = drop_of(made(), [run(100)], rules=RULES)
    assert drop.volts == pytest.approx(7.72, rel=0.001)  # E35
    assert drop.percent == pytest.approx(6.43, abs=0.01)


@pytest.mark.parametrize(("awg", "current", "length"), [(14, 12, 48.9), (12, 16, 58.3)])
def test_the_length_that_loses_three_percent(awg, current, length):
    # E36: from table 8, solid, 120 V
    assert longest_ft(awg=awg, current_a=current, volts=120, percent=3, rules=RULES) == pytest.approx(
        length, abs=0.2
    )


@pytest.mark.parametrize(("length", "notes"), [(46.0, 0), (48.5, 1)])
def test_more_than_three_percent_is_noted_never_called_a_problem(length, notes):
    # E37: 210.19(A), 215.2(A), informational notes: advice on both sides of the limit
    circuit = made()
    drop = drop_of(circuit, [run(length)], rules=RULES)
    found = advise_on_drop([drop], [circuit], rules=RULES)
    assert [finding.severity for finding in found] == [Severity.NOTE] * notes


def test_outlets_along_a_general_circuit_lose_less_than_one_load_at_its_end():
    circuit = made(CircuitUse.GENERAL, breaker=15, awg=14)
    runs = [run(40, end="near", cable="14/2"), run(40, "near", "far", "14/2")]
    outlets = {"near": 720.0, "far": 720.0}
    spread = drop_of(circuit, runs, rules=RULES, outlets=outlets)
    assert spread.volts == pytest.approx(2 * 40 * 0.00307 * (12 + 6))
    at_end = drop_of(circuit, runs, rules=RULES)
    assert at_end.volts == pytest.approx(2 * 80 * 0.00307 * 12)


def test_a_circuit_without_a_home_run_has_no_drop():
    assert drop_of(made(), [run(10, "near", "far")], rules=RULES) is None


@given(st.floats(1, 200), st.floats(0, 100), st.sampled_from([14, 12, 10, 8, 6]))
def test_longer_and_thinner_never_lose_less(length, more, awg):
    here = voltage_drop(length, awg=awg, current_a=10, rules=RULES)
    assert voltage_drop(length + more, awg=awg, current_a=10, rules=RULES) >= here
    if awg > 6:
        assert voltage_drop(length, awg=awg - 2, current_a=10, rules=RULES) < here


@given(st.lists(st.floats(1, 60), min_size=1, max_size=6))
def test_the_drop_is_the_sum_of_its_steps(lengths):
    boxes = [PANEL, *(f"box {n}" for n in range(len(lengths)))]
    runs = [run(length, boxes[n], boxes[n + 1]) for n, length in enumerate(lengths)]
    drop = drop_of(made(), runs, rules=RULES)
    assert drop.box == boxes[-1]
    assert drop.length_ft == pytest.approx(sum(lengths))
    assert drop.volts == pytest.approx(sum(step.value for step in drop.working.steps[:-1]))
