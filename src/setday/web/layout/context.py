"""What every page knows."""

from typing import Any

from django.http import HttpRequest
from django.utils.translation import gettext_lazy

from setday.web.access import TABLE, Role, may, role_of

__all__ = ["layout"]

_TABS = {
    "houses:house": "H1",
    "houses:wall": "H1",
    "houses:rooms": "H2",
    "houses:surface": "H2",
    "houses:file": "H3",
    "houses:edit": "H3",
    "houses:versions": "H4",
    "houses:compare": "H4",
    "boards": "B1",
    "buying": "M1",
    "workings": "W1",
    "paper": "P1",
    "cable": "C1",
    "period": "D2",
    "period:progress": "D4",
    "gates": "G1",
    "timetable": "T1",
    "sealed": "F1",
    "switching:hookup": "S1",
    "switching:judge": "S2",
    "switching:draw": "S3",
    "switching:try-drawn": "S3",
    "switching:judge-drawn": "S3",
    "switching:crews": "S3",
    "switching:plan": "S4",
    "switching:stage": "S5",
    "switching:file": "S6",
    "switching:edit": "S6",
    "switching:versions": "S7",
    "switching:of-house": "E1",
}
"""Screen, or group of screens, to the number of the tab it stands under."""


_RAIL = (
    ("houses:list", gettext_lazy("Houses")),
    ("switching:list", gettext_lazy("Hookups")),
    ("buying:prices", gettext_lazy("Prices")),
    ("buying:stock", gettext_lazy("Stock")),
    ("hunts:list", gettext_lazy("Hunts")),
    ("period:list", gettext_lazy("Periods")),
    ("people:classes", gettext_lazy("People")),
    ("desk:help", gettext_lazy("Help")),
)
"""What stands at the head of every sheet, for whoever may open it."""

_INSIDE = {Role.READER, Role.HELPER, Role.INSTRUCTOR, Role.KEEPER}


def layout(request: HttpRequest) -> dict[str, Any]:
    """Return who is here, which screen is open and under which tab, and what else may be opened."""
    match = getattr(request, "resolver_match", None)
    screen = match.view_name if match else ""
    role = role_of(request)
    inside = role in _INSIDE
    member = getattr(request, "member", None)
    return {
        "signed_in": inside,
        "crew_sheet": role in {Role.CREW, Role.BENCH, Role.MEMBER},
        "crew_member": member if role is Role.MEMBER else None,
        "keeper": role is Role.KEEPER,
        "rail": [(name, words) for name, words in _RAIL if inside and may(role, name)],
        "open_screens": frozenset(name for name in TABLE if may(role, name)),
        "screen": screen,
        "open_tab": _TABS.get(screen) or _TABS.get(screen.partition(":")[0], ""),
        "here": request.get_full_path() if request.method == "GET" else "/",
    }
