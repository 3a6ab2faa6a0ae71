"""The floor plan, to scale."""

from dataclasses import replace

from setday.drawing.ink import FINE, Svg, group, line, polygon
from setday.drawing.lettering import NORMAL, Taken, letters
from setday.drawing.notes import key_below, notes_below
from setday.drawing.paper import (
    LETTER,
    Link,
    Paper,
    Scale,
    finish,
    key_of,
    scale_bar,
    scale_to_fit,
    smaller_scale,
)
from setday.drawing.plan_dimensions import draw_dimensions, margins
from setday.drawing.plan_rooms import Key, draw_arrows, draw_boxes, draw_ridges, draw_rooms, room_size
from setday.drawing.plan_sight import Sight, extent
from setday.drawing.plan_walls import draw_openings, draw_surface_strips, draw_tags, draw_walls, tags_of
from setday.drawing.table import Table
from setday.house import House, OpeningKind

__all__ = ["opening_table", "plan", "plan_scale", "room_table"]

_LEAST_ASIDE = 210.0
"""Room beside a plan from which on words are put there [drawing units]."""
_LEAST_SCALE = 0.2
"""Drawing units per inch below which nothing on a plan can be read."""


def plan(
    house: House,
    *,
    paper: Paper = LETTER,
    studs: bool = False,
    ceilings: bool = True,
    link: Link | None = None,
    key: str = "plan",
) -> str:
    """Draw the floor plan of a house.

    Parameters
    ----------
    house : House
    paper : Paper
        What it is drawn for: `LETTER`, `LANDSCAPE` or `PHONE`.
    studs : bool
        Show every stud instead of solid walls.
    ceilings : bool
        Show ridges, and the way the ceiling framing runs.
    link : callable or None
        Gives the address of a "wall", a "room" or a "surface" by name; everything with an address can be
        reached by pointer and by keyboard.
    key : str
        Prefix of the ids, one of its own for every drawing of a page.

    Returns
    -------
    str
        An SVG.
    """
    return _fitted(house, paper, studs=studs, ceilings=ceilings, link=link, key=key)[0]


def plan_scale(house: House, *, paper: Paper = LETTER) -> Scale:
    """Return the scale at which the plan is drawn on a paper."""
    return _fitted(house, paper, studs=False, ceilings=True, link=None, key="plan")[1]


def _fitted(
    house: House, paper: Paper, *, studs: bool, ceilings: bool, link: Link | None, key: str
) -> tuple[str, Scale]:
    """Draw the plan at the largest scale at which it fits with its dimensions and notes."""
    scale = _first_scale(house, paper)
    while True:
        svg, (width, height) = _at_scale(
            house, scale, paper, studs=studs, ceilings=ceilings, link=link, key=key
        )
        over = max(width / paper.width, height / paper.height) - 1
        tighter = smaller_scale(scale) if paper.to_scale else Scale(per_inch=scale.per_inch / (1.002 + over))
        if over < 0.001 or tighter is None or tighter.per_inch < _LEAST_SCALE:
            return svg, scale
        scale = tighter


def _first_scale(house: House, paper: Paper) -> Scale:
    west, south, east, north = extent(house)
    return scale_to_fit(
        width_in=east - west,
        height_in=north - south,
        room_x=paper.width - 90,
        room_y=paper.height - 180,
        paper=paper,
    )


def _at_scale(
    house: House, scale: Scale, paper: Paper, *, studs: bool, ceilings: bool, link: Link | None, key: str
) -> tuple[str, tuple[float, float]]:
    """Draw the plan at a scale; return it with the size it comes to."""
    west, south, east, north = extent(house)
    far = Sight(per_inch=scale.per_inch, left=0, top=0, west=west, north=north)
    brief = not paper.to_scale
    need = margins(house, far, brief=brief)
    sight = replace(far, left=need.left, top=need.top)
    width = max(need.left + need.right + (east - west) * scale.per_inch, 300.0)
    foot = need.top + (north - south) * scale.per_inch + need.bottom
    body, marks = _body(house, sight, studs=studs, ceilings=ceilings, link=link, brief=brief)
    below, size = _below(house, scale, (width, foot), paper, marks)
    svg = finish(
        body=(draw_dimensions(house, sight, brief=brief), body, below),
        title=f"Floor plan of {house.name}",
        desc=_words(house),
        width=size[0],
        height=size[1],
        key=key_of(key),
        links=link is not None,
    )
    return svg, size


def _body(
    house: House, sight: Sight, *, studs: bool, ceilings: bool, link: Link | None, brief: bool
) -> tuple[Svg, Key]:
    """Draw what stands inside the dimension chains; return it and what its small letters stand for.

    On a brief plan the rooms are lettered first, and marks of openings that find no place are left out.
    """
    taken, key = Taken(), Key()
    walls = draw_walls(house, sight, studs=studs, link=link)
    openings = draw_openings(house, sight, taken=taken)
    boxes = draw_boxes(house, sight, taken=taken, key=key)
    tags = Svg("") if brief else draw_tags(house, sight, taken=taken)
    ridges = draw_ridges(house, sight, taken=taken) if ceilings else Svg("")
    rooms = draw_rooms(house, sight, taken=taken, key=key, link=link)
    if brief:
        tags = draw_tags(house, sight, taken=taken, all_of_them=False)
    arrows = draw_arrows(house, sight, taken=taken, link=link) if ceilings else Svg("")
    strips = draw_surface_strips(house, sight, link=link)
    return group(ridges, rooms, arrows, walls, openings, boxes, tags, strips), key


def _below(
    house: House, scale: Scale, corner: tuple[float, float], paper: Paper, key: Key
) -> tuple[Svg, tuple[float, float]]:
    """Draw scale, north, key and how to read the plan; return it and the size of the whole drawing.

    On paper laid on its side the words stand beside the plan where there is room for them.
    """
    width, foot = corner
    entries = [f"{mark} = {words}" for mark, words in key.entries]
    reading = _reading(house, brief=not paper.to_scale)
    parts = [scale_bar(x=22, y=foot + 16, scale=scale), _north(width - 30, foot + 20)]
    aside = paper.width - width
    if paper.width > paper.height and aside >= _LEAST_ASIDE:
        words, end = notes_below([*entries, *reading], y=20, width=aside)
        parts.append(group(words, transform=f"translate({width:.2f} 0)"))
        return group(*parts), (paper.width, max(end, foot + 44))
    marks, end = key_below(entries, y=foot + 48, width=width)
    words, end = notes_below(reading, y=end, width=width)
    return group(*parts, marks, words), (width, end)


def _reading(house: House, *, brief: bool) -> list[str]:
    """Say how the plan is to be read."""
    kinds = {opening.kind for wall in house.walls for opening in wall.openings}
    notes = ["Dimensions are to the framing: outside faces, centers of partitions, centers of openings."]
    if brief:
        notes = ["Dimensions are to outside faces of the framing and centers of partitions."]
    if OpeningKind.DOOR in kinds:
        notes.append(
            "Door swings are drawn by convention (out of closets, from halls into rooms); "
            "the house file does not say them."
        )
    return notes


def _north(x: float, y: float) -> Svg:
    return group(
        line(x1=x, y1=y + 14, x2=x, y2=y - 14, width=FINE),
        polygon([(x, y - 14), (x - 5, y + 2), (x, y - 2)], width=FINE, fill="ink"),
        polygon([(x, y - 14), (x + 5, y + 2), (x, y - 2)], width=FINE),
        letters("N", x=x, y=y - 21, size=NORMAL, bold=True),
    )


def _words(house: House) -> str:
    rooms = "; ".join(f"{room.name}, {room_size(room)}, {room.area}" for room in house.rooms)
    west, south, east, north = extent(house)
    return (
        f"Plan seen from above, north up. Over all {(east - west) / 12:.1f} ft east to west and "
        f"{(north - south) / 12:.1f} ft north to south. Rooms: {rooms}."
    )


def room_table(house: House) -> Table:
    """Return the rooms of the plan in words and figures."""
    rows = tuple(
        (room.name, room_size(room), f"{room.area.sqft:,.1f}", str(len(room.surfaces)))
        for room in house.rooms
    )
    return Table(
        caption="Rooms, framing to framing",
        head=("Room", "Inside size", "Floor ft2", "Surfaces"),
        rows=rows,
        figures=(False, False, True, True),
    )


def opening_table(house: House) -> Table:
    """Return what the marks of doors and windows on the plan stand for; sizes are rough openings."""
    rows = tuple(
        (
            tag.mark,
            tag.opening.name,
            str(tag.opening.kind),
            tag.wall.name,
            str(tag.opening.along),
            str(tag.opening.width),
            str(tag.opening.height),
            str(tag.opening.head),
        )
        for tag in tags_of(house)
    )
    return Table(
        caption="Doors and windows, rough openings",
        head=("Mark", "Name", "Kind", "Wall", "From the start", "Wide", "High", "Head above subfloor"),
        rows=rows,
        figures=(False, False, False, False, True, True, True, True),
    )
