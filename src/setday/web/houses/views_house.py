"""The house: its plan, rooms, walls and surfaces."""

from collections import Counter
from fractions import Fraction
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.drawing import (
    opening_table,
    room_table,
    surface_elevation,
    surface_table,
    wall_elevation,
    wall_table,
)
from setday.house import Room, Surface, Wall
from setday.measure import Area
from setday.web.boards.on_house import boards_on
from setday.web.houses.drawings import Drawings, anchor, both, house_links, plan_of
from setday.web.houses.sheet import HouseSheet, built_sheet

__all__ = ["house", "rooms", "surface", "wall"]


@require_safe
def house(request: HttpRequest, key: str) -> HttpResponse:
    """Show the plan."""
    sheet = built_sheet(request, key)
    built = sheet.built
    studs = request.GET.get("studs") == "yes"
    words = {
        "built": built,
        "drawings": plan_of(sheet, studs=studs),
        "tables": (room_table(built), opening_table(built)),
        "walls": [(wall, sheet.address("houses:wall", name=wall.name)) for wall in built.walls],
        "findings": sheet.opened.findings,
        "studs": studs,
    }
    return render(request, "houses/house.html", sheet.context(**words))


@require_safe
def rooms(request: HttpRequest, key: str) -> HttpResponse:
    """Show every room with its surfaces."""
    sheet = built_sheet(request, key)
    cards = [_room_card(sheet, room) for room in sheet.built.rooms]
    return render(request, "houses/rooms.html", sheet.context(cards=cards))


@require_safe
def wall(request: HttpRequest, key: str, name: str) -> HttpResponse:
    """Show a wall's framing, its openings, and both its sides."""
    sheet = built_sheet(request, key)
    built = sheet.built
    found = next((each for each in built.walls if each.name == name), None)
    if found is None:
        raise Http404
    words = {
        "wall": found,
        "elevations": [(side, _elevation(sheet, found, side)) for side in ("left", "right")],
        "sides": _sides(sheet, found),
        "table": wall_table(found),
        "members": sorted(Counter(str(member.kind) for member in found.members).items()),
        **_neighbours(sheet, "houses:wall", "name", [each.name for each in built.walls], name),
    }
    return render(request, "houses/wall.html", sheet.context(**words))


@require_safe
def surface(request: HttpRequest, key: str, surface_id: str) -> HttpResponse:
    """Show a surface as seen from inside the room, with its area worked out."""
    sheet = built_sheet(request, key)
    built = sheet.built
    found = next((each for each in built.surfaces if each.id == surface_id), None)
    if found is None:
        raise Http404
    link = house_links(sheet)
    words = {
        "surface": found,
        "drawings": both(
            lambda paper, key: surface_elevation(found, paper=paper, link=link, key=key),
            key="surface",
            landscape=True,
        ),
        "table": surface_table(found),
        "room_address": f"{sheet.address('houses:rooms')}#{anchor(found.room)}",
        "walls": _walls_of(sheet, found),
        "boards": boards_on(sheet, found.id),
        **_neighbours(
            sheet, "houses:surface", "surface_id", [each.id for each in built.surfaces], surface_id
        ),
    }
    return render(request, "houses/surface.html", sheet.context(**words))


def _room_card(sheet: HouseSheet, room: Room) -> dict[str, Any]:
    built = sheet.built
    surfaces = [built.surface(name) for name in room.surfaces]
    boarded = sum((each.gross_area for each in surfaces), Area(Fraction(0)))
    return {
        "room": room,
        "anchor": anchor(room.name),
        "surfaces": [(each, sheet.address("houses:surface", surface_id=each.id)) for each in surfaces],
        "boarded": str(boarded),
    }


def _elevation(sheet: HouseSheet, wall: Wall, side: str) -> Drawings:
    surfaces, link = sheet.built.surfaces, house_links(sheet)
    return both(
        lambda paper, key: wall_elevation(
            wall, side=side, surfaces=surfaces, paper=paper, link=link, key=key
        ),
        key=f"wall-{side}",
        landscape=True,
    )


def _sides(sheet: HouseSheet, wall: Wall) -> list[tuple[Surface, str, str]]:
    built = sheet.built
    return [
        (each, span.side, sheet.address("houses:surface", surface_id=each.id))
        for each in built.surfaces
        for span in each.spans
        if span.wall == wall.name
    ]


def _walls_of(sheet: HouseSheet, surface: Surface) -> list[tuple[str, str]]:
    names = dict.fromkeys(span.wall for span in surface.spans)
    return [(name, sheet.address("houses:wall", name=name)) for name in names]


def _neighbours(sheet: HouseSheet, screen: str, argument: str, names: list[str], name: str) -> dict[str, Any]:
    at = names.index(name)
    before = names[at - 1] if at else None
    after = names[at + 1] if at + 1 < len(names) else None
    return {
        "before": before and (before, sheet.address(screen, **{argument: before})),
        "after": after and (after, sheet.address(screen, **{argument: after})),
    }
