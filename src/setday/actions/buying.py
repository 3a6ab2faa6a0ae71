"""From what the trades need to the buying list."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.resources import files as package_files

from setday.boards import BoardFigure, Limits, needs
from setday.errors import FileProblem
from setday.files import LengthOnHand, PriceFile, StockFile, read_prices, read_stock
from setday.materials import (
    BuyingList,
    LengthDemand,
    LengthOutcome,
    LengthProblem,
    PriceList,
    StockItem,
    buying_list,
    cutting_plan,
    lengths_offered,
    plan_needs,
)
from setday.needs import Need

__all__ = [
    "Buying",
    "LengthPlan",
    "buy",
    "buy_needs",
    "demo_prices",
    "demo_stock",
    "open_prices",
    "usable_prices",
]

_PER_FOOT = 768
_SECONDS = 2.0
_LEAST_REMNANT = 24 * 64
"""A bead remnant of two feet is worth keeping [1/64 in]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlan:
    """How the lengths of one item are cut: the problem, and what the search came to."""

    item: str
    label: str
    problem: LengthProblem
    outcome: LengthOutcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """The buying list, and the cutting plans behind what is sold in lengths."""

    buying: BuyingList
    plans: tuple[LengthPlan, ...]


def demo_prices() -> PriceFile:
    """Return the invented price list that comes with Setday."""
    text = (package_files("setday.demo") / "prices.csv").read_text(encoding="utf-8")
    return read_prices(text, name="demo prices")


def demo_stock(prices: PriceList) -> StockFile:
    """Return the invented stock list that comes with Setday."""
    text = (package_files("setday.demo") / "stock.csv").read_text(encoding="utf-8")
    return read_stock(text, name="demo stock", prices=prices)


def open_prices(data: bytes | str, *, name: str) -> PriceList:
    """Read a price list that must be good enough to figure with.

    Raises
    ------
    FileProblem
        With every problem of the file in its message.
    """
    return usable_prices(read_prices(data, name=name), name=name)


def usable_prices(read: PriceFile, *, name: str) -> PriceList:
    """Return the prices of a list that was read, if it is good enough to figure with.

    Raises
    ------
    FileProblem
        With every problem of the file in its message.
    """
    if read.prices is None or read.problems:
        listed = "\n".join(f"  {finding}" for finding in read.problems)
        raise FileProblem(f"The price list cannot be used:\n{listed}", where=name)
    return read.prices


def buy(
    figured: BoardFigure,
    *,
    prices: PriceList,
    clock: Callable[[], float],
    stock: Sequence[StockItem] = (),
    lengths: Sequence[LengthOnHand] = (),
    more: Sequence[Need] = (),
) -> Buying:
    """Work out what to buy for a figured house.

    Parameters
    ----------
    figured : BoardFigure
    prices : PriceList
    clock : callable
        Returns seconds; limits the search for cutting plans.
    stock, lengths : sequences
        What lies in the yard, by quantity and by length.
    more : sequence of Need
        What other trades need of the same house.
    """
    wanted = (*needs(figured), *more)
    return buy_needs(wanted, prices=prices, clock=clock, stock=stock, lengths=lengths)


def buy_needs(
    wanted: tuple[Need, ...],
    *,
    prices: PriceList,
    clock: Callable[[], float],
    stock: Sequence[StockItem] = (),
    lengths: Sequence[LengthOnHand] = (),
) -> Buying:
    """Work out what to buy for what trades need.

    Parameters
    ----------
    wanted : tuple of Need
    prices : PriceList
    clock : callable
        Returns seconds; limits the search for cutting plans.
    stock, lengths : sequences
        What lies in the yard, by quantity and by length.
    """
    cut, whole = _cut_from_lengths(wanted, prices)
    plans = tuple(_plan(item, own, prices, lengths, clock) for item, own in cut.items())
    from_plans = tuple(need for plan in plans for need in _needs_of(plan, cut[plan.item], prices))
    return Buying(buying=buying_list((*whole, *from_plans), prices, stock=stock), plans=plans)


def _cut_from_lengths(
    wanted: tuple[Need, ...], prices: PriceList
) -> tuple[dict[str, list[Need]], tuple[Need, ...]]:
    sold_in_lengths = {item.item for item in prices.items if item.length and not item.board_kind}
    cut: dict[str, list[Need]] = {}
    for need in wanted:
        if need.item in sold_in_lengths and need.unit == "ft" and not need.waste_included:
            cut.setdefault(need.item, []).append(need)
    whole = tuple(need for need in wanted if not any(need in own for own in cut.values()))
    return cut, whole


def _plan(
    item: str,
    pieces: list[Need],
    prices: PriceList,
    lengths: Sequence[LengthOnHand],
    clock: Callable[[], float],
) -> LengthPlan:
    on_hand = tuple(length.stock for length in lengths if length.item == item)
    stocks = lengths_offered(prices, item, on_hand=on_hand)
    longest = max(stock.length for stock in stocks if stock.available is None)
    demands = tuple(demand for need in pieces for demand in _demands(need, longest))
    problem = LengthProblem(demands=demands, stocks=stocks, least_remnant=_LEAST_REMNANT)
    outcome = cutting_plan(problem, Limits(seconds=_SECONDS, clock=clock, workers=1))
    label = pieces[0].label.split(",")[0]
    return LengthPlan(item=item, label=label, problem=problem, outcome=outcome)


def _demands(need: Need, longest: int) -> list[LengthDemand]:
    """Return the pieces one need is cut in; what is longer than any stick is pieced together."""
    label = f"{need.place}: {need.label.partition(', ')[2] or need.label}"
    whole, rest = divmod(round(need.quantity * _PER_FOOT), longest)
    demands = [LengthDemand(length=longest, count=whole, label=label)] if whole else []
    return [*demands, LengthDemand(length=rest, count=1, label=label)] if rest else demands


def _needs_of(plan: LengthPlan, pieces: list[Need], prices: PriceList) -> tuple[Need, ...]:
    first = pieces[0]
    if plan.outcome.plan is None:
        return tuple(pieces)
    return plan_needs(plan.outcome.plan, prices, trade=first.trade, phase=first.phase)
