"""What every sheet of one house stands on: the house, the version looked at, and its tabs."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _

from setday.web.houses.opening import opened
from setday.web.keeping.houses import version_of
from setday.web.keeping.models import House, HouseVersion

if TYPE_CHECKING:
    from setday.actions.houses import OpenHouse
    from setday.house import House as BuiltHouse

__all__ = ["HouseSheet", "NotBuilt", "built_sheet", "house_sheet"]


class Sheet(Protocol):
    """A sheet of something that was kept as a file: a house, a hookup."""

    @property
    def version(self) -> Any:
        """The version looked at, with its number."""

    def address(self, screen: str, **names: str) -> str:
        """Return the address of another sheet of it."""


class NotBuilt(Exception):
    """The version looked at has problems, so that nothing can be drawn from it."""

    def __init__(self, sheet: "Sheet", *, file_screen: str = "houses:file") -> None:
        super().__init__(str(sheet.version))
        self.sheet, self.file_screen = sheet, file_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseSheet:
    """One house as looked at on a sheet."""

    house: House
    version: HouseVersion
    newest: int

    @property
    def opened(self) -> "OpenHouse":
        """The house, read and built."""
        return opened(self.version)

    @property
    def built(self) -> "BuiltHouse":
        """The built house; an error where its file has problems."""
        return self.opened.built()

    @property
    def is_newest(self) -> bool:
        """Whether the version looked at is the one in force."""
        return self.version.number == self.newest

    def address(self, screen: str, **names: str) -> str:
        """Return the address of another sheet of this house, at the same version."""
        plain: str = reverse(screen, kwargs={"key": self.house.key, **names})
        return plain if self.is_newest else f"{plain}?version={self.version.number}"

    @property
    def plain_address(self) -> str:
        """The address of the plan."""
        return self.address("houses:house")

    @property
    def studs_address(self) -> str:
        """The address of the plan with every stud."""
        plain = self.plain_address
        return f"{plain}{'&' if '?' in plain else '?'}studs=yes"

    def context(self, **more: Any) -> dict[str, Any]:
        """Return what the page around the sheet needs, and what is added."""
        return {
            "house_sheet": self,
            "house": self.house,
            "version": self.version,
            "tabs": self._tabs(),
            **more,
        }

    def _tabs(self) -> list[dict[str, str]]:
        screens = (
            ("H1", _("Plan"), "houses:house"),
            ("H2", _("Rooms"), "houses:rooms"),
            ("H3", _("House file"), "houses:file"),
            ("H4", _("Versions"), "houses:versions"),
            ("B1", _("Boards"), "boards:runs"),
            ("C1", _("Cable"), "cable:plan"),
            ("G1", _("Gates"), "gates:plan"),
            ("T1", _("Timetable"), "timetable:plan"),
            ("D2", _("Tasks"), "period:tasks"),
            ("D4", _("How far"), "period:progress"),
            ("F1", _("Sealed figures"), "sealed:offers"),
            ("E1", _("Hookups"), "switching:of-house"),
            ("M1", _("Buying list"), "buying:list"),
            ("W1", _("Workings"), "workings:list"),
            ("P1", _("Paper"), "paper:list"),
        )
        return [
            {"number": number, "words": words, "screen": screen, "address": self.address(screen)}
            for number, words, screen in screens
        ]


def house_sheet(request: HttpRequest, key: str) -> HouseSheet:
    """Return the house of an address, at the version the address asks for."""
    house = get_object_or_404(House.objects.of(request.school), key=key)
    version = version_of(house, request.GET.get("version"))
    if version is None:
        raise Http404
    return HouseSheet(house=house, version=version, newest=house.newest.number)


def built_sheet(request: HttpRequest, key: str) -> HouseSheet:
    """Return the same, for a sheet that cannot do without the built house.

    Raises
    ------
    NotBuilt
        When the file has problems; the middleware then shows the file with its findings.
    """
    sheet = house_sheet(request, key)
    if sheet.opened.house is None:
        raise NotBuilt(sheet)
    return sheet
