"""From which coil each run is cut: planned once while house, prices and stock are the same."""

import time

from setday.materials import CoilPlans, StockLength, coil_plans
from setday.solving import Limits
from setday.web.buying.in_force import prices_of, stock_in_force
from setday.web.cable.figured import cable_of
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.lists import newest
from setday.web.keeping.models import PriceList, StockCount

__all__ = ["coils_of", "forget"]

_KEPT = 6
_SECONDS = 4.0


def coils_of(sheet: HouseSheet) -> CoilPlans:
    """Return the coil plans of the house on a sheet, by the prices and the stock in force."""
    school = sheet.house.school
    prices, stock = newest(PriceList, school=school), newest(StockCount, school=school)
    key = (sheet.version.text, sheet.version.file_name, prices and prices.pk, stock and stock.pk)
    found = _planned.get(key)
    if found is None:
        if len(_planned) >= _KEPT:
            _planned.pop(next(iter(_planned)))
        found = _planned[key] = _plan(sheet, prices)
    return found


_planned: dict[tuple[str, str, int | None, int | None], CoilPlans] = {}


def forget() -> None:
    """Forget all plans."""
    _planned.clear()


def _plan(sheet: HouseSheet, kept: PriceList | None) -> CoilPlans:
    prices = prices_of(kept)
    on_hand: dict[str, list[StockLength]] = {}
    for length in stock_in_force(prices, school=sheet.house.school).lengths:
        on_hand.setdefault(length.item, []).append(length.stock)
    limits = Limits(seconds=_SECONDS, clock=time.monotonic, workers=1)
    return coil_plans(cable_of(sheet).figure.pulls, prices, limits=limits, on_hand=on_hand)
