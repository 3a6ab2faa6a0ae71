"""The page about the house file lists the rules of framing as they stand.

``SETDAY_WRITE_DOCS=1`` writes the list anew instead of comparing it.
"""

import os
from pathlib import Path

from setday.house import house_rules

PAGE = Path(__file__).parents[2] / "docs" / "house-file.md"
BEGIN = "<!-- rules: written by tests/house/test_docs.py -->\n"
END = "<!-- end of rules -->"


def listed() -> str:
    lines = ["| rule | what it says | value | source |", "|---|---|---|---|"]
    lines += [f"| `{rule.key}` | {rule.label} | `{rule.value}` | {rule.source} |" for rule in house_rules()]
    return "\n" + "\n".join(lines) + "\n\n"


def test_every_rule_is_on_the_page():
    text = PAGE.read_text(encoding="utf-8")
    before, rest = text.split(BEGIN)
    found, after = rest.split(END)
    if os.environ.get("SETDAY_WRITE_DOCS"):
        PAGE.write_text(f"{before}{BEGIN}{listed()}{END}{after}", encoding="utf-8")
        return
    assert found == listed(), "write it anew: SETDAY_WRITE_DOCS=1 pytest tests/house/test_docs.py"
