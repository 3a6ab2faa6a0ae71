"""The plan with the fewest conductor-feet: sealed until the instructor opens it."""

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.web.keeping.hookups import add_hookup_version, open_plan, read_kept, seal_plan
from setday.web.switching.pictures import rest_pictures
from setday.web.switching.sheet import HookupSheet, sound_sheet

if TYPE_CHECKING:
    from setday.switching import Plan

__all__ = ["plan", "plan_words"]

_KEPT_PLANS = 16


@require_http_methods(["GET", "HEAD", "POST"])
def plan(request: HttpRequest, key: str) -> HttpResponse:
    """Show what the plan is figured from; and the plan, once it is opened."""
    sheet = sound_sheet(request, key)
    if request.method == "POST":
        return _changed(request, sheet)
    words: dict[str, Any] = {"stage": sheet.hookup, "base": "switching/page.html"}
    if sheet.kept.plan_opened:
        words |= plan_words(sheet.version.text, sheet.version.file_name)
    return render(request, "switching/plan.html", sheet.context(**words))


def _changed(request: HttpRequest, sheet: HookupSheet) -> HttpResponse:
    wanted = request.POST.get("do")
    if wanted == "open":
        open_plan(sheet.kept)
    elif wanted == "seal":
        seal_plan(sheet.kept)
        messages.info(request, _("The plan is sealed."))
    elif wanted == "keep" and sheet.kept.plan_opened:
        return _kept(request, sheet)
    return redirect(sheet.address("switching:plan"))


def _kept(request: HttpRequest, sheet: HookupSheet) -> HttpResponse:
    from setday.files import write_hookup

    planned = _plan(sheet.version.text, sheet.version.file_name)
    version = add_hookup_version(
        sheet.kept,
        name=planned.hookup.name,
        file_name=sheet.version.file_name,
        text=write_hookup(planned.hookup),
        note=_("as planned"),
    )
    messages.success(request, _("Kept as version %(number)d.") % {"number": version.number})
    return redirect("switching:hookup", key=sheet.kept.key)


def plan_words(text: str, name: str) -> dict[str, Any]:
    """Return the plan of a hookup file for its page, or why there is none.

    Only for a hookup whose plan the instructor has opened.
    """
    try:
        found = _plan(text, name)
    except SetdayError as error:
        return {"no_plan": error}
    from setday.drawing import hookup_table

    return {
        "planned": found,
        "drawings": rest_pictures(found.hookup, key="plan"),
        "joins": hookup_table(found.hookup),
    }


@lru_cache(maxsize=_KEPT_PLANS)
def _plan(text: str, name: str) -> "Plan":
    from setday.switching import plan as least

    return least(read_kept(text, name).sound())
