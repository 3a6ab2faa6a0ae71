"""The material of a house, for looking ahead: by its layout, its wiring and the count of the yard."""

from contextlib import suppress
from typing import TYPE_CHECKING

from setday.errors import SetdayError
from setday.web.boards.figuring import run_in_force
from setday.web.buying.in_force import prices_of, stock_in_force
from setday.web.buying.ordering import buying_for, wiring_for
from setday.web.keeping.lists import newest
from setday.web.keeping.models import HouseVersion, PriceList

if TYPE_CHECKING:
    from setday.actions.timetable.ahead_goods import HouseMaterial

__all__ = ["material_of"]


def material_of(version: HouseVersion) -> "HouseMaterial | None":
    """Return what the trades of a house need, and what of it lies in the yard by the last count.

    Boards are in it once a layout of that version is kept, wiring where the file names devices.  None
    where neither is known, or the price list in force cannot be used.
    """
    from setday.actions.timetable.ahead_goods import HouseMaterial

    school = version.house.school
    with suppress(SetdayError):  # the sheet of prices says what is wrong with them
        run = run_in_force(version)
        prices = prices_of(run.prices if run is not None else newest(PriceList, school=school))
        bought = buying_for(run) if run is not None else wiring_for(version)
        if bought is not None:
            stock = stock_in_force(prices, school=school).stock
            return HouseMaterial.bought(bought.buying, prices=prices, stock=stock)
    return None
