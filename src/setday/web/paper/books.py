"""The sets of sheets that can be printed together."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy as _

from setday.web.boards.figuring import figured
from setday.web.buying.ordering import buying_for
from setday.web.cable.coils import coils_of
from setday.web.cable.figured import cable_of
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.models import BoardRun

if TYPE_CHECKING:
    from django.utils.functional import Promise

__all__ = ["BOOKS", "HouseBook"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseBook:
    """A set of sheets: what it is, whether it needs a board layout, and how it becomes a PDF."""

    title: "str | Promise"
    what: "str | Promise"
    needs_run: bool
    pages: Callable[[HouseSheet, BoardRun | None, date], bytes]


def _house(sheet: HouseSheet, run: BoardRun | None, dated: date) -> bytes:
    from setday.actions.sheets import house_sheets

    return house_sheets(sheet.built, dated=dated)


def _boards(sheet: HouseSheet, run: BoardRun | None, dated: date) -> bytes:
    from setday.actions.sheets import board_sheets

    assert run is not None  # needs_run
    return board_sheets(sheet.built, figured(run), dated=dated)


def _cable(sheet: HouseSheet, run: BoardRun | None, dated: date) -> bytes:
    from setday.actions.cable.sheets import cable_pages

    return cable_pages(sheet.house.name, cable_of(sheet), dated=dated, coils=coils_of(sheet).coils)


def _buying(sheet: HouseSheet, run: BoardRun | None, dated: date) -> bytes:
    from setday.actions.sheets import buying_sheets

    assert run is not None  # needs_run
    return buying_sheets(sheet.house.name, buying_for(run), dated=dated)


BOOKS: dict[str, HouseBook] = {
    "house": HouseBook(
        title=_("The house"),
        what=_(
            "The plan, every wall from both sides with every member, every surface as seen from the room."
        ),
        needs_run=False,
        pages=_house,
    ),
    "boards": HouseBook(
        title=_("The boards"),
        what=_(
            "The summary, every surface with its boards, the cut list, how each board is cut, the workings."
        ),
        needs_run=True,
        pages=_boards,
    ),
    "cable": HouseBook(
        title=_("The cable"),
        what=_("The wiring plan, a pull list a circuit, coils, end labels, home runs, the panel, the load."),
        needs_run=False,
        pages=_cable,
    ),
    "buying": HouseBook(
        title=_("The buying list"),
        what=_("What to order, by category, phase and place, and how lengths are cut."),
        needs_run=True,
        pages=_buying,
    ),
}
