"""Sheets of the house itself: plan, walls, surfaces."""

from collections.abc import Sequence

from setday.drawing import (
    LANDSCAPE,
    LETTER,
    opening_table,
    plan,
    plan_scale,
    room_table,
    surface_elevation,
    surface_table,
    wall_elevation,
    wall_table,
)
from setday.house import House, Surface, Wall
from setday.sheets.blocks import Block, Picture, Sheet, TableBlock
from setday.sheets.fitting import tables_together, with_tables

__all__ = ["plan_sheets", "surface_sheet", "surface_sheets", "wall_sheet", "wall_sheets"]

_FLIPPED = {"widest_in": 10.0, "highest_in": 6.5}


def plan_sheets(house: House, *, studs: bool = False) -> tuple[Sheet, ...]:
    """Return the plan on paper that suits its shape, and the tables of rooms and openings."""
    scales = {paper: plan_scale(house, paper=paper).per_inch for paper in (LETTER, LANDSCAPE)}
    on_its_side = scales[LANDSCAPE] > scales[LETTER]
    svg = plan(house, paper=LANDSCAPE if on_its_side else LETTER, studs=studs)
    picture = Picture(svg=svg, **_FLIPPED) if on_its_side else Picture(svg=svg)
    tables: list[Block] = [TableBlock(table=room_table(house))]
    openings = opening_table(house)
    if openings.rows:
        tables.append(TableBlock(table=openings))
    return (
        Sheet(title="Floor plan", blocks=(picture,), flipped=on_its_side),
        Sheet(title="Rooms and openings", blocks=tuple(tables)),
    )


def wall_sheet(wall: Wall, *, side: str, surfaces: Sequence[Surface] = ()) -> Sheet:
    """Return the framing of a wall from one side, and the list of its members."""
    flipped = wall.length.feet > 12
    paper = LANDSCAPE if flipped else LETTER
    svg = wall_elevation(wall, side=side, surfaces=surfaces, paper=paper)
    picture = Picture(svg=svg, **_FLIPPED) if flipped else Picture(svg=svg)
    return Sheet(
        title=f"Framing: {wall.name}, {side} side",
        blocks=(picture, TableBlock(table=wall_table(wall), columns=2)),
        flipped=flipped,
        person_decides=True,
    )


def surface_sheet(surface: Surface) -> Sheet:
    """Return a surface as seen from inside the room, and what stands on it."""
    picture = Picture(svg=surface_elevation(surface))
    return Sheet(title=surface.label, blocks=(picture, TableBlock(table=surface_table(surface))))


def wall_sheets(house: House) -> tuple[Sheet, ...]:
    """Return every wall from both sides; member lists that find no room there are printed together after."""
    later: list[TableBlock] = []
    sheets = [
        _beneath(wall_sheet(wall, side=side, surfaces=house.surfaces), later)
        for wall in house.walls
        for side in ("left", "right")
    ]
    return (*sheets, *tables_together("Framing: members of the walls", later))


def surface_sheets(house: House) -> tuple[Sheet, ...]:
    """Return every surface; tables that find no room under their drawing are printed together after."""
    later: list[TableBlock] = []
    sheets = [_beneath(surface_sheet(surface), later) for surface in house.surfaces]
    return (*sheets, *tables_together("What stands on the surfaces", later))


def _beneath(sheet: Sheet, later: list[TableBlock]) -> Sheet:
    tables = [block for block in sheet.blocks if isinstance(block, TableBlock)]
    return with_tables(sheet, [block for block in tables if block.table.rows], later=later)
