"""The count by area and the layout side by side: the difference, and why."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from setday.boards.area import AreaCount
from setday.boards.laidout import LaidOut
from setday.boards.marks import board_words
from setday.boards.verify import Totals
from setday.measure import Area

__all__ = ["Comparison", "side_by_side"]

_SQFT = (12 * 64) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Two ways to count the same boards.

    Parameters
    ----------
    sheets, boards : int
        By area, and by layout.
    sheet_size : str
        Of the sheets by area: "4 x 8 ft".
    sheets_sqft, boards_sqft : float
        What they come to [ft2].
    area_net_sqft, layout_net_sqft : float
        What is to be covered by either way [ft2].
    sheets_cents : int or None
        Price of the sheets; None where the price list lacks them.
    boards_cents : int
    why : tuple of str
        Plain sentences.
    """

    sheets: int
    boards: int
    sheet_size: str
    sheets_sqft: float
    boards_sqft: float
    area_net_sqft: float
    layout_net_sqft: float
    sheets_cents: int | None
    boards_cents: int
    why: tuple[str, ...]

    @property
    def counts(self) -> str:
        """Both counts in a sentence, with the area bought; sheets and boards differ in size."""
        return (
            f"By area: {self.sheets} sheets of {self.sheet_size}, {self.sheets_sqft:,.0f} ft2; "
            f"by layout: {self.boards} boards, {self.boards_sqft:,.0f} ft2."
        )

    @property
    def difference_cents(self) -> int | None:
        """What the layout costs less than the count by area; below nothing where it costs more."""
        return None if self.sheets_cents is None else self.sheets_cents - self.boards_cents


def side_by_side(count: AreaCount, laid: LaidOut, counted: Totals) -> Comparison:
    """Put the count by area beside a verified layout."""
    sheet = Area.rectangle(count.sheet_width, count.sheet_length).sqft
    comparison = Comparison(
        sheets=count.sheets,
        boards=counted.boards,
        sheet_size=board_words(count.sheet_width, count.sheet_length),
        sheets_sqft=count.sheets * sheet,
        boards_sqft=counted.board_area / _SQFT,
        area_net_sqft=count.net_area.sqft,
        layout_net_sqft=counted.net_area / _SQFT,
        sheets_cents=_sheets_cents(count, laid),
        boards_cents=counted.cost_cents,
        why=(),
    )
    return replace(comparison, why=tuple(_why(comparison, count, laid)))


def _sheets_cents(count: AreaCount, laid: LaidOut) -> int | None:
    size = (count.sheet_width.sixtyfourths, count.sheet_length.sixtyfourths)
    prices = {b.kind: b.price_cents for b in laid.problem.boards if (b.width, b.length) == size}
    if any(order.board_kind not in prices for order in count.orders):
        return None
    return sum(order.ordered * prices[order.board_kind] for order in count.orders)


def _why(c: Comparison, count: AreaCount, laid: LaidOut) -> Iterable[str]:
    yield (
        f"By area {c.area_net_sqft:,.0f} ft2 are covered, by layout {c.layout_net_sqft:,.0f} ft2: the layout "
        "leaves off the floor gap and the thickness of neighbouring boards."
    )
    yield (
        f"By area {100 * (count.waste_factor - 1):.0f} in 100 are added for waste whatever the house; "
        f"the layout wastes {100 * (1 - c.layout_net_sqft / c.boards_sqft):.1f} in 100 of the boards it buys."
        if c.boards_sqft
        else "The layout buys no boards."
    )
    shared = sum(len({p.surface for p in pieces}) > 1 for pieces in laid.pieces_from.values())
    yield f"{shared} of {c.boards} boards serve more than one surface with their off-cuts."
    sizes = {(board.width, board.length) for board in map(laid.board_of, laid.layout.pieces)}
    yield f"By area one size of sheet is counted; the layout uses {len(sizes)} sizes."
    if c.sheets_cents is None:
        yield "The price list lacks the sheet the count by area uses, so the two cannot be compared in money."
