"""The sets of sheets that can be printed together."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy as _

from setday.house import House

if TYPE_CHECKING:
    from django.utils.functional import Promise

    from setday.sheets import Sheet

__all__ = ["BOOKS", "HouseBook", "as_pdf"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseBook:
    """A set of sheets drawn from the house alone."""

    title: "str | Promise"
    what: "str | Promise"
    sheets: "Callable[[House], Sequence[Sheet]]"


def _plan(house: House) -> "Sequence[Sheet]":
    from setday.sheets import plan_sheets

    return plan_sheets(house)


def _walls(house: House) -> "Sequence[Sheet]":
    from setday.sheets import wall_sheet

    sides = ("left", "right")
    return [wall_sheet(wall, side=side, surfaces=house.surfaces) for wall in house.walls for side in sides]


def _surfaces(house: House) -> "Sequence[Sheet]":
    from setday.sheets import surface_sheet

    return [surface_sheet(surface) for surface in house.surfaces]


BOOKS: dict[str, HouseBook] = {
    "plan": HouseBook(title=_("Plan"), what=_("The floor plan to scale, rooms and openings."), sheets=_plan),
    "walls": HouseBook(
        title=_("Wall framing"), what=_("Every wall from both sides, with every member."), sheets=_walls
    ),
    "surfaces": HouseBook(
        title=_("Surfaces"), what=_("Every wall face and ceiling as seen from the room."), sheets=_surfaces
    ),
}


def as_pdf(sheets: "Sequence[Sheet]", *, house: str, dated: date) -> bytes:
    """Return sheets as one PDF."""
    from setday.sheets import Book, book_pdf

    return book_pdf(Book(house=house, dated=dated, sheets=tuple(sheets)))
