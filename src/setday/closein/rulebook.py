"""The rules of closing in: which inspections come before, and at what heights blocking is usual."""

from setday.rules import LocalRules, RuleBook, trade_rules

__all__ = ["RULE_TABLES", "gate_rules"]

PACKAGE = "setday.closein"

RULE_TABLES = ("gates", "blocking")
"""The tables of rules, in the order in which settings are listed."""


def gate_rules(local: LocalRules | None = None) -> RuleBook:
    """Return the rules of closing in that are in force for one house.

    Parameters
    ----------
    local : LocalRules or None
        What the local authority or the instructor set instead; None leaves the published values.

    Raises
    ------
    RuleError
        For a local value that cannot be read or lies outside its rule's range.

    Examples
    --------
    >>> gate_rules().flag("closein.framing_inspection")
    True
    """
    return trade_rules(RULE_TABLES, local, package=PACKAGE, prefix="closein", trade="closing in")
