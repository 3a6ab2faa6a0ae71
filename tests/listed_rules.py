"""The part of a page of docs that lists the rules of a trade as they stand.

``SETDAY_WRITE_DOCS=1`` writes the list anew instead of comparing it.
"""

import os
from pathlib import Path

from setday.measure import Length
from setday.rules import Rule, RuleBook

__all__ = ["DOCS", "check_listed"]

DOCS = Path(__file__).parents[1] / "docs"
END = "<!-- end of rules -->"


def check_listed(page: Path, rules: RuleBook, *, head: str, test: str) -> None:
    """Hold the list on a page against the rules, or write it anew.

    Parameters
    ----------
    page : Path
    rules : RuleBook
    head : str
        What the first two columns are called, as in the list: "key | rule".
    test : str
        The file whose test writes the list, as the page names it.
    """
    begin = f"<!-- rules: written by {test} -->\n"
    before, rest = page.read_text(encoding="utf-8").split(begin)
    found, after = rest.split(END)
    listed = _listed(rules, head)
    if os.environ.get("SETDAY_WRITE_DOCS"):
        page.write_text(f"{before}{begin}{listed}{END}{after}", encoding="utf-8")
        return
    assert found == listed, f"write it anew: SETDAY_WRITE_DOCS=1 pytest {test}"


def _listed(rules: RuleBook, head: str) -> str:
    lines = [f"| {head} | value | source |", "|---|---|---|---|"]
    lines += [f"| `{rule.key}` | {rule.label} | {_written(rule)} | {rule.source} |" for rule in rules]
    return "\n" + "\n".join(lines) + "\n\n"


def _written(rule: Rule) -> str:
    """Return a value as the house file writes it."""
    value = rule.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value) if isinstance(value, Length | str) else f"{value:g}"
