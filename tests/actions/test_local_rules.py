"""Local rules that no trade has, or that cannot be, are found with their lines."""

import pytest

from setday.actions import demo_text, open_house

RULES = """
local rules:
  boards.least_piece:
    value: {value}
    said by: the instructor
  {key}: 6"
"""


@pytest.mark.parametrize(
    ("value", "key", "said"),
    [
        ('16"', "boards.leest_piece", ["perhaps boards.least_piece"]),
        ("long", "boards.floor_gap_least", ["is not a length", "out of range"]),
        ("9'", "plumbing.slope", ["out of range", "no trade has a rule of that name"]),
    ],
)
def test_every_wrong_rule_is_found_at_once(value: str, key: str, said: list[str]) -> None:
    text = demo_text("shed") + RULES.format(value=value, key=key)
    opened = open_house(text, name="shed.yaml")
    assert opened.house is None
    told = [str(f) for f in opened.problems]
    assert len(told) == len(said), told
    for words in said:
        assert any(words in one for one in told), told
    assert all(f.where.line > text.count("\n") - 5 for f in opened.problems)


def test_a_rule_that_can_be_is_in_force() -> None:
    opened = open_house(demo_text("shed") + RULES.format(value='16"', key="boards.least_row"), name="s.yaml")
    assert opened.house is not None
    assert opened.local.values["boards.least_piece"] == '16"'
