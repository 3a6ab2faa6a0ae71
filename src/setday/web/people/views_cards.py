"""Sign-in cards: made, shown once, printed; made anew for one or for all."""

import secrets
from datetime import date
from typing import Any

from django.contrib import messages
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_http_methods, require_POST

from setday.errors import SetdayError
from setday.web.clock import on_site
from setday.web.desk.door import CARD, forget_tries
from setday.web.keeping.models import Member, MemberRole, SchoolClass
from setday.web.people.accounts import end_sessions
from setday.web.people.codes import code_read, make_card
from setday.web.people.views_classes import class_of

__all__ = ["cards", "cards_pdf"]

_ASKED = "cards_asked"
_SALT = "setday.people.cards"
_SHOWN_FOR = 30 * 60


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def cards(request: HttpRequest, key: str) -> HttpResponse:
    """Make cards for a class, and show their codes: this one time."""
    shown = class_of(request, key)
    here = shown.members.filter(role=MemberRole.CREW, active=True).select_related("card", "user")
    members = list(here.order_by("name", "pk"))
    if request.method == "POST":
        return _made(request, shown, members)
    asked = request.session[_ASKED] = secrets.token_hex(8)
    words = {
        "school_class": shown,
        "rows": [{"member": each, "card": hasattr(each, "card")} for each in members],
        "without": sum(not hasattr(each, "card") for each in members),
        "asked": asked,
        "one": request.GET.get("member", ""),
    }
    return render(request, "people/cards.html", words)


@sensitive_variables("made", "rows", "code")
def _made(request: HttpRequest, shown: SchoolClass, members: list[Member]) -> HttpResponse:
    """Make the cards asked for, once: a page loaded again must not void the cards just printed."""
    if not request.POST.get("asked") or request.POST["asked"] != request.session.pop(_ASKED, None):
        messages.info(request, _("These cards were made already. Their codes are shown only once."))
        return redirect("people:cards", key=shown.key)
    chosen = _chosen(request, members)
    if not chosen:
        messages.info(request, _("Everybody has a card already. To make one anew, tick whose."))
        return redirect("people:cards", key=shown.key)
    made = []
    for each in chosen:
        if hasattr(each, "card"):
            forget_tries(who=each.card.lookup, what=CARD)
        code = make_card(each)
        end_sessions(each)
        forget_tries(who=code_read(code)[0], what=CARD)
        made.append((each.name, code))
    words = {
        "school_class": shown,
        "made": [{"name": name, "code": code} for name, code in made],
        "signed": signing.dumps({"class": shown.pk, "made": made}, salt=_SALT),
        "address": _address(request),
    }
    return render(request, "people/cards_made.html", words)


def _chosen(request: HttpRequest, members: list[Member]) -> list[Member]:
    if request.POST.get("do") == "all":
        return members
    if request.POST.get("do") == "ticked":
        wanted = set(request.POST.getlist("member"))
        return [each for each in members if each.key in wanted]
    return [each for each in members if not hasattr(each, "card")]


def _address(request: HttpRequest) -> str:
    """Return what is typed on a tablet, without what a browser adds by itself."""
    from setday.web.network import tablet_address

    return tablet_address(request)


@never_cache
@require_POST
@sensitive_variables("made")
def cards_pdf(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out cards just made, as pages to print and cut."""
    shown = class_of(request, key)
    made = _read(request.POST.get("made", ""), shown)
    from setday.actions.people_sheets import card_pages

    pages = card_pages(made, school_class=shown.name, address=_address(request), dated=_today())
    response = HttpResponse(pages, content_type="application/pdf")
    response.headers["Content-Disposition"] = content_disposition_header(False, f"{shown.key}-cards.pdf")
    return response


def _read(text: str, shown: SchoolClass) -> list[tuple[str, str]]:
    """Return the codes the page was given back, if this site wrote them, for this class, not long ago."""
    try:
        found: dict[str, Any] = signing.loads(text, salt=_SALT, max_age=_SHOWN_FOR)
    except signing.BadSignature as error:
        raise SetdayError(
            _("These cards cannot be printed any more: their codes are kept for half an hour only."),
            do=_("Make the cards anew, and print them at once."),
        ) from error
    if found["class"] != shown.pk:
        raise SetdayError(_("These cards are of another class."), do=_("Make the cards of this class."))
    return [(name, code) for name, code in found["made"]]


def _today() -> date:
    return on_site(timezone.now()).date()
