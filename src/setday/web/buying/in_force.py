"""The price list and the stock in force, read."""

from functools import lru_cache
from typing import TYPE_CHECKING

from setday.web.keeping.lists import newest
from setday.web.keeping.models import PriceList as KeptPrices
from setday.web.keeping.models import School, StockCount

if TYPE_CHECKING:
    from setday.files import PriceFile, StockFile
    from setday.materials import PriceList

__all__ = ["price_file", "prices_of", "stock_in_force"]


@lru_cache(maxsize=8)
def price_file(text: str, name: str) -> "PriceFile":
    """Return a price list read from its text."""
    from setday.files import read_prices

    return read_prices(text, name=name)


def prices_of(kept: KeptPrices | None) -> "PriceList":
    """Return the prices of a kept list, or the demo's where none was kept."""
    from setday.actions.buying import demo_prices, open_prices

    if kept is not None:
        return open_prices(kept.text, name=kept.file_name)
    demo = demo_prices()
    return open_prices(demo.text, name="demo prices")


def stock_in_force(prices: "PriceList", *, school: School) -> "StockFile":
    """Return the stock in force at a school; empty before any was counted."""
    from setday.files import read_stock

    kept = newest(StockCount, school=school)
    if kept is None:
        return read_stock("item,quantity\n", name="stock.csv", prices=prices)
    return read_stock(kept.text, name=kept.file_name, prices=prices)
