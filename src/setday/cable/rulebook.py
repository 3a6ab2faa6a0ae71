"""The rules of cable: every number from a code, a handbook or a habit, with its source."""

from setday.rules import LocalRules, RuleBook, trade_rules

__all__ = ["RULE_TABLES", "cable_rules", "edition_of"]

PACKAGE = "setday.cable"

RULE_TABLES = (
    "edition",
    "spacing",
    "placing",
    "routes",
    "circuits",
    "load",
    "fill",
    "drop",
    "support",
    "hours",
)
"""The tables of rules, in the order in which settings are listed."""


def cable_rules(local: LocalRules | None = None) -> RuleBook:
    r"""Return the rules of cable in force for one house.

    Parameters
    ----------
    local : LocalRules or None
        What the local authority or the instructor set instead; None leaves the published values.

    Raises
    ------
    RuleError
        For a key that is no rule of cable, or a value out of its rule's range.

    Examples
    --------
    >>> str(cable_rules().length("cable.reach"))
    '6\'-0"'
    """
    return trade_rules(RULE_TABLES, local, package=PACKAGE, prefix="cable", trade="cable")


def edition_of(rules: RuleBook) -> int:
    """Return the year of the electrical code that is held against the house.

    Examples
    --------
    >>> edition_of(cable_rules())
    2020
    """
    return int(rules.choice("cable.edition"))
