"""The page about boards lists every rule as it stands."""

from setday.boards import board_rules
from tests.listed_rules import DOCS, check_listed

PAGE = DOCS / "boards.md"


def test_every_rule_is_on_the_page():
    check_listed(PAGE, board_rules(), head="key | rule", test="tests/boards/test_docs.py")


def test_the_page_says_what_is_not_computed():
    assert "## What is not computed" in PAGE.read_text(encoding="utf-8")
