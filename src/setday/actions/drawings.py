"""Every drawing of a house, by name."""

from collections.abc import Iterator
from dataclasses import dataclass

from setday.drawing import plan, surface_elevation, wall_elevation, wall_wiring, wiring_plan
from setday.house import House

__all__ = ["Drawing", "house_drawings"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One drawing: what it shows, and its SVG text.

    Parameters
    ----------
    kind : str
        "plan", "wiring", "wall", "wiring in a wall" or "surface".
    about : str
        Name of the house, the wall and its side, or the id of the surface.
    file : str
        A file name made of it.
    svg : str
    """

    kind: str
    about: str
    file: str
    svg: str


def house_drawings(house: House) -> Iterator[Drawing]:
    """Yield the plan, every wall from both sides and every surface, in the order of the house file.

    Where the house has devices, the wiring plan and every wall with a box in it come too.
    """
    yield Drawing(kind="plan", about=house.name, file="plan.svg", svg=plan(house))
    yield from _wiring(house)
    for wall in house.walls:
        for side in ("left", "right"):
            about = f"{wall.name}, {side} side"
            svg = wall_elevation(wall, side=side)
            yield Drawing(kind="wall", about=about, file=_file(f"wall {wall.name} {side}"), svg=svg)
    for surface in house.surfaces:
        svg = surface_elevation(surface)
        yield Drawing(kind="surface", about=surface.id, file=_file(f"surface {surface.id}"), svg=svg)


def _wiring(house: House) -> Iterator[Drawing]:
    if house.devices:
        yield Drawing(kind="wiring", about=house.name, file="wiring-plan.svg", svg=wiring_plan(house))
    for wall in house.walls:
        sides = sorted({each.typed.side for each in house.devices if each.typed.wall == wall.name})
        for side in sides:
            about, svg = f"{wall.name}, {side} side", wall_wiring(house, wall, side=side)
            file = _file(f"wiring in wall {wall.name} {side}")
            yield Drawing(kind="wiring in a wall", about=about, file=file, svg=svg)


def _file(words: str) -> str:
    kept = "".join(c if c.isalnum() else "-" for c in words.lower())
    return "-".join(part for part in kept.split("-") if part) + ".svg"
