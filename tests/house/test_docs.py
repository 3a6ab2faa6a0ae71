"""The page about the house file lists the rules of framing as they stand."""

from setday.house import house_rules
from tests.listed_rules import DOCS, check_listed


def test_every_rule_is_on_the_page():
    page = DOCS / "house-file.md"
    check_listed(page, house_rules(), head="rule | what it says", test="tests/house/test_docs.py")
