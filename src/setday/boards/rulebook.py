"""The rules of boards: every number from a code, a handbook or a habit, with its source."""

from setday.errors import RuleError
from setday.rules import LocalRules, Rule, RuleBook, load_table

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
    rules: dict[str, Rule] = {}
    for name in RULE_TABLES:
        rules.update(RuleBook.from_table(load_table(PACKAGE, name), prefix="boards").rules)
    book = RuleBook(rules=rules)
    if local is None:
        return book
    unknown = sorted(key for key in local.values if key.startswith("boards.") and key not in rules)
    if unknown:
        raise RuleError(
            f"There is no rule of boards called {', '.join(unknown)}.",
            do=f"The rules are: {', '.join(sorted(rules))}.",
        )
    return book.with_local(local)
