"""What every sheet of one board run stands on."""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.urls import reverse

from setday.boards import BoardFigure, BoardProblem, Layout
from setday.web.boards.figuring import figured
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.models import BoardRun, House

__all__ = ["RunSheet", "laid_out_sheet", "run_sheet"]


@dataclass(frozen=True, kw_only=True)
class RunSheet:
    """One board run as looked at on a sheet."""

    run: BoardRun
    house_sheet: HouseSheet

    @cached_property
    def figure(self) -> BoardFigure:
        """Everything figured from the best layout."""
        return figured(self.run)

    @property
    def problem(self) -> BoardProblem:
        """What was laid out."""
        return self.figure.prepared.problem

    @property
    def layout(self) -> Layout:
        """The best layout; only asked for where there is one."""
        layout = self.figure.outcome.layout
        if layout is None:
            raise Http404
        return layout

    def address(self, screen: str, **names: Any) -> str:
        """Return the address of another sheet of this run."""
        found: str = reverse(
            screen, kwargs={"key": self.house_sheet.house.key, "number": self.run.number, **names}
        )
        return found

    def context(self, **more: Any) -> dict[str, Any]:
        """Return what the page around the sheet needs, and what is added."""
        return self.house_sheet.context(run_sheet=self, run=self.run, **more)


def run_sheet(request: HttpRequest, key: str, number: int) -> RunSheet:
    """Return the run of an address."""
    house = get_object_or_404(House.objects.of(request.school), key=key)
    runs = BoardRun.objects.select_related("version__house", "prices").filter(version__house=house)
    run = get_object_or_404(runs, number=number)
    sheet = HouseSheet(house=house, version=run.version, newest=house.newest.number)
    return RunSheet(run=run, house_sheet=sheet)


def laid_out_sheet(request: HttpRequest, key: str, number: int) -> RunSheet:
    """Return the same, for a sheet that cannot do without a layout."""
    sheet = run_sheet(request, key, number)
    if sheet.run.outcome is None or sheet.figure.outcome.layout is None:
        raise Http404
    return sheet
