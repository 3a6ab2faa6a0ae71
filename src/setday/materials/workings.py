"""The working behind a line of the buying list."""

from collections.abc import Sequence
from fractions import Fraction

from setday.materials.buying import Bought, Share
from setday.materials.prices import write_money
from setday.materials.quantity import write_quantity
from setday.rules import Source
from setday.working import Step, Working

__all__ = ["line_working"]


def line_working(
    item: str,
    unit: str,
    *,
    shares: Sequence[Share],
    on_hand: Fraction,
    packages: Sequence[Bought],
    sources: Sequence[Source],
) -> Working:
    """Return the steps from what places need to what is bought and what it costs.

    Parameters
    ----------
    item, unit : str
        Key of the item and the unit of its quantities.
    shares : sequence of Share
        What each place needs, in order.
    on_hand : Fraction
        What is taken from stock [unit].
    packages : sequence of Bought
        What is bought.
    sources : sequence of Source
        Where the waste allowances come from.
    """
    needed = sum((share.quantity for share in shares), Fraction(0))
    waste = sum((share.waste for share in shares), Fraction(0))
    rest = needed + waste - on_hand
    steps = [_share(share, unit) for share in shares]
    steps.append(_step("needed together", " + ".join(_plain(s.quantity) for s in shares), needed, unit))
    if waste:
        steps.append(_waste(shares, waste, unit, sources))
    if on_hand:
        steps.append(_step("taken from stock", write_quantity(on_hand, unit), on_hand, unit))
    if waste or on_hand:
        expression = f"{_plain(needed)} + {_plain(waste)} - {_plain(on_hand)}"
        steps.append(_step("to buy", expression, rest, unit))
    steps += _bought(packages, rest, unit)
    return Working(
        key=f"materials/{item}",
        title=f"What to buy of {item}",
        steps=tuple(steps),
        result=steps[-1].result,
        value=steps[-1].value or 0.0,
        unit=steps[-1].unit,
    )


def _plain(quantity: Fraction) -> str:
    return write_quantity(quantity)


def _step(label: str, expression: str, value: Fraction, unit: str, source: Source | None = None) -> Step:
    return Step(
        label=label,
        expression=expression,
        result=write_quantity(value, unit),
        value=float(value),
        unit=unit,
        source=source,
    )


def _share(share: Share, unit: str) -> Step:
    label = f"{share.place}, {share.phase} ({share.trade})"
    return _step(label, write_quantity(share.quantity, unit), share.quantity, unit)


def _waste(shares: Sequence[Share], waste: Fraction, unit: str, sources: Sequence[Source]) -> Step:
    parts: dict[Fraction, Fraction] = {}
    for share in shares:
        if share.waste:
            rate = share.waste / share.quantity
            parts[rate] = parts.get(rate, Fraction(0)) + share.quantity
    expression = " + ".join(f"{_plain(rate * 100)} % x {_plain(base)}" for rate, base in parts.items())
    return _step("waste", expression, waste, unit, sources[0] if sources else None)


def _bought(packages: Sequence[Bought], rest: Fraction, unit: str) -> list[Step]:
    if not packages:
        return []
    counts = " + ".join(f"{entry.count} x {_plain(entry.package.content)}" for entry in packages)
    held = sum((entry.quantity for entry in packages), Fraction(0))
    label = "sold units: " + ", ".join(f"{entry.count} {entry.package.sold_as}" for entry in packages)
    steps = [_step(label, f"{counts}, at least {_plain(rest)}", held, unit)]
    costs = [entry.cost_cents for entry in packages]
    known = [cost for cost in costs if cost is not None]
    if len(known) == len(costs):
        money = " + ".join(f"{e.count} x {write_money(e.package.price_cents or 0)}" for e in packages)
        total = sum(known)
        steps.append(
            Step(label="cost", expression=money, result=write_money(total), value=total / 100, unit="dollars")
        )
    return steps
