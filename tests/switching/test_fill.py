"""Box fill, against published examples."""

import pytest

from setday.electric import fill_working
from setday.rules import LocalRules
from setday.switching import box_fill, fill_rule, switching_rules
from tests.switching.circuits import standard


def fill_in3(*, edition="2020 and later", **held):
    rules = switching_rules(LocalRules(values={"switching.fill_edition": edition}))
    return fill_working(**held, rule=fill_rule(rules), key="box-fill").value


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
    assert fill_in3(**asked) == pytest.approx(expected)


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
    assert fill_in3(conductors=(), grounds=grounds, edition=edition) == expected


def test_pigtails_count_nothing_and_each_end_that_enters_counts_one():
    # E23: 2 + 3 insulated conductors, one volume for two grounds, two for the switch
    assert box_fill(standard("three-way-light-between"), "near").value == (5 + 1 + 2) * 2.0
