"""How much may be sent in at once, said before anything is read."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _

from setday.web.errors import error_page

__all__ = ["SizeLimit", "megabytes"]

_MEGABYTE = 1024 * 1024


def megabytes(size: int) -> str:
    """Return a size in words: ``2.0 MB``."""
    return f"{size / _MEGABYTE:.1f} MB"


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
            message=_("What you sent is %(sent)s; the site takes %(most)s at most. Nothing was changed.")
            % {"sent": megabytes(sent), "most": megabytes(settings.LARGEST_REQUEST)},
            do=_("A house file is text and rarely passes 0.1 MB: check that you picked the right file."),
        )


def _size(request: HttpRequest) -> int:
    try:
        return int(request.META.get("CONTENT_LENGTH") or 0)
    except ValueError:
        return 0
