"""The versions of a house, and two of them side by side."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.web.houses.changes import changes
from setday.web.houses.listing import compared
from setday.web.houses.opening import opened
from setday.web.houses.sheet import house_sheet
from setday.web.keeping.houses import version_of

__all__ = ["compare", "versions"]


@require_safe
def versions(request: HttpRequest, key: str) -> HttpResponse:
    """List the versions."""
    sheet = house_sheet(request, key)
    return render(request, "houses/versions.html", sheet.context(versions=sheet.house.versions.all()))


@require_safe
def compare(request: HttpRequest, key: str) -> HttpResponse:
    """Show what changed from one version to another: in the house, and in its file."""
    sheet = house_sheet(request, key)
    after = version_of(sheet.house, request.GET.get("to"))
    before = version_of(sheet.house, request.GET.get("from") or _one_before(request, sheet.newest))
    if before is None or after is None:
        raise Http404
    old, new = opened(before).house, opened(after).house
    words = {
        "before": before,
        "after": after,
        "versions": sheet.house.versions.all(),
        "changed": changes(old, new) if old and new else None,
        "rows": compared(before.text, after.text) if before.text != after.text else (),
    }
    return render(request, "houses/compare.html", sheet.context(**words))


def _one_before(request: HttpRequest, newest: int) -> str:
    to = request.GET.get("to", "")
    number = int(to) if to.isdecimal() and len(to) <= 8 else newest
    return str(max(number - 1, 1))
