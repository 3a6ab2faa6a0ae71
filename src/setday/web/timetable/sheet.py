"""What every sheet of a timetable stands on: the house, its class file in force, its timetable in force."""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.urls import reverse

from setday.web.access import Role, may, role_of
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.class_files import class_file_of
from setday.web.keeping.models import ClassFileVersion, House, TimetableKind, TimetableRun

__all__ = ["TimetableSheet", "in_force", "timetable_sheet"]


@dataclass(frozen=True, kw_only=True)
class TimetableSheet:
    """The timetable of one house as looked at on a sheet."""

    house: House
    house_sheet: HouseSheet
    role: Role

    @cached_property
    def class_file(self) -> ClassFileVersion | None:
        """The class file in force."""
        return class_file_of(self.house)

    @cached_property
    def kept(self) -> TimetableRun | None:
        """The timetable in force."""
        return in_force(self.house)

    @property
    def changes(self) -> bool:
        """Whether who looks may change the timetable."""
        return may(self.role, "timetable:begin")

    @property
    def names(self) -> bool:
        """Whether who looks may read names of students."""
        return self.role is not Role.READER

    def address(self, screen: str, **names: Any) -> str:
        """Return the address of another sheet of this timetable."""
        found: str = reverse(screen, kwargs={"key": self.house.key, **names})
        return found

    def run(self, number: int) -> TimetableRun:
        """Return a search, repair or change of an address."""
        rows = TimetableRun.objects.filter(house=self.house).select_related("version", "class_file", "before")
        found: TimetableRun = get_object_or_404(rows, number=number)
        return found

    def standing(self) -> TimetableRun:
        """Return the timetable in force, for a sheet that cannot do without."""
        if self.kept is None:
            raise Http404
        return self.kept

    def context(self, **more: Any) -> dict[str, Any]:
        """Return what the page around the sheet needs, and what is added."""
        return self.house_sheet.context(timetable_sheet=self, **more)


def in_force(house: House) -> TimetableRun | None:
    """Return the newest timetable of a house that was not undone; None before the first."""
    rows = TimetableRun.objects.filter(house=house, document__isnull=False, put_back=False)
    rows = rows.exclude(kind__in=[TimetableKind.ODDS, TimetableKind.REASONS]).select_related(
        "version", "class_file", "before", "house"
    )
    found: TimetableRun | None = rows.order_by("-number").first()
    return found


def timetable_sheet(request: HttpRequest, key: str) -> TimetableSheet:
    """Return the timetable of the house of an address, by its newest files."""
    house = get_object_or_404(House.objects.of(request.school), key=key)
    newest = house.newest
    sheet = HouseSheet(house=house, version=newest, newest=newest.number)
    return TimetableSheet(house=house, house_sheet=sheet, role=role_of(request))
