"""The gates of a house as its newest file asks for them, with the marks that were made.

For other groups of screens: ``gates_in_force(house).may_close(surface)`` tells whether boards may go on.
"""

from contextlib import suppress
from functools import cached_property, lru_cache
from threading import Lock
from typing import TYPE_CHECKING, Any

from django.db import connection
from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404

from setday.errors import SetdayError
from setday.web.access import may, role_of
from setday.web.cable.figured import cable_of_version
from setday.web.entries import NOBODY, SignIn, sign_in_of
from setday.web.houses.opening import opened
from setday.web.houses.sheet import HouseSheet, NotBuilt
from setday.web.keeping.gate_store import DjangoGates
from setday.web.keeping.models import House, HouseVersion

if TYPE_CHECKING:
    from setday.actions.gates.gathering import GateHouse
    from setday.closein import Asked, Gate, Gates

__all__ = ["GateSheet", "gate_sheet", "gates_in_force", "warm_up"]

_KEPT = 6
_one_at_a_time = Lock()


class GateSheet:
    """The gates of one house as looked at on a sheet."""

    def __init__(self, sheet: HouseSheet, *, sign_in: SignIn | None = None) -> None:
        self.sheet = sheet
        self.place: GateHouse = _place_of(sheet.version)
        self.store = DjangoGates(house=sheet.house, sign_in=sign_in or NOBODY)

    @cached_property
    def asked(self) -> "Asked":
        """What is asked for."""
        return self.place.asked(self.store.added())

    @cached_property
    def gates(self) -> "Gates":
        """Every gate as it stands."""
        from setday.closein import gates_of

        return gates_of(self.asked, self.store.marks())

    def gate(self, surface: str) -> "Gate":
        """Return the gate of a surface; there is no page for one that the house does not have."""
        from setday.actions.gates.marks import gate_at

        if surface not in self.asked.labels:
            raise Http404
        return gate_at(self.store, self.asked, surface)

    def context(self, request: HttpRequest, **more: Any) -> dict[str, Any]:
        """Return what the page around a sheet of gates needs, with the tabs that this person may open."""
        words = self.sheet.context(**more)
        role = role_of(request)
        words["tabs"] = [tab for tab in words["tabs"] if may(role, tab["screen"])]
        return words


def gate_sheet(request: HttpRequest, key: str) -> GateSheet:
    """Return the gates of the house of an address, by its newest file.

    Raises
    ------
    NotBuilt
        When the newest file has problems.
    """
    house = get_object_or_404(House.objects.of(request.school), key=key)
    newest = house.newest
    sheet = HouseSheet(house=house, version=newest, newest=newest.number)
    if sheet.opened.house is None:
        raise NotBuilt(sheet)
    return GateSheet(sheet, sign_in=sign_in_of(request) if request.method == "POST" else None)


def gates_in_force(house: House) -> "Gates":
    """Return the gates of a house as they stand.

    Raises
    ------
    FileProblem
        When its newest file cannot be built.
    """
    newest = house.newest
    return GateSheet(HouseSheet(house=house, version=newest, newest=newest.number)).gates


def warm_up() -> None:
    """Work out the gates of the houses with a period that is open, so that no tablet waits for it."""
    try:
        waiting = House.objects.filter(put_away=False, periods__closed_at__isnull=True, periods__isnull=False)
        for house in waiting.order_by("pk").distinct()[:_KEPT]:
            with suppress(SetdayError):  # its sheet says what is wrong with it
                _ = gates_in_force(house)
    finally:
        connection.close()


def _place_of(version: HouseVersion) -> "GateHouse":
    with _one_at_a_time:
        return _worked_out(version.pk, version.text, version.file_name)


@lru_cache(maxsize=_KEPT)
def _worked_out(pk: int, text: str, name: str) -> "GateHouse":
    from setday.actions.cable.handing import names_wiring
    from setday.actions.gates.gathering import GateHouse

    version = HouseVersion.objects.get(pk=pk)
    house = opened(version)
    wired = cable_of_version(version) if names_wiring(house) else None
    return GateHouse(opened=house, wired=wired, version=version.number)
