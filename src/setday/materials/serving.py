"""What the price list offers to those who cut: boards for the board layout, lengths for the cutting plan."""

from collections.abc import Iterable, Mapping

from setday.boards import Board
from setday.materials.lengths import CuttingPlan, StockLength
from setday.materials.prices import PIECES, PriceItem, PriceList
from setday.measure import Length, write_inches
from setday.needs import Need
from setday.working import Step, Working

__all__ = ["boards_offered", "lengths_offered", "plan_needs"]


def boards_offered(prices: PriceList) -> tuple[Board, ...]:
    """Return the boards of a price list that can be laid out: with a kind, both sizes and a price.

    Parameters
    ----------
    prices : PriceList

    Returns
    -------
    tuple of Board
        In the order of the list; sizes in 1/64 in, prices in cents.
    """
    return tuple(
        Board(
            key=item.key,
            kind=item.board_kind,
            width=item.width.sixtyfourths,
            length=item.length.sixtyfourths,
            price_cents=item.price_cents,
        )
        for item in prices.items
        if item.board_kind and item.width and item.length and item.price_cents is not None
    )


def lengths_offered(
    prices: PriceList, item: str, *, on_hand: Iterable[StockLength] = ()
) -> tuple[StockLength, ...]:
    """Return the lengths in which an item is sold, behind what lies in the yard.

    Parameters
    ----------
    prices : PriceList
    item : str
        What pieces are cut of: "bead-corner".
    on_hand : iterable of StockLength
        Sticks and remnants in the yard, in limited number and without cost.
    """
    sold = (
        StockLength(
            key=line.key,
            length=line.length.sixtyfourths,
            cost_cents=line.price_cents,
            label=line.label,
        )
        for line in prices.items
        if line.item == item and line.length and line.price_cents is not None
    )
    return (*on_hand, *sold)


def plan_needs(
    plan: CuttingPlan, prices: PriceList, *, trade: str, phase: str, place: str = "house"
) -> tuple[Need, ...]:
    """Return the needs a cutting plan makes: whole sticks, their off-cuts already in them.

    Parameters
    ----------
    plan : CuttingPlan
    prices : PriceList
        The list its stock lengths came from; sticks that are not on it lie in the yard and need nothing.
    trade, phase, place : str
        As in `Need`.
    """
    listed: Mapping[str, PriceItem] = {item.key: item for item in prices.items}
    return tuple(
        Need(
            trade=trade,
            item=key,
            label=listed[key].label,
            quantity=count,
            unit=PIECES,
            place=place,
            phase=phase,
            waste_included=True,
            working=_working(plan, key, trade),
        )
        for key, count in plan.counts.items()
        if key in listed
    )


def _working(plan: CuttingPlan, key: str, trade: str) -> Working:
    steps = tuple(
        Step(
            label=f"stick {stick.number}",
            expression=" + ".join(write_inches(Length(piece.length)) for piece in stick.pieces),
            result=f"{write_inches(Length(stick.remnant))} left",
            value=1.0,
            unit=PIECES,
        )
        for stick in plan.sticks
        if stick.stock == key
    )
    count = len(steps)
    return Working(
        key=f"{trade}/cutting/{key}",
        title=f"Sticks of {key}, by the cutting plan",
        steps=steps,
        result=f"{count} {PIECES}",
        value=float(count),
        unit=PIECES,
    )
