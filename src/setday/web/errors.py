"""One place turns what went wrong into a page: what, where, what to do, and never a traceback."""

import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from setday.errors import SetdayError

if TYPE_CHECKING:
    from setday.web.houses.sheet import NotBuilt

__all__ = [
    "SayWhatWentWrong",
    "bad_request",
    "error_page",
    "form_too_old",
    "not_allowed",
    "not_found",
    "our_fault",
]

_log = logging.getLogger("setday.web")


def error_page(
    request: HttpRequest, *, status: int, title: str, message: str, do: str = "", where: str = ""
) -> HttpResponse:
    """Return a page in the site's look that needs no database and nobody signed in."""
    words = {"title": title, "message": message, "do": do, "where": where, "status": status}
    return HttpResponse(render_to_string("layout/error.html", words), status=status)


class SayWhatWentWrong:
    """Turns anything a user can put right into a page that says how."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        from setday.web.houses.sheet import NotBuilt

        if isinstance(exception, NotBuilt):
            return _to_the_file(request, exception)
        if not isinstance(exception, SetdayError):
            return None
        return error_page(
            request,
            status=422,
            title=_("This needs putting right"),
            message=exception.message,
            do=exception.do,
            where=exception.where,
        )


def _to_the_file(request: HttpRequest, exception: "NotBuilt") -> HttpResponse:
    words = _(
        "Version %(number)d has problems, so that nothing can be drawn or figured from it. "
        "They are marked below."
    )
    messages.warning(request, words % {"number": exception.sheet.version.number})
    return redirect(exception.sheet.address(exception.file_screen))


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer a request that makes no sense."""
    return error_page(
        request,
        status=400,
        title=_("The site could not read that request"),
        message=_("Nothing was changed."),
        do=_("Go back, reload the page and try again."),
    )


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer somebody who may not see a page."""
    return error_page(
        request,
        status=403,
        title=_("This sheet is not open to you"),
        message=_("You are signed in, but this sheet is for others."),
        do=_("Ask the instructor, or sign in under another name."),
    )


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer an address that leads nowhere."""
    return error_page(
        request,
        status=404,
        title=_("There is no such sheet"),
        message=_("The address leads to no page, or to a room, wall or run that is no longer there."),
        do=_("Go to the list of houses and find it from there."),
    )


def our_fault(request: HttpRequest) -> HttpResponse:
    """Answer when Setday itself failed; what happened is in the log."""
    return error_page(
        request,
        status=500,
        title=_("Setday failed here"),
        message=_(
            "This is a fault in Setday and not in what you typed. What was saved before is still there."
        ),
        do=_(
            "Try once more. If it comes back, send the file setday.log from the data folder "
            "to whoever keeps Setday."
        ),
    )


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Answer a form whose protection mark is missing or has run out."""
    _log.info("form refused: %s", reason)
    return error_page(
        request,
        status=403,
        title=_("This form is too old"),
        message=_("The page was open for too long, or the browser keeps no cookies. Nothing was changed."),
        do=_("Go back, reload the page, and send the form again. Allow cookies for this site."),
    )
