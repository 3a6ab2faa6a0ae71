"""The boards of a house's surface, from the layout in force."""

from typing import Any

from django.urls import reverse

from setday.boards import BoardFigure, Surface
from setday.drawing import board_layout
from setday.web.boards.figuring import figured, run_in_force
from setday.web.houses.drawings import Drawings, both
from setday.web.houses.sheet import HouseSheet

__all__ = ["boards_on"]


def boards_on(sheet: HouseSheet, surface_id: str) -> list[dict[str, Any]]:
    """Return each layer and part of a surface with its boards; nothing before a run has a layout."""
    run = run_in_force(sheet.version)
    if run is None:
        return []
    figure = figured(run)
    if figure.outcome.layout is None:
        return []
    on_it = {note.surface for note in figure.prepared.notes if note.house_surface == surface_id}
    place = {"key": sheet.house.key, "number": run.number}
    return [
        {
            "run": run,
            "surface": each,
            "address": reverse("boards:surface", kwargs={**place, "surface_id": each.id}),
            "drawings": _drawn(figure, each, key=f"boards-{number}"),
        }
        for number, each in enumerate(figure.prepared.problem.surfaces)
        if each.id in on_it
    ]


def _drawn(figure: BoardFigure, surface: Surface, *, key: str) -> Drawings:
    layout = figure.outcome.layout
    assert layout is not None  # asked for by boards_on only where there is one
    boards = figure.prepared.problem.boards
    return both(
        lambda paper, key: board_layout(surface, layout, boards=boards, paper=paper, key=key),
        key=key,
        landscape=True,
    )
