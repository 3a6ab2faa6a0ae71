"""From the needs of all trades to the buying list."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from setday.findings import Finding, Severity, in_order
from setday.materials.buying import Bought, BuyingLine, BuyingList, Delivery, Share
from setday.materials.deliveries import loaded, planned
from setday.materials.packages import cheapest_packages, fewest_packages
from setday.materials.prices import PIECES, PriceItem, PriceList
from setday.materials.quantity import exact_quantity, write_quantity
from setday.materials.stock import OnHand, StockItem, gathered
from setday.materials.waste import waste_allowance, waste_rules
from setday.materials.workings import line_working
from setday.needs import Need
from setday.rules import RuleBook, Source

__all__ = ["buying_list"]


def buying_list(
    needs: Iterable[Need],
    prices: PriceList,
    *,
    stock: Iterable[StockItem] = (),
    rules: RuleBook | None = None,
    deliveries: Iterable[Delivery] = (),
) -> BuyingList:
    """Work out what to buy for the whole job.

    Needs are summed by item, waste is added where a need does not cover it already, stock on hand is
    taken off, and the rest is rounded up to sold units once; where an item is sold in several packages
    the cheapest choice is bought.

    Parameters
    ----------
    needs : iterable of Need
        From all trades, in any order; the order decides only how places and phases are listed.
    prices : PriceList
    stock : iterable of StockItem
        What lies in the yard.
    rules : RuleBook or None
        Waste rules; None takes the published ones.
    deliveries : iterable of Delivery
        Names and phases of the trucks, in order; a phase no truck serves gets one of its own.

    Returns
    -------
    BuyingList
        Every item needed has its line, also when nothing on the list serves it or a price is missing;
        the findings say so.

    Notes
    -----
    Quantities are taken to the nearest millionth of their unit, so that sums of parts stay exact.
    """
    wanted = _by_item(needs)
    on_hand = gathered(stock)
    waste = rules or waste_rules()
    lines = [
        _line(_Wanted(item=item, unit=unit, needs=tuple(group)), prices, on_hand, waste)
        for (item, unit), group in wanted.items()
    ]
    lines.sort(key=lambda line: (not line.category, line.category, line.item, line.unit))
    phases = dict.fromkeys(need.phase for group in wanted.values() for need in group)
    findings = [finding for line in lines for finding in _findings_on(line, prices)]
    findings += _idle_stock(on_hand, lines)
    return BuyingList(
        price_list=prices.name,
        lines=tuple(lines),
        deliveries=loaded(planned(deliveries, phases), lines),
        findings=in_order(findings),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """The needs of one item in one unit."""

    item: str
    unit: str
    needs: tuple[Need, ...]


def _by_item(needs: Iterable[Need]) -> dict[tuple[str, str], list[Need]]:
    wanted: dict[tuple[str, str], list[Need]] = {}
    for need in needs:
        wanted.setdefault((need.item, need.unit), []).append(need)
    return wanted


def _line(wanted: _Wanted, prices: PriceList, on_hand: OnHand, rules: RuleBook) -> BuyingLine:
    packages = prices.packages(wanted.item, unit=wanted.unit)
    shares, wasted_by = _shares(wanted, packages, rules)
    needed = sum((share.quantity for share in shares), Fraction(0))
    waste = sum((share.waste for share in shares), Fraction(0))
    used = min(needed + waste, _lying_there(wanted, packages, on_hand))
    bought = _chosen(needed + waste - used, packages)
    return BuyingLine(
        item=wanted.item,
        label=wanted.needs[0].label,
        category=packages[0].category if packages else "",
        unit=wanted.unit,
        shares=shares,
        needed=needed,
        waste=waste,
        on_hand=used,
        packages=bought,
        sold_units=packages,
        needs=wanted.needs,
        working=line_working(
            wanted.item, wanted.unit, shares=shares, on_hand=used, packages=bought, sources=wasted_by
        ),
    )


def _shares(
    wanted: _Wanted, packages: Sequence[PriceItem], rules: RuleBook
) -> tuple[tuple[Share, ...], tuple[Source, ...]]:
    """Sum the needs by trade, place and phase; return also the sources of the waste added."""
    sums: dict[tuple[str, str, str, bool], tuple[Fraction, Fraction]] = {}
    sources: dict[Source, None] = {}
    for need in wanted.needs:
        quantity = exact_quantity(need.quantity)
        rate, source = waste_allowance(packages, phase=need.phase, rules=rules)
        waste = Fraction(0) if need.waste_included else quantity * rate
        if waste and source:
            sources[source] = None
        key = (need.trade, need.place, need.phase, need.waste_included)
        before, wasted = sums.get(key, (Fraction(0), Fraction(0)))
        sums[key] = (before + quantity, wasted + waste)
    shares = tuple(
        Share(trade=trade, place=place, phase=phase, quantity=quantity, waste=waste)
        for (trade, place, phase, _), (quantity, waste) in sums.items()
    )
    return shares, tuple(sources)


def _lying_there(wanted: _Wanted, packages: Sequence[PriceItem], on_hand: OnHand) -> Fraction:
    """Stock of the item in its unit, and stock counted in whole sold units of it."""
    loose = on_hand.get((wanted.item, wanted.unit), Fraction(0))
    counted = {package.key: package.content for package in packages if package.key != wanted.item}
    whole = (on_hand.get((key, PIECES), Fraction(0)) * content for key, content in counted.items())
    return loose + sum(whole, Fraction(0))


def _chosen(quantity: Fraction, packages: Sequence[PriceItem]) -> tuple[Bought, ...]:
    if quantity <= 0 or not packages:
        return ()
    priced = [package for package in packages if package.price_cents is not None]
    return cheapest_packages(quantity, priced) if priced else fewest_packages(quantity, packages)


def _findings_on(line: BuyingLine, prices: PriceList) -> list[Finding]:
    about = f"item {line.item!r}"
    if not line.served:
        return [_unserved(line, prices)]
    if line.cost_cents is None:
        return [
            Finding(
                rule="materials.no-price",
                about=about,
                found=f"{prices.name} gives no price for it.",
                do="The line is kept and the total leaves it out: add the price to the list.",
                severity=Severity.ASK,
            )
        ]
    return []


def _unserved(line: BuyingLine, prices: PriceList) -> Finding:
    units = prices.units_of(line.item)
    if units:
        found = f"it is needed in {line.unit}, and {prices.name} sells it in {', '.join(units)}."
        expected = f"a line whose unit is {line.unit!r}."
    else:
        found = f"{write_quantity(line.to_buy, line.unit)} needed, and {prices.name} does not list it."
        expected = ""
    return Finding(
        rule="materials.other-unit" if units else "materials.not-listed",
        about=f"item {line.item!r}",
        found=found,
        expected=expected,
        do="The line is kept and the total leaves it out: add a line for it to the price list.",
        severity=Severity.ASK,
    )


def _idle_stock(on_hand: Mapping[tuple[str, str], Fraction], lines: Iterable[BuyingLine]) -> list[Finding]:
    used = {(line.item, line.unit) for line in lines}
    used |= {(entry.key, PIECES) for line in lines for entry in line.sold_units}
    return [
        Finding(
            rule="materials.stock-not-needed",
            about=f"stock of {item!r}",
            found=f"{write_quantity(quantity, unit)} on hand, and nothing on this list takes it.",
            do="If it should serve, check its name and its unit against the price list.",
            severity=Severity.NOTE,
        )
        for (item, unit), quantity in on_hand.items()
        if (item, unit) not in used
    ]
