"""Drawings of a house for a page: once for a wide screen and paper, once for a phone."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from django.urls import reverse

from setday.drawing import LANDSCAPE, LETTER, PHONE, Link, Paper
from setday.web.houses.sheet import HouseSheet

__all__ = ["Drawings", "both", "house_links"]

_NARROW = replace(PHONE, width=324)
"""What a sheet leaves free on the narrowest phone, 360 px wide."""

_SCREENS = {
    "wall": ("houses:wall", "name"),
    "surface": ("houses:surface", "surface_id"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawings:
    """One drawing for two papers."""

    wide: str
    phone: str


def both(draw: Callable[[Paper, str], str], *, key: str, landscape: bool = False) -> Drawings:
    """Draw for wide paper and for a phone; the ids of the two stay apart."""
    wide = LANDSCAPE if landscape else LETTER
    return Drawings(wide=draw(wide, key), phone=draw(_NARROW, f"{key}-phone"))


def house_links(sheet: HouseSheet) -> Link:
    """Return the addresses behind the things of a house, for its drawings."""

    def link(kind: str, name: str) -> str | None:
        if kind == "room":
            return f"{reverse('houses:rooms', kwargs={'key': sheet.house.key})}{_query(sheet)}#{anchor(name)}"
        if kind not in _SCREENS:
            return None
        screen, argument = _SCREENS[kind]
        return sheet.address(screen, **{argument: name})

    return link


def anchor(name: str) -> str:
    """Return the id of a room on the sheet of rooms."""
    return "room-" + "".join(sign if sign.isalnum() else "-" for sign in name.lower())


def _query(sheet: HouseSheet) -> str:
    return "" if sheet.is_newest else f"?version={sheet.version.number}"
