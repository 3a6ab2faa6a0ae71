"""The rules and numbers of switching in force for one hookup."""

from setday.electric import largest_breaker_a, ohm_per_ft, volume_each_in3
from setday.rules import LocalRules, RuleBook, trade_rules
from setday.switching.kinds import PACKAGE

__all__ = ["RULE_TABLES", "largest_breaker_a", "ohm_per_ft", "switching_rules", "volume_each_in3"]

RULE_TABLES = ("electrical", "code", "likely", "effort", "hours")
"""The tables of rules, in the order in which settings are listed."""


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
    return trade_rules(RULE_TABLES, local, package=PACKAGE, prefix="switching", trade="switching")
