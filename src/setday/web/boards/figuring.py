"""Figuring the boards of a kept house: a search from a record, and the figure of a search that ended."""

import time
from collections.abc import Callable
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from setday.boards import (
    BoardFigure,
    BoardProblem,
    Bound,
    Limits,
    OffcutUse,
    Outcome,
    Progress,
    Status,
    totals,
)
from setday.files import from_record, layout_from_record
from setday.measure import Length, parse_length
from setday.web.buying.in_force import prices_of
from setday.web.houses.opening import opened
from setday.web.keeping.models import BoardRun, HouseVersion

if TYPE_CHECKING:
    from setday.actions.boards import BoardWish
    from setday.materials import PriceList

__all__ = ["figured", "lay_out", "run_in_force", "wish_of"]

_WORKERS = 2
_KEPT = 8


def lay_out(run: BoardRun, *, on_progress: Callable[[Progress], bool]) -> BoardFigure:
    """Search for a layout as a run asks."""
    from setday.actions.boards import figure_boards

    limits = Limits(seconds=float(run.options["seconds"]), clock=time.monotonic, workers=_WORKERS)
    return figure_boards(
        opened(run.version),
        prices=_prices(run),
        limits=limits,
        wish=wish_of(run.options),
        on_progress=on_progress,
    )


def wish_of(options: dict[str, Any]) -> "BoardWish":
    """Return what the options of a run ask for over what the house file says."""
    from setday.actions.boards import BoardWish

    return BoardWish(
        offcuts=OffcutUse(options["offcuts"]) if options.get("offcuts") else None,
        longest=parse_length(options["longest"]) if options.get("longest") else None,
        rules=options.get("rules") or {},
    )


def figured(run: BoardRun) -> BoardFigure:
    """Return everything figured from the best layout of a run; the layout is verified anew.

    A run still at work, or cut short when the site was stopped, answers with its best layout so far.
    """
    return _figured(run.pk, run.kept_layouts)


def run_in_force(version: HouseVersion, number: str | None = None) -> BoardRun | None:
    """Return the run of that number, or the last of the version that has a layout."""
    with_layout = BoardRun.objects.filter(version=version, outcome__isnull=False)
    if number and number.isdecimal() and len(number) <= 8:
        with_layout = with_layout.filter(number=int(number))
    found: BoardRun | None = with_layout.order_by("-pk").first()
    return found


@lru_cache(maxsize=_KEPT)
def _figured(key: int, _kept_layouts: int) -> BoardFigure:
    from setday.actions.boards import figure_boards

    run = BoardRun.objects.select_related("version", "prices").get(pk=key)

    def recorded(
        problem: BoardProblem,
        *,
        limits: Limits,
        on_progress: Callable[[Progress], bool] | None = None,
    ) -> Outcome:
        return _recorded(run, problem)

    return figure_boards(
        opened(run.version),
        prices=_prices(run),
        limits=Limits(seconds=0.0, clock=time.monotonic),
        wish=wish_of(run.options),
        solve=recorded,
    )


def _recorded(run: BoardRun, problem: BoardProblem) -> Outcome:
    if not run.outcome.get("so_far"):
        return from_record(run.outcome)
    layout = layout_from_record(run.outcome["layout"])
    counted = totals(problem, layout)
    return Outcome(
        status=Status.STOPPED,
        layout=layout,
        cost_cents=counted.cost_cents,
        butt_joint=counted.butt_joint,
        pieces=counted.pieces,
        bound=Bound(cost_cents=run.outcome["bound_cents"], area_cost_cents=0.0, method="proven so far"),
        seconds=run.seconds,
    )


def _prices(run: BoardRun) -> "PriceList":
    prices = prices_of(run.prices)
    if not run.options.get("widest"):
        return prices
    widest: Length = parse_length(run.options["widest"])
    return prices.with_items(
        item for item in prices.items if not (item.board_kind and item.width and item.width > widest)
    )
