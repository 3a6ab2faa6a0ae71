"""Sources, code tables and the rules read from them; local rules override."""

from setday.rules.book import LocalRules, Rule, RuleBook
from setday.rules.source import Source
from setday.rules.table import Table, load_table
from setday.rules.trade import trade_rules

__all__ = ["LocalRules", "Rule", "RuleBook", "Source", "Table", "load_table", "trade_rules"]
