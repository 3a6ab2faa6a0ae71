"""The price list: what the yard can buy."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods, require_safe

from setday.web.buying.entering import Entered, ListSheet
from setday.web.buying.forms import PricesForm
from setday.web.buying.in_force import price_file, prices_of
from setday.web.keeping.lists import newest
from setday.web.keeping.models import PriceList, School

__all__ = ["download", "prices"]


@require_http_methods(["GET", "HEAD", "POST"])
def prices(request: HttpRequest) -> HttpResponse:
    """Show the price list in force, and take in another."""
    return _SHEET.answer(request)


@require_safe
def download(request: HttpRequest) -> HttpResponse:
    """Hand out the price list in force."""
    return _SHEET.download(request.school)


def _read(data: bytes | str, name: str, school: School) -> Entered:
    from setday.files import read_prices

    file = price_file(data, name) if isinstance(data, str) else read_prices(data, name=name)
    return Entered(text=file.text, findings=file.findings)


def _more(school: School) -> dict[str, Any]:
    from setday.actions.buying import demo_prices

    return {"items": prices_of(newest(PriceList, school=school)).items, "text": demo_prices().text}


_SHEET = ListSheet(
    kind=PriceList,
    screen="buying:prices",
    template="buying/prices.html",
    form=PricesForm,
    read=_read,
    more=_more,
)
