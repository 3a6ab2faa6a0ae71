"""What every sheet of cable stands on: the house, its cable, and the way to the other sheets of it."""

from typing import TYPE_CHECKING, Any

from django.http import HttpRequest
from django.utils.translation import gettext as _

from setday.web.cable.figured import cable_of
from setday.web.houses.sheet import HouseSheet, built_sheet

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable

__all__ = ["cable_context", "cable_sheet"]


def cable_sheet(request: HttpRequest, key: str) -> tuple[HouseSheet, "HouseCable"]:
    """Return the house of an address, with its cable.

    Raises
    ------
    NotBuilt, FileProblem
        When the house cannot be built, or names no place for the panel.
    """
    sheet = built_sheet(request, key)
    return sheet, cable_of(sheet)


def cable_context(sheet: HouseSheet, cable: "HouseCable", **more: Any) -> dict[str, Any]:
    """Return what the page around a sheet of cable needs, and what is added."""
    parts = (
        (_("Wiring plan"), "cable:plan"),
        (_("Check"), "cable:check"),
        (_("Panel and load"), "cable:panel"),
        (_("Pull list"), "cable:pulls"),
    )
    figure = cable.figure
    return sheet.context(
        cable=cable,
        figure=figure,
        built=figure.house,
        circuits=[(n, circuit) for n, circuit in enumerate(figure.plan.circuits, start=1)],
        parts=[
            {"words": words, "screen": screen, "address": sheet.address(screen)} for words, screen in parts
        ],
        **more,
    )
