"""Rules with their values, and what the local authority or the instructor set instead."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from math import isfinite

from setday.errors import MeasureError, RuleError
from setday.measure import Length, parse_length
from setday.rules.source import Source
from setday.rules.table import Table

__all__ = ["LocalRules", "Rule", "RuleBook"]

_SHOWN = 12
"""So many rules are named where none is near [count]; our own."""

Value = Length | float | bool | str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule in force.

    Parameters
    ----------
    key : str
        Dotted key, like ``boards.least_piece``.
    label : str
        What it rules, in words.
    value : Length, float, bool or str
        The value in force.
    unit : str
        "length", "number", "yes/no" or "choice".
    source : Source
        Where the value in force comes from.
    choices : tuple of str
        The allowed values of a choice.
    least, most : Length, float or None
        The range in which the value makes sense.
    overridden : bool
        True when a local rule replaced the published value.
    """

    key: str
    label: str
    value: Value
    unit: str
    source: Source
    choices: tuple[str, ...] = ()
    least: Length | float | None = None
    most: Length | float | None = None
    overridden: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalRules:
    """Values set for one house: by the local authority, or by the instructor.

    `values` maps rule keys to text as typed; `reasons` maps keys to who said so.
    """

    values: Mapping[str, str] = field(default_factory=dict)
    reasons: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleBook:
    """The rules of one trade, in force for one house."""

    rules: Mapping[str, Rule]

    @classmethod
    def from_table(cls, table: Table, *, prefix: str) -> "RuleBook":
        """Build the book from a table with columns key, label, unit, value, least, most, choices, source."""
        return cls(rules={(rule := _rule(row, table, prefix)).key: rule for row in table.rows})

    def with_local(self, local: LocalRules) -> "RuleBook":
        """Return the book with local values put in; keys of other trades are passed over.

        Raises
        ------
        RuleError
            For a value that cannot be read or lies outside the rule's range.
        """
        changed = dict(self.rules)
        for key, text in local.values.items():
            if key in changed:
                changed[key] = _overridden(changed[key], text, local.reasons.get(key, "set for this house"))
        return RuleBook(rules=changed)

    def __iter__(self) -> Iterator[Rule]:
        return iter(self.rules.values())

    def __getitem__(self, key: str) -> Rule:
        try:
            return self.rules[key]
        except KeyError:
            raise RuleError(f"There is no rule {key!r}.", do=self._nearest(key)) from None

    def _nearest(self, key: str) -> str:
        near = get_close_matches(key, self.rules, n=3, cutoff=0.5)
        if near:
            return f"Perhaps {' or '.join(near)}?"
        first = ", ".join(sorted(self.rules)[:_SHOWN])
        return f"The rules are: {first}{' ...' if len(self.rules) > _SHOWN else ''}."

    def length(self, key: str) -> Length:
        """Return the value of a length rule."""
        value = self[key].value
        if not isinstance(value, Length):
            raise TypeError(f"rule {key} is not a length")
        return value

    def number(self, key: str) -> float:
        """Return the value of a number rule."""
        value = self[key].value
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise TypeError(f"rule {key} is not a number")
        return float(value)

    def flag(self, key: str) -> bool:
        """Return the value of a yes/no rule."""
        value = self[key].value
        if not isinstance(value, bool):
            raise TypeError(f"rule {key} is not yes or no")
        return value

    def choice(self, key: str) -> str:
        """Return the value of a choice rule."""
        value = self[key].value
        if not isinstance(value, str):
            raise TypeError(f"rule {key} is not a choice")
        return value


def _rule(row: Mapping[str, str], table: Table, prefix: str) -> Rule:
    unit = row["unit"]
    bare = Rule(
        key=f"{prefix}.{row['key']}",
        label=row["label"],
        value="",
        unit=unit,
        source=table.source_of(row),
        choices=tuple(c.strip() for c in (row.get("choices") or "").split("|") if c.strip()),
        least=_bound(row.get("least"), unit),
        most=_bound(row.get("most"), unit),
    )
    return replace(bare, value=_read(bare, row["value"]))


def _bound(text: str | None, unit: str) -> Length | float | None:
    if not text:
        return None
    return parse_length(text) if unit == "length" else float(text)


def _read(rule: Rule, text: str) -> Value:
    text = text.strip()
    try:
        value = _READERS[rule.unit](text)
    except (MeasureError, ValueError, KeyError) as error:
        raise RuleError(f"Rule {rule.key}: {text!r} is not a {rule.unit}.", do=_expected(rule)) from error
    if rule.choices and value not in rule.choices:
        raise RuleError(f"Rule {rule.key}: {text!r} is not one of its choices.", do=_expected(rule))
    if _outside(value, rule):
        raise RuleError(f"Rule {rule.key}: {text} is out of range.", do=_expected(rule))
    return value


def _outside(value: Value, rule: Rule) -> bool:
    if isinstance(value, Length):
        low, high = rule.least, rule.most
        return (isinstance(low, Length) and value < low) or (isinstance(high, Length) and value > high)
    if isinstance(value, float):
        low, high = rule.least, rule.most
        return (isinstance(low, float) and value < low) or (isinstance(high, float) and value > high)
    return False


def _overridden(rule: Rule, text: str, reason: str) -> Rule:
    source = Source(key="local", title="Local rule", certainty="local", note=reason)
    return replace(rule, value=_read(rule, text), source=source, overridden=True)


def _expected(rule: Rule) -> str:
    if rule.choices:
        return f"Choose one of: {', '.join(rule.choices)}."
    if rule.least is not None or rule.most is not None:
        return f"Write a {rule.unit} from {rule.least} to {rule.most}."
    return {"length": "Write it like 3/8\" or 4'.", "yes/no": "Write yes or no."}.get(
        rule.unit, "Write a number."
    )


def _yes_no(text: str) -> bool:
    return {"yes": True, "no": False, "true": True, "false": False}[text.lower()]


def _number(text: str) -> float:
    value = float(text)
    if not isfinite(value):
        raise ValueError(text)
    return value


_READERS: Mapping[str, Callable[[str], Value]] = {
    "length": parse_length,
    "number": _number,
    "yes/no": _yes_no,
    "choice": str,
}
