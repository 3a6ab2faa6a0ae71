"""``setday buy``: the buying list in sold units."""

from datetime import datetime
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.app import app
from setday.cli.boards import AsJson, House, Prices, Seed, TimeLimit, Workers, figured, prices_at, wish_of
from setday.cli.check import findings_document, tell_aside, tell_findings
from setday.cli.reading import bytes_of, house_at, write_bytes, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.buying import Buying, LengthPlan
    from setday.actions.timetable.ahead_goods import HouseMaterial
    from setday.boards import BoardFigure, Limits
    from setday.files import StockFile
    from setday.materials import PriceList

__all__ = ["AtLayout", "AtStock", "buy", "house_material", "kept_layout"]

_EXAMPLE = "Example:  setday buy my-house.yaml --prices yard.csv --stock shed.csv --xlsx order.xlsx"


AtStock = Annotated[Path | None, typer.Option("--stock", help="What lies in the yard, CSV.")]
AtLayout = Annotated[
    Path | None, typer.Option("--layout", help="Order a layout kept with: setday boards --keep.")
]
AsCsv = Annotated[Path | None, typer.Option("--csv", help="Also write the list as CSV.")]
AsWorkbook = Annotated[Path | None, typer.Option("--xlsx", help="Also write the list as a workbook.")]
AsPages = Annotated[Path | None, typer.Option("--pdf", help="Also write the list as pages.")]


@app.command(name="buy", epilog=_EXAMPLE)
def buy(
    house: House,
    prices: Prices = None,
    stock: AtStock = None,
    layout: AtLayout = None,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
    workers: Workers = 2,
    csv: AsCsv = None,
    xlsx: AsWorkbook = None,
    pdf: AsPages = None,
    as_json: AsJson = False,
) -> int:
    """Work out what to buy: needs summed, waste once, stock taken off, rounded to sold units once."""
    from setday.boards import Limits

    opened = house_at(house)
    listed = prices_at(prices)
    yard = _stock_at(stock, listed)
    limits = Limits(seconds=time_limit, clock=perf_counter, seed=seed, workers=workers)
    if layout is not None:
        figure = kept_layout(layout, opened, listed, limits)
    else:
        figure = figured(opened, listed, limits, wish_of(offcuts=None, longest=None, rules=None))
    if figure.outcome.layout is None:
        tell_findings(figure.findings)
        for reason in figure.outcome.why_none:
            say(f"No layout: {reason}")
        return CHECK_FAILED
    bought = _worked_out(opened, figure, listed, yard)
    _write(opened.built().name, bought, csv=csv, xlsx=xlsx, pdf=pdf)
    if as_json:
        say_json(_document(bought))
    else:
        _tell(opened.built().name, bought, kept=layout is not None)
    return 0


def house_material(
    opened: "OpenHouse", *, prices: Path | None, stock: Path | None, layout: Path | None
) -> "HouseMaterial | None":
    """Return what the trades of a house need: its wiring, and its boards by a kept layout."""
    from setday.actions.buying import buy_needs
    from setday.actions.cable.handing import wiring_needs_of
    from setday.actions.timetable.ahead_goods import HouseMaterial
    from setday.boards import Limits

    listed = prices_at(prices)
    yard = _stock_at(stock, listed)
    lying = yard.stock if yard else ()
    if layout is not None:
        figure = kept_layout(layout, opened, listed, Limits(seconds=1.0, clock=perf_counter))
        bought = _worked_out(opened, figure, listed, yard)
    else:
        wanted = wiring_needs_of(opened, clock=perf_counter)
        lengths = yard.lengths if yard else ()
        bought = buy_needs(wanted, prices=listed, clock=perf_counter, stock=lying, lengths=lengths)
    if not bought.buying.lines:
        return None
    return HouseMaterial.bought(bought.buying, prices=listed, stock=lying)


def _worked_out(
    opened: "OpenHouse", figure: "BoardFigure", listed: "PriceList", yard: "StockFile | None"
) -> "Buying":
    from setday.actions.buying import buy as work_out
    from setday.actions.cable.handing import wiring_needs_of

    return work_out(
        figure,
        more=wiring_needs_of(opened, clock=perf_counter),
        prices=listed,
        clock=perf_counter,
        stock=yard.stock if yard else (),
        lengths=yard.lengths if yard else (),
    )


def kept_layout(path: Path, opened: "OpenHouse", listed: "PriceList", limits: "Limits") -> "BoardFigure":
    """Figure the kept layout again: it is verified like any other."""
    from setday.actions.boards import figure_boards
    from setday.errors import FileProblem
    from setday.files import read_layout

    kept = read_layout(bytes_of(path, what="a kept layout"), name=str(path), house_text=opened.text)
    rules = [f"{key}={value}" for key, value in kept.asked["rules"].items()]
    wish = wish_of(offcuts=kept.asked["offcuts"], longest=kept.asked["longest"], rules=rules)
    figure = figure_boards(
        opened,
        prices=listed,
        limits=limits,
        wish=wish,
        solve=lambda *_asked, **_how: kept.outcome,
    )
    if figure.outcome.layout is None:
        raise FileProblem(
            f"This layout, found with {kept.prices}, does not pass its check with {listed.name}.",
            do="Use the price list it was found with, or lay the boards out anew.",
            where=str(path),
        )
    return figure


def _stock_at(path: Path | None, prices: "PriceList") -> "StockFile | None":
    if path is None:
        return None
    from setday.errors import FileProblem
    from setday.files import read_stock
    from setday.findings import Severity

    read = read_stock(bytes_of(path, what="a stock list"), name=str(path), prices=prices)
    problems = [finding for finding in read.findings if finding.severity is Severity.PROBLEM]
    if problems:
        listed = "\n".join(f"  {finding}" for finding in problems)
        raise FileProblem(f"The stock list cannot be used:\n{listed}", where=str(path))
    tell_aside(read.findings)
    return read


def _write(house: str, bought: "Buying", *, csv: Path | None, xlsx: Path | None, pdf: Path | None) -> None:
    from setday.files import buying_csv, buying_xlsx

    now = datetime.now().astimezone()
    if csv is not None:
        write_text(csv, buying_csv(bought.buying))
    if xlsx is not None:
        write_bytes(xlsx, buying_xlsx(bought.buying, made=now))
    if pdf is not None:
        from setday.actions.sheets import buying_sheets

        write_bytes(pdf, buying_sheets(house, bought, dated=now.date()))


def _document(bought: "Buying") -> dict[str, Any]:
    from setday.files import buying_record

    return {
        **buying_record(bought.buying),
        "cutting_plans": [_plan(plan) for plan in bought.plans],
        "findings": findings_document(bought.buying.findings),
    }


def _plan(plan: "LengthPlan") -> dict[str, Any]:
    outcome = plan.outcome
    sticks = outcome.plan.sticks if outcome.plan else ()
    return {
        "item": plan.item,
        "status": outcome.status.value,
        "cost_cents": outcome.cost_cents,
        "bound_cents": float(outcome.bound.value),
        "sticks": [
            {
                "number": stick.number,
                "stock": stick.stock,
                "pieces": [{"length_in": piece.length / 64, "label": piece.label} for piece in stick.pieces],
                "remnant_in": stick.remnant / 64,
            }
            for stick in sticks
        ],
    }


def _tell(house: str, bought: "Buying", *, kept: bool) -> None:
    from setday.materials import write_money, write_quantity

    heading(f"Buying list: {house}, prices of {bought.buying.price_list}")
    rows = []
    for line in bought.buying.lines:
        units = ", ".join(f"{entry.count} x {entry.package.sold_as}" for entry in line.packages)
        cost = write_money(line.cost_cents) if line.cost_cents is not None else "no price"
        needed = write_quantity(line.needed, line.unit)
        waste = write_quantity(line.waste, line.unit) if line.waste else ""
        stock = write_quantity(line.on_hand, line.unit) if line.on_hand else ""
        nothing = "nothing" if line.served else "not on the price list"
        rows.append((line.label, needed, waste, stock, units or nothing, cost))
    table(("what", "needed", "waste", "in stock", "buy", "cost"), rows, right=(1, 2, 3, 5))
    say(f"Together: {write_money(bought.buying.total_cents)}")
    for plan in bought.plans:
        _tell_plan(plan)
    tell_findings(bought.buying.findings)
    if not kept:
        say("The boards are those of a layout searched for just now. To cut what you order, keep it first:")
        say("    setday boards HOUSE --keep FILE, then setday buy HOUSE --layout FILE")


def _tell_plan(plan: "LengthPlan") -> None:
    from setday.materials import write_money
    from setday.measure import Length

    outcome = plan.outcome
    if outcome.plan is None:
        for reason in outcome.why_none:
            say(f"{plan.label}: {reason}")
        return
    proven = f"proven bound {write_money(int(outcome.bound.value))}"
    say(f"{plan.label}: {len(outcome.plan.sticks)} lengths, {write_money(outcome.cost_cents)}, {proven}")
    for stick in outcome.plan.sticks:
        cut = "; ".join(f"{Length(piece.length)} {piece.label}" for piece in stick.pieces)
        say(f"    {stick.number}. {stick.stock}: {cut}; rest {Length(stick.remnant)}")
