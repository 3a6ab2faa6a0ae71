"""The rules of boards: every number from a code, a handbook or a habit, with its source."""

from setday.rules import LocalRules, RuleBook, trade_rules

__all__ = ["RULE_TABLES", "board_rules"]

PACKAGE = "setday.boards"

RULE_TABLES = ("layout", "framing", "fastening", "finishing", "weight", "hours", "area")
"""The tables of rules, in the order in which settings are listed."""


def board_rules(local: LocalRules | None = None) -> RuleBook:
    """Return the rules of boards in force for one house.

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
    >>> str(board_rules().length("boards.least_row"))
    '8"'
    """
    return trade_rules(RULE_TABLES, local, package=PACKAGE, prefix="boards", trade="boards")
