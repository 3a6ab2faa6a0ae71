"""Drawings of a house for a page: once for a wide screen and paper, once for a phone."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from django.urls import reverse

from setday.drawing import LANDSCAPE, LETTER, PHONE, Link, Paper, plan
from setday.web.houses.opening import opened_text
from setday.web.houses.sheet import HouseSheet

__all__ = ["Drawings", "anchor", "both", "house_links", "plan_of"]

_KEPT = 16

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
    return _links(sheet.house.key, _shown(sheet))


def plan_of(sheet: HouseSheet, *, studs: bool) -> Drawings:
    """Return the plan of a house; drawn once while its file is the same."""
    version = sheet.version
    return _plan(version.text, version.file_name, sheet.house.key, _shown(sheet), studs)


@lru_cache(maxsize=_KEPT)
def _plan(text: str, name: str, key: str, version: int, studs: bool) -> Drawings:
    built, link = opened_text(text, name).built(), _links(key, version)
    return both(lambda paper, key: plan(built, paper=paper, studs=studs, link=link, key=key), key="plan")


def _shown(sheet: HouseSheet) -> int:
    """Return the version that addresses must name: 0 for the one in force."""
    return 0 if sheet.is_newest else int(sheet.version.number)


def _links(key: str, version: int) -> Link:
    query = f"?version={version}" if version else ""

    def link(kind: str, name: str) -> str | None:
        if kind == "room":
            return f"{reverse('houses:rooms', kwargs={'key': key})}{query}#{anchor(name)}"
        if kind not in _SCREENS:
            return None
        screen, argument = _SCREENS[kind]
        return f"{reverse(screen, kwargs={'key': key, argument: name})}{query}"

    return link


def anchor(name: str) -> str:
    """Return the id of a room on the sheet of rooms."""
    return "room-" + "".join(sign if sign.isalnum() else "-" for sign in name.lower())
