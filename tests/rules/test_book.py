"""Rules, their ranges and what overrides them."""

import pytest

from setday.errors import RuleError
from setday.measure import parse_length
from setday.rules import LocalRules, Rule, RuleBook, Source, Table

CODE = Source(key="code", title="A code", edition="2021")


def book() -> RuleBook:
    columns = ("key", "label", "unit", "value", "least", "most", "choices", "source")
    rows = [
        ("gap", "Floor gap", "length", '1/2"', '1/4"', '1"', "", "code"),
        ("waste", "Waste", "number", "1.1", "1", "2", "", "code"),
        ("glue", "Glue", "yes/no", "yes", "", "", "", "code"),
        ("way", "Way", "choice", "along", "", "", "along|across", "code"),
    ]
    table = Table(
        name="t", rows=tuple(dict(zip(columns, row, strict=True)) for row in rows), sources={"code": CODE}
    )
    return RuleBook.from_table(table, prefix="boards")


def test_values_come_typed_with_their_source() -> None:
    rules = book()
    assert rules.length("boards.gap") == parse_length('1/2"')
    assert rules.number("boards.waste") == 1.1
    assert rules.flag("boards.glue") is True
    assert rules.choice("boards.way") == "along"
    assert rules["boards.gap"].source is CODE


def test_a_local_rule_overrides_and_says_so() -> None:
    local = LocalRules(values={"boards.gap": '3/4"'}, reasons={"boards.gap": "the town's inspector"})
    rule: Rule = book().with_local(local)["boards.gap"]
    assert rule.value == parse_length('3/4"')
    assert rule.overridden
    assert rule.source.certainty == "local"
    assert "inspector" in rule.source.note


@pytest.mark.parametrize(
    ("key", "text", "words"),
    [
        ("boards.gap", "two", 'is not a length.*Write a length from 1/4" to 1"'),
        ("boards.gap", '2"', "is out of range"),
        ("boards.waste", "nan", "is not a number"),
        ("boards.waste", "3", "is out of range"),
        ("boards.glue", "maybe", "is not a yes/no.*Write yes or no"),
        ("boards.way", "up", "Choose one of: along, across"),
    ],
)
def test_a_local_rule_that_makes_no_sense_is_refused(key: str, text: str, words: str) -> None:
    with pytest.raises(RuleError, match=words):
        book().with_local(LocalRules(values={key: text}))


def test_rules_of_other_trades_are_passed_over() -> None:
    assert book().with_local(LocalRules(values={"cable.slack": "12'"})).rules == book().rules


def test_an_unknown_rule_names_the_known_ones() -> None:
    with pytest.raises(RuleError, match=r"Perhaps boards\.gap"):
        book()["boards.gab"]
    with pytest.raises(RuleError, match=r"The rules are: boards\.gap, boards\.glue"):
        book()["xyz"]
