"""``setday boards``: every surface laid out board by board."""

from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.check import tell_aside, tell_findings
from setday.cli.progress import following
from setday.cli.reading import bytes_of, house_at, write_bytes, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table
from setday.errors import SetdayError

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.boards import BoardWish
    from setday.boards import BoardFigure, Limits, WhatIf
    from setday.materials import PriceList

__all__ = ["boards", "figured", "prices_at", "wish_of"]

_ENDED = {
    "optimal": "the cheapest there is",
    "stopped": "stopped by hand",
    "feasible": "stopped by the time limit",
    "none": "no layout",
}
_EXAMPLE = "Example:  setday boards my-house.yaml --prices yard.csv --time-limit 120 --pdf boards.pdf"

House = Annotated[Path, typer.Argument(help="The house file; - reads standard input.")]
Prices = Annotated[
    Path | None, typer.Option("--prices", help="Your price list, CSV; without it, the invented demo prices.")
]
TimeLimit = Annotated[float, typer.Option("--time-limit", min=0.1, max=86400, help="Seconds to search.")]
Seed = Annotated[
    int, typer.Option("--seed", min=0, help="The same seed and one worker give the same layout.")
]
Workers = Annotated[int, typer.Option("--workers", min=1, max=64, help="Threads.")]
Offcuts = Annotated[
    str | None, typer.Option("--offcuts", help="How far off-cuts may travel: none, room, day or house.")
]
Longest = Annotated[str | None, typer.Option("--longest", help="The longest board to use, like 8'.")]
Rules = Annotated[
    list[str] | None,
    typer.Option("--rule", help='Set a rule for this run: boards.least_piece=16". May be repeated.'),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document.")]

AskWhatIf = Annotated[
    bool,
    typer.Option(
        "--what-if", help="Compare the usual questions side by side; the time limit holds for each."
    ),
]
WithCuts = Annotated[bool, typer.Option("--cuts", help="Also print the cut list.")]
AsPages = Annotated[
    Path | None, typer.Option("--pdf", help="Also write the sheets: drawings, cut list, workings.")
]
KeepAt = Annotated[
    Path | None, typer.Option("--keep", help="Keep the layout in this file, to order from with: setday buy.")
]


@app.command(epilog=_EXAMPLE)
def boards(
    house: House,
    prices: Prices = None,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
    workers: Workers = 2,
    offcuts: Offcuts = None,
    longest: Longest = None,
    rule: Rules = None,
    what_if: AskWhatIf = False,
    cuts: WithCuts = False,
    pdf: AsPages = None,
    keep: KeepAt = None,
    as_json: AsJson = False,
) -> int:
    """Lay boards on every wall and ceiling, and prove how near the cost is to the least possible.

    Ctrl-C stops the search and keeps the best layout. Ends with status 1 when no layout is possible.
    """
    opened = house_at(house)
    wish = wish_of(offcuts=offcuts, longest=longest, rules=rule)
    listed = prices_at(prices)
    limits = _limits(time_limit, seed, workers)
    if what_if:
        return _compared(opened, listed, limits, wish, as_json=as_json)
    figure = figured(opened, listed, limits, wish)
    if keep is not None and figure.outcome.layout is not None:
        _keep(keep, opened, figure, wish, listed)
    if pdf is not None and figure.outcome.layout is not None:
        _print(pdf, opened, figure)
    if as_json:
        from setday.boards import boards_document

        say_json(boards_document(figure))
    else:
        _tell(opened, figure, cuts=cuts)
    return 0 if figure.outcome.layout is not None else CHECK_FAILED


def _print(path: Path, opened: "OpenHouse", figure: "BoardFigure") -> None:
    from datetime import datetime

    from setday.actions.sheets import board_sheets

    today = datetime.now().astimezone().date()
    write_bytes(path, board_sheets(opened.built(), figure, dated=today))


def _keep(
    path: Path, opened: "OpenHouse", figure: "BoardFigure", wish: "BoardWish", listed: "PriceList"
) -> None:
    from setday.files import write_layout

    asked = {
        "offcuts": wish.offcuts.value if wish.offcuts else None,
        "longest": str(wish.longest) if wish.longest else None,
        "rules": dict(wish.rules),
    }
    write_text(path, write_layout(figure.outcome, house_text=opened.text, prices=listed.name, asked=asked))


def figured(opened: "OpenHouse", listed: "PriceList", limits: "Limits", wish: "BoardWish") -> "BoardFigure":
    """Figure the boards of a house, showing how the search gets on."""
    from setday.actions.boards import figure_boards

    with following(limit=limits.seconds) as follow:
        return figure_boards(opened, prices=listed, limits=limits, wish=wish, on_progress=follow)


def prices_at(path: Path | None) -> "PriceList":
    """Read the price list of a person, or the demo's; its questions and notes go to standard error."""
    from setday.actions.buying import demo_prices, usable_prices
    from setday.files import read_prices

    if path is None:
        prices = demo_prices().prices
        if prices is None:
            raise SetdayError("The demo price list is damaged.", do="Install Setday anew.")
        return prices
    read = read_prices(bytes_of(path, what="a price list"), name=str(path))
    listed = usable_prices(read, name=str(path))
    tell_aside(read.findings)
    return listed


def wish_of(*, offcuts: str | None, longest: str | None, rules: list[str] | None) -> "BoardWish":
    """Turn the words of the command line into a wish."""
    from setday.actions.boards import BoardWish
    from setday.boards import OffcutUse
    from setday.measure import parse_length

    uses = [use.value for use in OffcutUse]
    if offcuts is not None and offcuts not in uses:
        raise SetdayError(
            f"--offcuts {offcuts!r} is not one of the choices.", do=f"Write one of: {', '.join(uses)}."
        )
    asked = {}
    for entry in rules or []:
        key, sign, value = entry.partition("=")
        if not sign or not key.strip() or not value.strip():
            raise SetdayError(
                f"--rule {entry!r} is not a rule and a value.", do='Write it like boards.least_piece=16".'
            )
        asked[key.strip()] = value.strip()
    return BoardWish(
        offcuts=OffcutUse(offcuts) if offcuts else None,
        longest=parse_length(longest) if longest else None,
        rules=asked,
    )


def _limits(seconds: float, seed: int, workers: int) -> "Limits":
    from setday.boards import Limits

    return Limits(seconds=seconds, clock=perf_counter, seed=seed, workers=workers)


def _compared(
    opened: "OpenHouse", listed: "PriceList", limits: "Limits", wish: "BoardWish", *, as_json: bool
) -> int:
    from setday.actions.boards import compare_variants
    from setday.findings import in_order

    rows = compare_variants(opened, prices=listed, limits=limits, wish=wish)
    if as_json:
        say_json({"variants": [_variant(row) for row in rows]})
        return 0
    heading(f"What if: {opened.built().name}")
    table(
        ("what if", "boards", "pieces", "cost", "dearer by", "butt joints, ft", "gap", "status"),
        [
            (
                row.label,
                row.boards,
                row.pieces,
                _money(row.cost_cents),
                _money(row.dearer_cents),
                f"{row.butt_joint_ft:,.1f}",
                f"{row.gap:.2%}",
                _ENDED[row.status.value],
            )
            for row in rows
        ],
        right=(1, 2, 3, 4, 5, 6),
    )
    tell_findings(in_order(finding for row in rows for finding in row.findings))
    return 0


def _variant(row: "WhatIf") -> dict[str, object]:
    return {
        "label": row.label,
        "status": row.status.value,
        "boards": row.boards,
        "pieces": row.pieces,
        "cost": row.cost_cents / 100,
        "dearer": row.dearer_cents / 100,
        "butt_joint_ft": row.butt_joint_ft,
        "gap": round(row.gap, 6),
    }


def _tell(opened: "OpenHouse", figure: "BoardFigure", *, cuts: bool) -> None:
    heading(f"Boards: {opened.built().name}")
    tell_findings(figure.findings)
    outcome = figure.outcome
    if outcome.layout is None or figure.totals is None or figure.comparison is None:
        for reason in outcome.why_none:
            say(f"No layout: {reason}")
        return
    _tell_boards(figure)
    say(
        f"{figure.totals.boards} boards, {figure.totals.pieces} pieces, {_money(outcome.cost_cents)}; "
        f"butt joints {outcome.butt_joint / 768:,.1f} ft."
    )
    say(
        f"Proven: no layout costs less than {_money(outcome.bound.cost_cents)}; "
        f"this one is within {outcome.gap:.2%} ({_ENDED[outcome.status.value]}, {outcome.seconds:.1f} s)."
    )
    say(figure.comparison.counts)
    for reason in figure.comparison.why:
        say(f"    {reason}")
    for gave_way in outcome.layout.relaxed:
        say(f"Gave way: {gave_way}")
    if cuts and figure.cut_list is not None:
        heading("Cut list")
        for board in figure.cut_list.boards:
            say(board.sentence)


def _tell_boards(figure: "BoardFigure") -> None:
    from setday.boards import board_words
    from setday.measure import Length

    laid = figure.laid_out
    if laid is None:
        return
    counts: dict[str, int] = {}
    for board in laid.layout.boards:
        counts[board.key] = counts.get(board.key, 0) + 1
    listed = laid.price_list
    rows = [
        (
            listed[key].kind,
            board_words(Length(listed[key].width), Length(listed[key].length)),
            count,
            _money(listed[key].price_cents),
            _money(count * listed[key].price_cents),
        )
        for key, count in sorted(counts.items())
    ]
    table(("board", "size", "count", "each", "cost"), rows, right=(2, 3, 4))


def _money(cents: float) -> str:
    return f"${cents / 100:,.2f}"
