"""How much may be sent in at once, said before anything is read."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _

from setday.web.errors import error_page

__all__ = ["SizeLimit", "megabytes"]

_MEGABYTE = 1_000_000


def megabytes(size: int) -> str:
    """Return a size in words: ``5 kB``, ``0.2 MB``, ``5 MB``."""
    if size < _MEGABYTE // 10:
        return f"{size / 1000:.0f} kB"
    return f"{f'{size / _MEGABYTE:.1f}'.removesuffix('.0')} MB"


class SizeLimit:
    """Refuses a request that says it is larger than anything the site takes."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        sent = _size(request)
        if sent <= settings.LARGEST_REQUEST:
            return self.get_response(request)
        return error_page(
            request,
            status=413,
            title=_("That is too much at once"),
            message=_(
                "What you sent is %(sent)s. A house file may have %(house)s at most, a price list or stock "
                "list %(list)s, a photo %(photo)s. Nothing was changed."
            )
            % {
                "sent": megabytes(sent),
                "house": megabytes(settings.LARGEST_HOUSE_FILE),
                "list": megabytes(settings.LARGEST_PRICE_LIST),
                "photo": megabytes(settings.LARGEST_PHOTO),
            },
            do=_("A house file is text and rarely passes 0.1 MB: check that you picked the right file."),
        )


def _size(request: HttpRequest) -> int:
    try:
        return int(request.META.get("CONTENT_LENGTH") or 0)
    except ValueError:
        return 0
