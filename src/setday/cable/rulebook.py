"""The rules of cable: every number from a code, a handbook or a habit, with its source."""

from functools import cache

from setday.errors import RuleError
from setday.rules import LocalRules, Rule, RuleBook, load_table

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


@cache
def _published() -> RuleBook:
    rules: dict[str, Rule] = {}
    for name in RULE_TABLES:
        rules.update(RuleBook.from_table(load_table(PACKAGE, name), prefix="cable").rules)
    return RuleBook(rules=rules)


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
    book = _published()
    if local is None:
        return book
    unknown = sorted(key for key in local.values if key.startswith("cable.") and key not in book.rules)
    if unknown:
        raise RuleError(
            f"There is no rule of cable called {', '.join(unknown)}.",
            do=f"The rules are: {', '.join(sorted(book.rules))}.",
        )
    return book.with_local(local)


def edition_of(rules: RuleBook) -> int:
    """Return the year of the electrical code that is held against the house.

    Examples
    --------
    >>> edition_of(cable_rules())
    2020
    """
    return int(rules.choice("cable.edition"))
