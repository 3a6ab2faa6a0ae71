"""The rules of one trade: its tables read into one book, with what one house sets instead."""

from functools import cache

from setday.errors import RuleError
from setday.rules.book import LocalRules, Rule, RuleBook
from setday.rules.table import load_table

__all__ = ["trade_rules"]


def trade_rules(
    tables: tuple[str, ...], local: LocalRules | None = None, *, package: str, prefix: str, trade: str
) -> RuleBook:
    """Return the rules of a trade in force for one house.

    Parameters
    ----------
    tables : tuple of str
        Names of the tables of rules, in the order in which settings are listed.
    local : LocalRules or None
        What the local authority or the instructor set instead; None leaves the published values.
    package : str
        Dotted name of the trade's package, like ``setday.boards``.
    prefix : str
        What its keys begin with, like ``boards``.
    trade : str
        What it is called in a sentence: "boards", "the house".

    Raises
    ------
    RuleError
        For a key of this trade that is no rule, and for a local value that cannot be read or lies
        outside its rule's range.
    """
    book = _published(tables, package, prefix)
    if local is None:
        return book
    unknown = sorted(key for key in local.values if key.startswith(f"{prefix}.") and key not in book.rules)
    if unknown:
        raise RuleError(
            f"There is no rule of {trade} called {', '.join(unknown)}.",
            do=f"The rules are: {', '.join(sorted(book.rules))}.",
        )
    return book.with_local(local)


@cache
def _published(tables: tuple[str, ...], package: str, prefix: str) -> RuleBook:
    rules: dict[str, Rule] = {}
    for name in tables:
        rules.update(RuleBook.from_table(load_table(package, name), prefix=prefix).rules)
    return RuleBook(rules=rules)
