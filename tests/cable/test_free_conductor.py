"""Cable left in a box, on both sides of the limits of NEC 300.14."""

import pytest

from setday.cable import cable_rules
from setday.cable.loads.free_conductor import check_tail, least_tail
from setday.measure import Length, parse_length
from setday.rules import LocalRules

RULES = cable_rules()


@pytest.mark.parametrize(
    ("depth", "opening", "expected"),
    [
        ('2 1/2"', '2"', 6.25),  # E27: 6 in from the sheath governs
        ('3 1/4"', '2"', 6.25),  # 3 in past the opening is just 6 in from the sheath
        ('3 1/2"', '2"', 6.5),  # 3 in past the opening governs
        ('3 1/2"', '8"', 6.25),  # an opening of 8 in or more asks for the 6 in only
    ],
)
def test_free_conductor(depth, opening, expected):
    working = least_tail(RULES, depth=parse_length(depth), opening=parse_length(opening))
    assert working.value == expected


@pytest.mark.parametrize(("tail", "found"), [('6 1/4"', 1), ('6 1/2"', 0), ('8"', 0)])
def test_a_tail_set_too_short_is_found(tail, found):
    local = LocalRules(values={"cable.box_tail": tail})
    assert len(check_tail(cable_rules(local))) == found


def test_the_working_adds_up():
    working = least_tail(RULES)
    sheath, *_, together = working.steps
    assert together.value == working.value == sheath.value + max(s.value for s in working.steps[1:-1])
    assert working.value == Length.of(inches=6.5).inches
