"""Sheets of the house itself: plan, walls, surfaces."""

from collections.abc import Sequence

from setday.drawing import (
    LANDSCAPE,
    LETTER,
    opening_table,
    plan,
    room_table,
    surface_elevation,
    surface_table,
    wall_elevation,
    wall_table,
)
from setday.house import House, Surface, Wall
from setday.sheets.blocks import Block, Picture, Sheet, TableBlock

__all__ = ["plan_sheets", "surface_sheet", "wall_sheet"]

_FLIPPED = {"widest_in": 10.0, "highest_in": 6.6}


def plan_sheets(house: House, *, studs: bool = False) -> tuple[Sheet, ...]:
    """Return the plan on paper that suits its shape, and the tables of rooms and openings."""
    upright, flipped = plan(house, paper=LETTER, studs=studs), plan(house, paper=LANDSCAPE, studs=studs)
    tall, wide = Picture(svg=upright), Picture(svg=flipped, **_FLIPPED)
    on_its_side = _larger(wide, tall)
    tables: list[Block] = [TableBlock(table=room_table(house))]
    openings = opening_table(house)
    if openings.rows:
        tables.append(TableBlock(table=openings))
    return (
        Sheet(title="Floor plan", blocks=(wide if on_its_side else tall,), flipped=on_its_side),
        Sheet(title="Rooms and openings", blocks=tuple(tables)),
    )


def _larger(wide: Picture, tall: Picture) -> bool:
    """Say whether the drawing comes out larger on paper laid on its side."""
    return wide.size_in[0] * wide.shrunk > tall.size_in[0] * tall.shrunk * 1.02


def wall_sheet(wall: Wall, *, side: str, surfaces: Sequence[Surface] = ()) -> Sheet:
    """Return the framing of a wall from one side, and the list of its members."""
    flipped = wall.length.feet > 12
    paper = LANDSCAPE if flipped else LETTER
    svg = wall_elevation(wall, side=side, surfaces=surfaces, paper=paper)
    picture = Picture(svg=svg, **_FLIPPED) if flipped else Picture(svg=svg)
    return Sheet(
        title=f"Framing: {wall.name}, {side} side",
        blocks=(picture, TableBlock(table=wall_table(wall))),
        flipped=flipped,
        person_decides=True,
    )


def surface_sheet(surface: Surface) -> Sheet:
    """Return a surface as seen from inside the room, and what stands on it."""
    picture = Picture(svg=surface_elevation(surface))
    return Sheet(title=surface.label, blocks=(picture, TableBlock(table=surface_table(surface))))
