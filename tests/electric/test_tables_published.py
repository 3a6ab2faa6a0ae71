"""Conductors, boxes and grounds against published tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.electric import (
    ampacity_a,
    box_volume_in3,
    bundled_ampacity,
    electrode_conductor,
    equipment_ground,
    impedance_ohm_per_ft,
    largest_breaker_a,
    most_conductors,
    next_standard_breaker,
    ohm_per_ft,
    smallest_conductor,
    standard_breakers,
    volume_each_in3,
)
from setday.errors import RuleError


@pytest.mark.parametrize(
    ("awg", "each"), [(18, 1.50), (16, 1.75), (14, 2.00), (12, 2.25), (10, 2.50), (8, 3.00), (6, 5.00)]
)
def test_room_a_conductor_takes(awg, each):
    assert volume_each_in3(awg) == each  # E18: NEC table 314.16(B)


@pytest.mark.parametrize(
    ("size", "volume", "awg", "most"),
    [
        ("4 x 1 1/4 octagon", 12.5, 14, 6),  # from memory
        ("4 x 1 1/2 octagon", 15.5, 14, 7),
        ("4 x 2 1/8 octagon", 21.5, 14, 10),  # from memory
        ("4 x 1 1/4 square", 18.0, 12, 8),
        ("4 x 1 1/2 square", 21.0, 12, 9),
        ("4 x 2 1/8 square", 30.3, 12, 13),
    ],
)
def test_metal_boxes(size, volume, awg, most):
    assert box_volume_in3(size) == volume  # E24: NEC table 314.16(A)
    assert most_conductors(volume, awg=awg) == most


@pytest.mark.parametrize(
    ("awg", "at_60", "at_90"), [(14, 15, 25), (12, 20, 30), (10, 30, 40), (8, 40, 55), (6, 55, 75)]
)
def test_ampacity_of_copper(awg, at_60, at_90):
    # E30: NEC table 310.16, residential code E3705.1
    assert (ampacity_a(awg, column=60), ampacity_a(awg, column=90)) == (at_60, at_90)


@pytest.mark.parametrize(("awg", "amps"), [(14, 15), (12, 20), (10, 30)])
def test_breaker_of_a_small_conductor(awg, amps):
    assert largest_breaker_a(awg) == amps  # E31: NEC 240.4(D)


@pytest.mark.parametrize(
    ("awg", "solid", "stranded"),
    [(14, 3.07, 3.14), (12, 1.93, 1.98), (10, 1.21, 1.24), (8, 0.764, 0.778)],
)
def test_resistance_of_copper(awg, solid, stranded):
    # E32: NEC chapter 9 table 8, 8 AWG and larger in cable are stranded
    assert ohm_per_ft(awg) * 1000 == pytest.approx(solid)
    assert ohm_per_ft(awg, stranded=True) * 1000 == pytest.approx(stranded)


@pytest.mark.parametrize(
    ("awg", "within"), [(14, 0.005), (12, 0.005), (10, 0.005), (8, 0.005), (6, 0.03), (4, 0.03)]
)
def test_resistance_from_the_constants_of_copper(awg, within):
    # E33: NBS Handbook 100 (1966): 10.371 ohm circular mil per foot at 20 C, .00393 per degree, to 75 C
    mils = 5 * 92 ** ((36 - awg) / 39)
    ohm = 10.371 / mils**2 * (1 + 0.00393 * 55)
    assert ohm_per_ft(awg) == pytest.approx(ohm, rel=within)


@pytest.mark.parametrize(
    ("awg", "ohm", "within"),
    [
        (14, 2.7, 0.02 * 2.7),  # E34: table 9, Z = R x 0.85 + X x 0.527
        (12, 1.7, 0.02 * 1.7),
        (10, 1.1, 0.05 + 0.85 * 0.05),  # R and Z are each printed to a tenth: 1.046 from the printed R
    ],
)
def test_impedance_at_a_power_factor_of_85(awg, ohm, within):
    assert impedance_ohm_per_ft(awg, power_factor=0.85) * 1000 == pytest.approx(ohm, abs=within)


@pytest.mark.parametrize(
    ("cables", "kept", "breaker", "holds"),
    [
        (("14/2",) * 3, 15, 15, True),  # E29: 25 A x 80 % = 20, held to 15
        (("12/2",) * 4, 20, 20, True),  # 30 A x 70 % = 21, held to 20
        (("12/2",) * 5, 15, 20, False),  # 30 A x 50 % = 15
    ],
)
def test_cables_in_one_sealed_hole(cables, kept, breaker, holds):
    working = bundled_ampacity(cables)
    assert working.value == pytest.approx(kept, abs=0.1)
    assert (working.value >= breaker) is holds


@pytest.mark.parametrize(
    ("breaker", "ground"), [(15, "14"), (20, "12"), (30, "10"), (60, "10"), (100, "8"), (200, "6")]
)
def test_equipment_grounds(breaker, ground):
    assert equipment_ground(breaker)[0] == ground  # E38: NEC table 250.122


@pytest.mark.parametrize(("service", "electrode"), [("2", "8"), ("1/0", "6"), ("3/0", "4"), ("350", "2")])
def test_electrode_conductors(service, electrode):
    assert electrode_conductor(service)[0] == electrode  # E39: NEC table 250.66


@given(st.floats(1, 380), st.floats(0, 100))
def test_more_current_never_allows_thinner_wire(current, more):
    first = smallest_conductor(current, column=75)
    try:
        second = smallest_conductor(current + more, column=75)
    except RuleError:
        return
    assert ampacity_a(second, column=75) >= ampacity_a(first, column=75) >= current


@given(st.floats(0.1, 400))
def test_the_next_breaker_is_the_smallest_that_is_not_below(current):
    rating = next_standard_breaker(current)
    assert rating >= current - 1e-9
    assert all(other >= rating or other < current for other in standard_breakers())


def test_what_the_tables_lack_is_said_plainly():
    with pytest.raises(RuleError, match="no copper conductor of 7 AWG"):
        ohm_per_ft(7)
    with pytest.raises(RuleError, match="carries 900 A"):
        smallest_conductor(900, column=75)
    with pytest.raises(RuleError, match="500 A"):
        next_standard_breaker(500)
