"""Box fill, against published examples."""

import pytest

from setday.rules import LocalRules
from setday.switching import box_fill, box_volume_in3, fill_working, most_conductors, switching_rules
from setday.switching.rulebook import largest_breaker_a, ohm_per_ft, volume_each_in3
from tests.switching.circuits import standard


def rules(edition="2020 and later"):
    return switching_rules(LocalRules(values={"switching.fill_edition": edition}))


@pytest.mark.parametrize(
    ("awg", "each"), [(18, 1.50), (16, 1.75), (14, 2.00), (12, 2.25), (10, 2.50), (8, 3.00), (6, 5.00)]
)
def test_volume_of_a_conductor(awg, each):
    assert volume_each_in3(awg) == each  # E18: NEC table 314.16(B)


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        # E19: two 12/2 with ground, a receptacle, clamps: 8 x 2.25
        ({"conductors": (12,) * 4, "grounds": (12, 12), "devices": (12,), "clamps": True}, 18.0),
        # E20: six 12 AWG, a device, clamps
        ({"conductors": (12,) * 6, "devices": (12,), "clamps": True}, 20.25),
        # E21: seven 12, two 10, a 10 ground, an isolated 12 ground, a device on 12
        (
            {
                "conductors": (12,) * 7 + (10, 10),
                "grounds": (10,),
                "isolated_grounds": (12,),
                "devices": (12,),
            },
            30.0,
        ),
    ],
)
def test_published_examples(asked, expected):
    assert fill_working(**asked, rules=rules()).value == pytest.approx(expected)


@pytest.mark.parametrize(
    ("grounds", "edition", "expected"),
    [
        ((12,) * 10, "2020 and later", 5.625),
        ((14,) * 6, "2020 and later", 3.00),
        ((12,) * 10, "2017 and earlier", 2.25),
        ((14,) * 6, "2017 and earlier", 2.00),
        ((14,) * 4, "2020 and later", 2.00),
    ],
)
def test_grounds_by_edition(grounds, edition, expected):
    # E22: NEC 314.16(B)(5)
    assert fill_working(conductors=(), grounds=grounds, rules=rules(edition)).value == expected


@pytest.mark.parametrize(
    ("size", "volume", "awg", "most"),
    [
        ("4 x 1 1/2 octagon", 15.5, 14, 7),
        ("4 x 1 1/4 square", 18.0, 12, 8),
        ("4 x 1 1/2 square", 21.0, 12, 9),
        ("4 x 2 1/8 square", 30.3, 12, 13),
    ],
)
def test_metal_boxes(size, volume, awg, most):
    assert box_volume_in3(size) == volume  # E24: NEC table 314.16(A)
    assert most_conductors(volume, awg=awg) == most


def test_pigtails_count_nothing_and_each_end_that_enters_counts_one():
    # E23: 2 + 3 insulated conductors, one volume for two grounds, two for the switch
    assert box_fill(standard("three-way-light-between"), "near").value == (5 + 1 + 2) * 2.0


@pytest.mark.parametrize(("awg", "amps"), [(14, 15), (12, 20), (10, 30)])
def test_breaker_of_a_small_conductor(awg, amps):
    assert largest_breaker_a(awg) == amps  # E31: NEC 240.4(D)


@pytest.mark.parametrize(("awg", "ohm"), [(14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)])
def test_resistance_of_copper(awg, ohm):
    assert ohm_per_ft(awg) * 1000 == pytest.approx(ohm)  # E32: NEC chapter 9 table 8
    # E33: NBS Handbook 100, 10.371 ohm circular mil per foot at 20 C, to 75 C
    mils = 5 * 92 ** ((36 - awg) / 39)
    assert ohm_per_ft(awg) * 1000 == pytest.approx(10.371 * 1000 / mils**2 * (1 + 0.00393 * 55), rel=0.005)
