"""The rules of one trade, read from its tables."""

import pytest

from setday.boards import board_rules
from setday.cable import cable_rules
from setday.errors import RuleError
from setday.house import house_rules
from setday.rules import LocalRules
from setday.switching import switching_rules

TRADES = [
    (board_rules, "boards", "boards"),
    (cable_rules, "cable", "cable"),
    (house_rules, "house", "the house"),
    (switching_rules, "switching", "switching"),
]


@pytest.mark.parametrize(("rules_of", "prefix", "trade"), TRADES)
def test_every_rule_that_a_trade_lacks_is_named(rules_of, prefix, trade) -> None:
    local = LocalRules(values={f"{prefix}.zz": "1", f"{prefix}.aa": "1"})
    with pytest.raises(RuleError, match=f"no rule of {trade} called {prefix}.aa, {prefix}.zz"):
        rules_of(local)


@pytest.mark.parametrize(("rules_of", "prefix", "trade"), TRADES)
def test_keys_of_another_trade_change_nothing(rules_of, prefix, trade) -> None:
    assert rules_of(LocalRules(values={"another.key": "1"})).rules == rules_of().rules


@pytest.mark.parametrize(("rules_of", "prefix", "trade"), TRADES)
def test_what_one_house_sets_does_not_reach_another(rules_of, prefix, trade) -> None:
    first = next(rule for rule in rules_of() if rule.unit in {"number", "length"})
    assert rules_of(LocalRules(values={first.key: str(first.value)}))[first.key].overridden
    assert not rules_of()[first.key].overridden
