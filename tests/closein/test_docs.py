"""The page about gates lists every rule as it stands, and every state."""

from setday.closein import GateState, gate_rules
from setday.drawing import STATE_LETTERS
from tests.listed_rules import DOCS, check_listed

PAGE = DOCS / "gates.md"


def test_every_rule_is_on_the_page():
    check_listed(PAGE, gate_rules(), head="key | rule", test="tests/closein/test_docs.py")


def test_every_state_is_on_the_page_with_its_letter():
    text = PAGE.read_text(encoding="utf-8")
    assert [state for state in GateState if f"| {STATE_LETTERS[state]} | {state.value} |" not in text] == []


def test_the_page_says_what_is_not_computed():
    assert "## What is not computed" in PAGE.read_text(encoding="utf-8")
