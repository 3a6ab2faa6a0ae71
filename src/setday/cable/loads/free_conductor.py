"""Cable in a box: how much must be left there to join it, NEC 300.14."""

from setday.findings import Finding
from setday.measure import Length
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["check_tail", "least_tail"]


def least_tail(rules: RuleBook, *, depth: Length | None = None, opening: Length | None = None) -> Working:
    """Work out the least cable from where it enters a box to its end [in].

    Parameters
    ----------
    rules : RuleBook
        The rules of cable.
    depth : Length or None
        From where the cable enters to the opening of the box; None takes that of a usual box.
    opening : Length or None
        Width of the opening; None takes a small one, as nearly all are.

    Examples
    --------
    >>> from setday.cable.rulebook import cable_rules
    >>> least_tail(cable_rules()).result
    '6 1/2"'
    """
    sheath = rules.length("cable.sheath_in_box")
    free = rules.length("cable.free_conductor")
    past = rules.length("cable.past_opening")
    deep = rules.length("cable.box_depth") if depth is None else depth
    small = opening is None or opening < rules.length("cable.small_opening")
    to_opening = max(deep - sheath, Length(0))
    wanted = max(free, to_opening + past) if small else free
    steps = [
        _step("sheath inside the box", "at least", sheath, rules, "cable.sheath_in_box"),
        _step("free conductor from the end of the sheath", "at least", free, rules, "cable.free_conductor"),
    ]
    if small:
        words = f"{to_opening} to the opening + {past}"
        steps.append(_step("past the opening", words, to_opening + past, rules, "cable.past_opening"))
    total = sheath + wanted
    steps.append(_step("together", f"{sheath} + {wanted}", total, rules, "cable.free_conductor"))
    return Working(
        key="cable/tail",
        title="Least cable in a box",
        steps=tuple(steps),
        result=str(total),
        value=total.inches,
        unit="in",
    )


def _step(label: str, expression: str, value: Length, rules: RuleBook, key: str) -> Step:
    return Step(
        label=label,
        expression=expression,
        result=str(value),
        value=value.inches,
        unit="in",
        source=rules[key].source,
    )


def check_tail(rules: RuleBook) -> tuple[Finding, ...]:
    """Find a tail, set for the house, that leaves too little to join.

    Parameters
    ----------
    rules : RuleBook
        The rules of cable.
    """
    tail, least = rules.length("cable.box_tail"), least_tail(rules)
    if tail.inches >= least.value:
        return ()
    return (
        Finding(
            rule="cable.tail-short",
            about="rule 'cable.box_tail'",
            found=f"{tail} of cable is left in a box.",
            expected=f"{least.result} or more.",
            do="Set cable.box_tail to more.",
            source=rules["cable.free_conductor"].source,
        ),
    )
