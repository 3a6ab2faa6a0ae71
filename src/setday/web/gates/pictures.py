"""Drawings of gates for the pages."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from django.urls import reverse

from setday.drawing import LANDSCAPE, PHONE, Paper, gate_plan
from setday.web.houses.drawings import Drawings, both

if TYPE_CHECKING:
    from setday.closein import BehindRecord, Gate, GateState
    from setday.web.gates.house import GateSheet

__all__ = ["behind_pictures", "plan_picture", "recorded_picture"]

_KEPT = 60
_DESK = replace(LANDSCAPE, height=900)
_PUSHED = replace(PHONE, width=760)
"""Twice a phone: strips stay wide enough for a thumb, and the plan is pushed sideways under it."""


def plan_picture(sheet: "GateSheet", states: Mapping[str, "GateState"]) -> Drawings:
    """Draw the plan with every surface marked."""
    house, key = sheet.place.house, sheet.sheet.house.key

    def link(kind: str, name: str) -> str | None:
        return reverse("gates:surface", kwargs={"key": key, "surface": name}) if kind == "surface" else None

    def draw(paper: Paper, ids: str) -> str:
        return gate_plan(house, states, paper=paper, link=link, key=ids)

    return Drawings(wide=draw(_DESK, "gates"), phone=draw(_PUSHED, "gates-phone"))


def behind_pictures(sheet: "GateSheet", gate: "Gate") -> Drawings:
    """Draw what is behind a surface as the house file says it now; once while the same things are in it."""
    version = sheet.sheet.version
    items = tuple(stand.item for stand in (*gate.items, *gate.behind))
    return _drawn(_Behind(sheet=sheet, gate=gate, key=(version.text, version.file_name, gate.surface, items)))


@dataclass(frozen=True, kw_only=True)
class _Behind:
    """A surface to be drawn; the same where file, surface and things in it are the same."""

    sheet: "GateSheet" = field(compare=False)
    gate: "Gate" = field(compare=False)
    key: tuple[object, ...]


@lru_cache(maxsize=_KEPT)
def _drawn(behind: _Behind) -> Drawings:
    from setday.actions.gates.closing import behind_drawing

    return both(
        lambda paper, key: behind_drawing(behind.sheet.place, behind.gate, paper=paper, key=key),
        key="behind",
        landscape=True,
    )


def recorded_picture(record: "BehindRecord") -> Drawings:
    """Return the drawing of a record as it was written; the ids of the two copies stay apart."""
    other = record.drawing
    for name in ("id", "aria-labelledby", "aria-describedby"):
        other = other.replace(f' {name}="', f' {name}="phone-')
    return Drawings(wide=record.drawing, phone=other)
