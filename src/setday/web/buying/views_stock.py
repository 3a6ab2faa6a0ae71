"""The stock: what lies in the yard already."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.buying.entering import Entered, ListSheet
from setday.web.buying.forms import StockForm
from setday.web.buying.in_force import prices_of, stock_in_force
from setday.web.keeping.lists import newest
from setday.web.keeping.models import PriceList, School, StockCount

__all__ = ["download", "stock"]

_EMPTY = "item,quantity,unit,length,note\n"


@require_http_methods(["GET", "HEAD", "POST"])
def stock(request: HttpRequest) -> HttpResponse:
    """Show the stock in force, and take in another count."""
    return _SHEET.answer(request)


@require_safe
def download(request: HttpRequest) -> HttpResponse:
    """Hand out the stock in force."""
    return _SHEET.download(request.school)


def _read(data: bytes | str, name: str, school: School) -> Entered:
    from setday.files import read_stock

    file = read_stock(data, name=name, prices=prices_of(newest(PriceList, school=school)))
    return Entered(text=file.text, findings=file.findings)


def _more(school: School) -> dict[str, Any]:
    prices = prices_of(newest(PriceList, school=school))
    file = stock_in_force(prices, school=school)
    return {"items": file.stock, "lengths": file.lengths, "text": _EMPTY}


_SHEET = ListSheet(
    kind=StockCount,
    screen="buying:stock",
    template="buying/stock.html",
    form=StockForm,
    read=_read,
    more=_more,
)
