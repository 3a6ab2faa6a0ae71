"""The rules set for one house, checked against the rules that the trades have."""

from collections.abc import Callable
from difflib import get_close_matches

from setday.boards import board_rules
from setday.cable import cable_rules
from setday.closein import gate_rules
from setday.errors import RuleError
from setday.findings import Finding, Where
from setday.house import house_rules
from setday.rules import LocalRules, RuleBook
from setday.switching import switching_rules
from setday.timetable.tasks import timetable_rules

__all__ = ["check_local_rules"]

_BOOKS: tuple[Callable[[LocalRules | None], RuleBook], ...] = (
    house_rules,
    board_rules,
    cable_rules,
    switching_rules,
    gate_rules,
    timetable_rules,
)
"""The rules that a house file may set otherwise: one line a trade."""


def check_local_rules(local: LocalRules, *, text: str, name: str) -> tuple[Finding, ...]:
    """Find every rule of a house file that no trade has, or whose value cannot be.

    Parameters
    ----------
    local : LocalRules
        As read from the file.
    text, name : str
        The file's text and name, to say the line.
    """
    owners = {key: book for book in _BOOKS for key in book(None).rules}
    known = sorted(owners)
    findings = []
    for key, value in local.values.items():
        where = _where(key, text, name)
        if key not in owners:
            findings.append(_unknown(key, known, where))
            continue
        try:
            owners[key](LocalRules(values={key: value}))
        except RuleError as error:
            findings.append(
                Finding(
                    rule="rules.local-value",
                    about=f"local rule '{key}'",
                    found=error.message,
                    do=error.do or "Correct the value.",
                    where=where,
                )
            )
    return tuple(findings)


def _unknown(key: str, known: list[str], where: Where) -> Finding:
    near = get_close_matches(key, known, n=3, cutoff=0.5)
    return Finding(
        rule="rules.local-key",
        about=f"local rule '{key}'",
        found="no trade has a rule of that name.",
        expected=f"perhaps {', '.join(near)}."
        if near
        else "a key that results name beside a rule, like boards.least_piece.",
        do="Correct the key; the rules sheet of a board run lists them all.",
        where=where,
    )


def _where(key: str, text: str, name: str) -> Where:
    for number, line in enumerate(text.splitlines(), start=1):
        at = line.find(key)
        if at >= 0 and line.lstrip().strip("'\"").startswith(key):
            return Where(file=name, line=number, column=at + 1)
    return Where(file=name)
