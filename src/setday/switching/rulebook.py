"""The rules and numbers of switching in force for one hookup."""

from functools import cache

from setday.electric import largest_breaker_a, ohm_per_ft, volume_each_in3
from setday.errors import RuleError
from setday.rules import LocalRules, Rule, RuleBook, load_table
from setday.switching.kinds import PACKAGE

__all__ = ["RULE_TABLES", "largest_breaker_a", "ohm_per_ft", "switching_rules", "volume_each_in3"]

RULE_TABLES = ("electrical", "code", "likely", "effort", "hours")
"""The tables of rules, in the order in which settings are listed."""


@cache
def _published() -> RuleBook:
    rules: dict[str, Rule] = {}
    for name in RULE_TABLES:
        rules.update(RuleBook.from_table(load_table(PACKAGE, name), prefix="switching").rules)
    return RuleBook(rules=rules)


def switching_rules(local: LocalRules | None = None) -> RuleBook:
    """Return the rules of switching in force.

    Parameters
    ----------
    local : LocalRules or None
        What the local authority or the instructor set instead; None leaves the published values.

    Raises
    ------
    RuleError
        For a key that is no rule of switching, or a value out of its rule's range.

    Examples
    --------
    >>> switching_rules().flag("switching.switch_hot")
    True
    """
    book = _published()
    if local is None:
        return book
    unknown = sorted(key for key in local.values if key.startswith("switching.") and key not in book.rules)
    if unknown:
        raise RuleError(
            f"There is no rule of switching called {', '.join(unknown)}.",
            do=f"The rules are: {', '.join(sorted(book.rules))}.",
        )
    return book.with_local(local)
