"""Sheets of figures: summary, ways compared side by side, workings, the buying list."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards import BoardProblem, Outcome, Status, totals
from setday.drawing import Bar, Paper, Table, comparison_bars
from setday.materials import BuyingLine, BuyingList, write_money, write_quantity
from setday.sheets.blocks import Block, Heading, Note, Picture, Sheet, TableBlock, WorkingBlock
from setday.working import Working

__all__ = ["Way", "buying_sheet", "comparison_sheet", "summary_sheet", "workings_sheet"]

_BUYING_WIDTHS = ("1fr", "4.4em", "3.6em", "4.2em", "10.5em", "4.6em", "3.8em", "5em")
_WIDE = Paper(width=660, height=600, to_scale=False)
_PROOF = "proven by computation, see docs/boards-layout.md."
_HOW = {
    Status.OPTIMAL: "The cost equals the proven bound: nothing that keeps the rules costs less.",
    Status.FEASIBLE: "The time allowed ended the search; the gap says how far from the best it can be.",
    Status.STOPPED: "A person ended the search; the gap says how far from the best it can be.",
    Status.NONE: "No layout was found.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to figure the boards, or one "what if" run.

    Parameters
    ----------
    label : str
        "By area, as taught", "By layout", "Only 8-ft boards".
    boards : int
    area_sqft : float or None
        Of the boards bought; None where it is not known [ft2].
    cost_cents : int or None
        None where no price is known [cents].
    butt_joint_ft : float or None
        None where joints are not known [ft].
    pieces : int or None
    why : str
        Why it differs, in a sentence.
    """

    label: str
    boards: int
    area_sqft: float | None = None
    cost_cents: int | None = None
    butt_joint_ft: float | None = None
    pieces: int | None = None
    why: str = ""


def summary_sheet(
    problem: BoardProblem, outcome: Outcome, *, ways: Sequence[Way] = (), notes: Sequence[str] = ()
) -> Sheet:
    """Return the figures of the whole house: boards by size, cost and bound, rules that gave way."""
    blocks: list[Block] = [Note(text=_HOW[outcome.status])]
    blocks += [Note(text=sentence) for sentence in outcome.why_none]
    if outcome.layout is not None:
        blocks += [
            TableBlock(table=_figures(problem, outcome)),
            TableBlock(table=_boards_to_buy(problem, outcome)),
        ]
        least = write_money(round(outcome.bound.cost_cents))
        blocks.append(Note(text=f"No layout that keeps the rules can cost less than {least}; {_PROOF}"))
        if outcome.layout.relaxed:
            blocks.append(Heading(text="Rules that gave way"))
            blocks += [Note(text=f"\N{BLACK UP-POINTING TRIANGLE} {text}") for text in outcome.layout.relaxed]
    if ways:
        blocks += _compared(ways)
    blocks += [Note(text=text) for text in notes]
    return Sheet(title="Boards: summary", blocks=tuple(blocks), person_decides=True)


def _figures(problem: BoardProblem, outcome: Outcome) -> Table:
    if outcome.layout is None:
        raise ValueError("no layout, no figures")
    counted = totals(problem, outcome.layout)
    area = 64 * 64 * 144
    rows = (
        ("Boards", f"{counted.boards:,}"),
        ("Pieces", f"{counted.pieces:,}"),
        ("Cost", write_money(counted.cost_cents)),
        ("No layout that keeps the rules costs less than", write_money(round(outcome.bound.cost_cents))),
        ("Gap: cost over bound, less 1", f"{outcome.gap:.2%}"),
        ("Net area of the surfaces", f"{counted.net_area / area:,.1f} ft2"),
        ("Area of the boards", f"{counted.board_area / area:,.1f} ft2"),
        ("Butt joints", f"{counted.butt_joint / 768:,.1f} ft"),
        ("Seconds of search", f"{outcome.seconds:,.1f}"),
    )
    return Table(caption="The whole house", head=("What", "Figure"), rows=rows, figures=(False, True))


def _boards_to_buy(problem: BoardProblem, outcome: Outcome) -> Table:
    bought = [entry.key for entry in outcome.layout.boards] if outcome.layout else []
    rows = tuple(
        (
            board.key,
            board.kind,
            f"{board.width / 64:g}",
            f"{board.length / 768:g}",
            str(bought.count(board.key)),
            write_money(board.price_cents),
            write_money(board.price_cents * bought.count(board.key)),
        )
        for board in problem.boards
        if board.key in bought
    )
    return Table(
        caption="Boards to buy",
        head=("Item", "Kind", "Wide in", "Long ft", "Count", "Each", "Together"),
        rows=rows,
        figures=(False, False, True, True, True, True, True),
    )


def comparison_sheet(ways: Sequence[Way], *, workings: Sequence[Working] = ()) -> Sheet:
    """Return ways to figure side by side: a picture, its table, why they differ, and the workings."""
    blocks = [*_compared(ways), *(WorkingBlock(working=working) for working in workings)]
    return Sheet(title="Area count and layout, side by side", blocks=tuple(blocks))


def _compared(ways: Sequence[Way]) -> list[Block]:
    rows = tuple(
        (
            way.label,
            f"{way.boards:,}",
            "" if way.area_sqft is None else f"{way.area_sqft:,.0f}",
            "" if way.cost_cents is None else write_money(way.cost_cents),
            "" if way.butt_joint_ft is None else f"{way.butt_joint_ft:,.1f}",
            "" if way.pieces is None else f"{way.pieces:,}",
        )
        for way in ways
    )
    table = Table(
        caption="Side by side",
        head=("Way", "Boards", "Bought ft2", "Money", "Butt joints ft", "Pieces"),
        rows=rows,
        figures=(False, True, True, True, True, True),
    )
    reasons: list[Block] = [Note(text=f"{way.label}: {way.why}") for way in ways if way.why]
    return [*_bars(ways), TableBlock(table=table), *reasons]


def _bars(ways: Sequence[Way]) -> list[Block]:
    """Compare area bought and money; a count of boards of different sizes would mislead."""
    areas = [
        Bar(label=way.label, value=way.area_sqft, written=f"{way.area_sqft:,.0f} ft2")
        for way in ways
        if way.area_sqft is not None
    ]
    money = [
        Bar(label=way.label, value=way.cost_cents, written=write_money(way.cost_cents))
        for way in ways
        if way.cost_cents is not None
    ]
    drawn: list[Block] = []
    for title, bars in (("Board bought, square feet", areas), ("Money", money)):
        if len(bars) > 1:
            drawn.append(Heading(text=title))
            drawn.append(Picture(svg=comparison_bars(bars, title=title, paper=_WIDE)))
    return drawn


def workings_sheet(
    workings: Sequence[Working], *, title: str = "Workings", notes: Sequence[str] = ()
) -> Sheet:
    """Return workings one after another, each with its steps, result and sources, and notes after them."""
    blocks: tuple[Block, ...] = (
        *(WorkingBlock(working=working) for working in workings),
        *(Note(text=text) for text in notes),
    )
    return Sheet(title=title, blocks=blocks, person_decides=True)


def buying_sheet(buying: BuyingList) -> Sheet:
    """Return the buying list: lines by category, cost by phase, place and delivery, what was noticed."""
    blocks: list[Block] = [Note(text=f"Prices from {buying.price_list}.")]
    categories = dict.fromkeys(line.category or "not on the price list" for line in buying.lines)
    for category in categories:
        lines = [line for line in buying.lines if (line.category or "not on the price list") == category]
        blocks.append(TableBlock(table=_buying_table(category, lines), widths=_BUYING_WIDTHS))
    blocks.append(Note(text=f"Together: {write_money(buying.total_cents)}."))
    if buying.unpriced:
        names = ", ".join(line.label for line in buying.unpriced)
        blocks.append(Note(text=f"Without a price, and not in the total: {names}."))
    if buying.lines:
        blocks.append(TableBlock(table=_costs(buying), columns=2))
    blocks += [Note(text=str(finding)) for finding in buying.findings]
    return Sheet(title="Buying list", blocks=tuple(blocks))


def _buying_table(category: str, lines: Sequence[BuyingLine]) -> Table:
    rows = []
    for line in lines:
        packages = ", ".join(f"{entry.count} x {entry.package.sold_as}" for entry in line.packages)
        cost = "no price" if line.cost_cents is None else write_money(line.cost_cents)
        amounts = (write_quantity(value) for value in (line.needed, line.waste, line.on_hand))
        left = write_quantity(line.left_over)
        none = "none" if line.served else "not on the price list"
        rows.append((line.label, *amounts, packages or none, left, line.unit, cost))
    return Table(
        caption=category,
        head=("Item", "Needed", "Waste", "On hand", "Buy", "Left over", "Unit", "Cost"),
        rows=tuple(rows),
        figures=(False, True, True, True, False, True, False, True),
    )


def _costs(buying: BuyingList) -> Table:
    """Divide the total by phase, by place and by delivery."""
    deliveries = tuple((delivery.name, delivery.cost_cents) for delivery in buying.deliveries)
    parts = (("phase", buying.by_phase()), ("place", buying.by_place()), ("delivery", deliveries))
    rows = tuple((kind, name, write_money(cents)) for kind, costs in parts for name, cents in costs)
    return Table(caption="Cost", head=("By", "", "Cost"), rows=rows, figures=(False, False, True))
