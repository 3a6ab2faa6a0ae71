"""How the boards are cut and where the pieces hang: by board, by surface, by room, by crew and day."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.boards import BoardCuts, Surface, share_among_crews
from setday.drawing import board_layout, cutting_diagram, piece_table
from setday.web.boards.crews import awaited
from setday.web.boards.sheet import RunSheet, laid_out_sheet
from setday.web.houses.drawings import both

__all__ = ["by_room", "cut", "cuts", "on_surface"]

_MOST_CREWS = 12


@require_safe
def cuts(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show the cut list, for the whole house, one room or one day."""
    sheet = laid_out_sheet(request, key, number)
    listed = sheet.figure.cut_list
    assert listed is not None  # a layout has a cut list
    room, day = request.GET.get("room", ""), request.GET.get("day", "")
    boards: tuple[BoardCuts, ...] = listed.boards
    if room:
        boards = listed.for_room(room)
    elif day.isdecimal():
        boards = listed.for_day(int(day[:4]))
    words = {"boards": boards, "rooms": listed.rooms, "days": listed.days, "room": room, "day": day}
    return render(request, "boards/cuts.html", sheet.context(**words, kinds=_kinds(sheet)))


@require_safe
def cut(request: HttpRequest, key: str, number: int, board: int) -> HttpResponse:
    """Show how one board is cut."""
    sheet = laid_out_sheet(request, key, number)
    listed = sheet.figure.cut_list
    assert listed is not None  # a layout has a cut list
    found = next((each for each in listed.boards if each.number == board), None)
    if found is None:
        raise Http404
    problem = sheet.problem
    drawings = both(
        lambda paper, key: cutting_diagram(
            sheet.layout, number=board, boards=problem.boards, surfaces=problem.surfaces, paper=paper, key=key
        ),
        key=f"cut-{board}",
    )
    words = {"board": found, "drawings": drawings, "kinds": _kinds(sheet)}
    neighbours = {
        "before": _beside(sheet, board - 1, len(listed.boards)),
        "after": _beside(sheet, board + 1, len(listed.boards)),
    }
    return render(request, "boards/cut.html", sheet.context(**words, **neighbours))


@require_safe
def on_surface(request: HttpRequest, key: str, number: int, surface_id: str) -> HttpResponse:
    """Show one surface with its boards."""
    sheet = laid_out_sheet(request, key, number)
    surfaces = sheet.problem.surfaces
    at = next((index for index, each in enumerate(surfaces) if each.id == surface_id), None)
    if at is None:
        raise Http404
    found: Surface = surfaces[at]
    note = sheet.figure.prepared.note(found.id)
    drawings = both(
        lambda paper, key: board_layout(
            found, sheet.layout, boards=sheet.problem.boards, paper=paper, key=key
        ),
        key="boards",
        landscape=True,
    )
    words = {
        "surface": found,
        "note": note,
        "drawings": drawings,
        "table": piece_table(found, sheet.layout),
        "house_surface": sheet.house_sheet.address("houses:surface", surface_id=note.house_surface),
        "before": _surface_beside(sheet, surfaces[at - 1]) if at else None,
        "after": _surface_beside(sheet, surfaces[at + 1]) if at + 1 < len(surfaces) else None,
    }
    return render(request, "boards/surface.html", sheet.context(**words))


@require_safe
def by_room(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show what each room takes, and what each crew hangs each day."""
    sheet = laid_out_sheet(request, key, number)
    figure = sheet.figure
    assert figure.cut_list is not None  # a layout has a cut list
    asked = request.GET.get("crews", "2")
    crews = min(max(int(asked), 1), _MOST_CREWS) if asked.isdecimal() and len(asked) < 4 else 2
    words = {
        "crews": crews,
        "shares": awaited(figure.cut_list, share_among_crews(figure.cut_list, crews=crews)),
        "stacks": figure.hardware.stacks if figure.hardware else (),
        "hardware": figure.hardware,
        "work": figure.work,
    }
    return render(request, "boards/by_room.html", sheet.context(**words))


def _kinds(sheet: RunSheet) -> dict[str, str]:
    return {board.key: board.kind for board in sheet.problem.boards}


def _beside(sheet: RunSheet, board: int, most: int) -> tuple[str, str] | None:
    if not 1 <= board <= most:
        return None
    return str(board), sheet.address("boards:cut", board=board)


def _surface_beside(sheet: RunSheet, surface: Any) -> tuple[str, str]:
    return surface.label, sheet.address("boards:surface", surface_id=surface.id)
