"""The page about boards lists every rule as it stands.

``SETDAY_WRITE_DOCS=1`` writes the list anew instead of comparing it.
"""

import os
from pathlib import Path

from setday.boards import board_rules
from setday.measure import Length
from setday.rules import Rule

PAGE = Path(__file__).parents[2] / "docs" / "boards.md"
BEGIN = "<!-- rules: written by tests/boards/test_docs.py -->\n"
END = "<!-- end of rules -->"


def written(rule: Rule) -> str:
    value = rule.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value) if isinstance(value, Length | str) else f"{value:g}"


def listed() -> str:
    lines = ["| key | rule | value | source |", "|---|---|---|---|"]
    lines += [f"| `{rule.key}` | {rule.label} | {written(rule)} | {rule.source} |" for rule in board_rules()]
    return "\n" + "\n".join(lines) + "\n\n"


def test_every_rule_is_on_the_page():
    text = PAGE.read_text(encoding="utf-8")
    before, rest = text.split(BEGIN)
    found, after = rest.split(END)
    if os.environ.get("SETDAY_WRITE_DOCS"):
        PAGE.write_text(f"{before}{BEGIN}{listed()}{END}{after}", encoding="utf-8")
        return
    assert found == listed(), "write it anew: SETDAY_WRITE_DOCS=1 pytest tests/boards/test_docs.py"


def test_the_page_says_what_is_not_computed():
    assert "## What is not computed" in PAGE.read_text(encoding="utf-8")
