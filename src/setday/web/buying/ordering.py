"""The buying list of a board run, figured once and kept in memory while nothing it rests on changes."""

import time
from functools import lru_cache
from typing import TYPE_CHECKING

from setday.web.boards.figuring import figured
from setday.web.buying.in_force import prices_of, stock_in_force
from setday.web.keeping.lists import newest
from setday.web.keeping.models import BoardRun, StockCount

if TYPE_CHECKING:
    from setday.actions.buying import Buying

__all__ = ["buying_for"]


def buying_for(run: BoardRun) -> "Buying":
    """Return what to buy for a run, at its own prices, with the stock in force taken off."""
    stock = newest(StockCount)
    return _buying(run.pk, run.kept_layouts, stock.number if stock else 0)


@lru_cache(maxsize=8)
def _buying(key: int, _kept_layouts: int, _stock: int) -> "Buying":
    from setday.actions.buying import buy

    run = BoardRun.objects.select_related("version", "prices").get(pk=key)
    prices = prices_of(run.prices)
    lying = stock_in_force(prices)
    return buy(figured(run), prices=prices, clock=time.monotonic, stock=lying.stock, lengths=lying.lengths)
