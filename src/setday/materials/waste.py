"""Waste added to what trades need, where their figures do not cover it already."""

from collections.abc import Sequence
from fractions import Fraction

from setday.materials.prices import PriceItem
from setday.materials.quantity import exact_quantity
from setday.rules import Rule, RuleBook, Source, load_table

__all__ = ["Allowance", "waste_allowance", "waste_rules"]

Allowance = tuple[Fraction, Source | None]


def waste_rules() -> RuleBook:
    """Return the published waste allowances; local rules may replace any of them."""
    return RuleBook.from_table(load_table("setday.materials", "waste"), prefix="materials")


def waste_allowance(packages: Sequence[PriceItem], *, phase: str, rules: RuleBook) -> Allowance:
    """Return the part of a need that is added as waste, and where the figure comes from.

    The price list's own figure for the item comes first, then the rule of its category, then the rule
    of the phase; without any, nothing is added.

    Parameters
    ----------
    packages : sequence of PriceItem
        The sold units that serve the need; may be empty.
    phase : str
        When the material is used.
    rules : RuleBook
        From `waste_rules`, local rules put in.

    Returns
    -------
    tuple of Fraction and Source or None
        The allowance as a part of the need, and its source.
    """
    listed = next((package.waste for package in packages if package.waste is not None), None)
    if listed is not None:
        return listed, Source(key="price-list", title="The price list's own waste figure", certainty="local")
    category = packages[0].category if packages else ""
    rule = _rule(rules, f"materials.waste_{category}") or _rule(rules, f"materials.waste_phase_{phase}")
    if rule is None:
        return Fraction(0), None
    return exact_quantity(rules.number(rule.key)), rule.source


def _rule(rules: RuleBook, key: str) -> Rule | None:
    return rules.rules.get(key)
