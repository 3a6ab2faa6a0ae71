"""The buying list of a board run, figured once and kept in memory while nothing it rests on changes."""

import time
from functools import lru_cache
from typing import TYPE_CHECKING

from setday.web.boards.figuring import figured
from setday.web.buying.in_force import prices_of, stock_in_force
from setday.web.cable.figured import cable_of_version
from setday.web.houses.opening import opened
from setday.web.keeping.lists import newest
from setday.web.keeping.models import BoardRun, HouseVersion, PriceList, StockCount

if TYPE_CHECKING:
    from setday.actions.buying import Buying
    from setday.needs import Need

__all__ = ["buying_for", "wiring_for", "wiring_is_on_it"]


def buying_for(run: BoardRun) -> "Buying":
    """Return what to buy for a run, at its own prices, with the stock in force taken off.

    The material of the wiring is on it where the house file names devices.
    """
    stock = newest(StockCount, school=run.version.house.school)
    return _buying(run.pk, run.kept_layouts, stock.number if stock else 0)


def wiring_for(version: HouseVersion) -> "Buying | None":
    """Return what to buy for the wiring alone, before boards are laid out; None where there is none."""
    from setday.actions.buying import buy_needs

    wanted = _wiring(version)
    if not wanted:
        return None
    school = version.house.school
    prices = prices_of(newest(PriceList, school=school))
    lying = stock_in_force(prices, school=school)
    return buy_needs(wanted, prices=prices, clock=time.monotonic, stock=lying.stock, lengths=lying.lengths)


def wiring_is_on_it(version: HouseVersion) -> bool:
    """Tell whether the buying list of a version holds its wiring."""
    from setday.actions.cable.handing import names_wiring

    return names_wiring(opened(version))


@lru_cache(maxsize=8)
def _buying(key: int, _kept_layouts: int, _stock: int) -> "Buying":
    from setday.actions.buying import buy

    run = BoardRun.objects.select_related("version__house__school", "prices").get(pk=key)
    prices = prices_of(run.prices)
    lying = stock_in_force(prices, school=run.version.house.school)
    return buy(
        figured(run),
        prices=prices,
        clock=time.monotonic,
        stock=lying.stock,
        lengths=lying.lengths,
        more=_wiring(run.version),
    )


def _wiring(version: HouseVersion) -> "tuple[Need, ...]":
    from setday.actions.cable.handing import needs_of_wiring

    return needs_of_wiring(cable_of_version(version)) if wiring_is_on_it(version) else ()
