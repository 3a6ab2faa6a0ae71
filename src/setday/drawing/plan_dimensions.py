"""Outside dimension chains of the plan: openings, partitions, over all."""

from dataclasses import dataclass

from setday.drawing.dimension import Stop, chain, distinct_stops
from setday.drawing.ink import Svg, group
from setday.drawing.placing import inside
from setday.drawing.plan_sight import Sight, WallOnPlan, extent
from setday.house import House, Wall
from setday.measure import Length

__all__ = ["Margins", "draw_dimensions", "margins"]

_FIRST = 30.0
"""From the wall to the first chain: room for the marks of windows."""
_NEXT = 16.0

SIDES = ("top", "right", "bottom", "left")


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """Room the chains need on each side [drawing units]."""

    top: float
    right: float
    bottom: float
    left: float


def margins(house: House, sight: Sight, *, brief: bool = False) -> Margins:
    """Return how much room the chains of each side need."""
    depths = {side: _side(house, sight, side, brief=brief)[1] for side in SIDES}
    return Margins(**depths)


def draw_dimensions(house: House, sight: Sight, *, brief: bool = False) -> Svg:
    """Draw the chains of all four sides.

    Parameters
    ----------
    house : House
    sight : Sight
    brief : bool
        Leave out the openings, and lengths over all that the opposite side gives already.
    """
    return group(*(_side(house, sight, side, brief=brief)[0] for side in SIDES), pointer_events="none")


def _side(house: House, sight: Sight, side: str, *, brief: bool) -> tuple[Svg, float]:
    """Draw the chains of one side from the wall outward; return them and the room they take."""
    west, south, east, north = extent(house)
    edges = {"top": sight.at(west, north)[1], "bottom": sight.at(west, south)[1]}
    edges |= {"left": sight.at(west, north)[0], "right": sight.at(east, north)[0]}
    outward = 1 if side in {"bottom", "right"} else -1
    chains = _brief(house, sight, side) if brief else _chains(house, sight, side)
    drawn, off = [], _FIRST
    for i, stops in enumerate(chains):
        crossing = [place for other in chains[i + 1 :] for place, _ in other]
        one = chain(
            stops,
            side=side,
            at=edges[side] + outward * off,
            reach_from=edges[side] + outward * 4,
            avoid=crossing,
        )
        drawn.append(one)
        off += one.depth + _NEXT
    lines, words = [one.lines for one in drawn], [one.words for one in drawn]
    return group(*lines, *words), off - _NEXT + 6 if drawn else _FIRST


def _brief(house: House, sight: Sight, side: str) -> list[tuple[Stop, ...]]:
    """Return partitions and length over all on top and left, and on the other sides what differs."""
    places = _places(house, sight, side)
    if not places:
        return []
    _, partitions, ends = places
    opposite = {"bottom": "top", "right": "left"}.get(side)
    given = _places(house, sight, opposite)[1:] if opposite else []
    wanted = [each for each in (partitions, ends) if each not in given]
    return _stops(sight, side, [each for each in wanted if len(each) > 2 or each == ends])


def _chains(house: House, sight: Sight, side: str) -> list[tuple[Stop, ...]]:
    """Return the chains of one side, from the wall outward, none twice."""
    return _stops(sight, side, _places(house, sight, side))


def _places(house: House, sight: Sight, side: str) -> list[set[Length]]:
    """Return what is measured on one side: openings, partitions and corners, the length over all."""
    corners = _corner_places(house, side)
    if len(corners) < 2:
        return []
    walls = [wall for wall in house.walls if _faces(house, sight, wall) == side]
    ends = {min(corners), max(corners)}
    openings = {
        _place(wall, (opening.along + opening.width // 2), side)
        for wall in walls
        for opening in wall.openings
    }
    partitions = {place for wall in walls for place in _meeting(house, wall, side)}
    return [openings | ends if openings else set(), partitions | corners, ends]


def _stops(sight: Sight, side: str, wanted: list[set[Length]]) -> list[tuple[Stop, ...]]:
    found: list[tuple[Stop, ...]] = []
    for places in wanted:
        stops = distinct_stops([(_drawn(sight, place, side), place) for place in places])
        if len(stops) > 1 and stops not in found:
            found.append(stops)
    return found


def _level(side: str) -> bool:
    return side in {"top", "bottom"}


def _drawn(sight: Sight, place: Length, side: str) -> float:
    return sight.at(place.inches, 0)[0] if _level(side) else sight.at(0, place.inches)[1]


def _corner_places(house: House, side: str) -> set[Length]:
    """Return the ends of the outline's edges that face `side`, framing face."""
    if not house.footprint:
        return set()
    ring = house.footprint[0]
    places: set[Length] = set()
    xs, ys = [p.x for p in ring], [p.y for p in ring]
    middle_x, middle_y = (min(xs) + max(xs)) // 2, (min(ys) + max(ys)) // 2
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        if _level(side) and a.y == b.y and (a.y > middle_y) == (side == "top"):
            places |= {a.x, b.x}
        if not _level(side) and a.x == b.x and (a.x > middle_x) == (side == "right"):
            places |= {a.y, b.y}
    return places


def _faces(house: House, sight: Sight, wall: Wall) -> str:
    """Return the side of the plan an outside wall looks to; empty for inside and slanting walls."""
    level, upright = wall.start.y == wall.end.y, wall.start.x == wall.end.x
    if not wall.kind.outside or level == upright or not house.footprint:
        return ""
    on_plan = WallOnPlan(wall=wall, sight=sight)
    ring = [(p.x.inches, p.y.inches) for p in house.footprint[0]]
    x, y = on_plan.plan_at(wall.length.inches / 2, on_plan.half + 1)
    left_is_out = not inside(x, y, ring)
    dx, dy = on_plan.direction
    out = (-dy, dx) if left_is_out else (dy, -dx)
    if level:
        return "top" if out[1] > 0 else "bottom"
    return "right" if out[0] > 0 else "left"


def _place(wall: Wall, along: Length, side: str) -> Length:
    """Return the plan coordinate of a place along an axis-parallel wall."""
    start, end = (wall.start.x, wall.end.x) if _level(side) else (wall.start.y, wall.end.y)
    return start + along if end > start else start - along


def _meeting(house: House, wall: Wall, side: str) -> set[Length]:
    """Return the centre lines of the inside walls that end on `wall`."""
    found: set[Length] = set()
    for other in house.walls:
        across = other.start.x == other.end.x if _level(side) else other.start.y == other.end.y
        if other.kind.outside or not across:
            continue
        reach = (wall.kind.depth + other.kind.depth).inches / 2 + 1
        for end in (other.start, other.end):
            near = (end.y - wall.start.y) if _level(side) else (end.x - wall.start.x)
            along = end.x if _level(side) else end.y
            ends = (wall.start.x, wall.end.x) if _level(side) else (wall.start.y, wall.end.y)
            if abs(near).inches <= reach and min(ends) <= along <= max(ends):
                found.add(along)
    return found
