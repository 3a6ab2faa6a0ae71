"""Lights, fans and their switches proposed: at the latch side of the ways into each room."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from shapely import Polygon

from setday.cable.placing.box_places import BoxPlace, nearest
from setday.cable.placing.ceiling_places import floor_of, middle_of
from setday.cable.placing.draft import Draft
from setday.cable.placing.fronts import basin_of, weather_side
from setday.cable.placing.ways import OUTDOORS, Way, farthest_apart
from setday.cable.rooms import RoomKind
from setday.house import DeviceKind, Room

__all__ = ["propose_lights"]

_SEARCH = 60.0
"""A switch stands within this of its door where a box finds room there [in]; our own."""
_STEP_ASIDE = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """A switch wanted at a way: what it serves, in words and by name."""

    way: Way
    words: str
    serves: tuple[str, ...]


def propose_lights(draft: Draft) -> None:
    """Put lights and fans, then the switches that serve them, those of one door in one box."""
    wanted: list[_Wanted] = []
    for room in draft.house.rooms:
        wanted += _room(draft, room)
    wanted += _outside_doors(draft)
    by_way: dict[tuple[str, str], list[_Wanted]] = {}
    for each in wanted:
        by_way.setdefault((each.way.room, each.way.opening), []).append(each)
    for group in by_way.values():
        _switch_box(draft, group)


def _room(draft: Draft, room: Room) -> list[_Wanted]:
    kind = draft.kinds[room.name]
    if kind is RoomKind.BATH:
        return _bath(draft, room)
    lights = [
        light.name
        for spot in _spots(draft, room, kind)
        if (light := draft.on_ceiling(f"{room.name} light", DeviceKind.LIGHT, spot, room=room.name))
    ]
    if not lights:
        return []
    words = f"{room.name} switch"
    return [_Wanted(way=way, words=words, serves=tuple(lights)) for way in _entered_by(draft, room, kind)]


def _entered_by(draft: Draft, room: Room, kind: RoomKind) -> tuple[Way, ...]:
    """Return the ways at which a room's light is switched; a closet's is switched from outside it."""
    ways = draft.ways[room.name]
    if kind is RoomKind.CLOSET:
        beyond = [
            w for way in ways for w in draft.ways.get(way.leads_to or "", ()) if w.opening == way.opening
        ]
        return tuple(beyond[:1]) or ways[:1]
    walked = tuple(
        w for w in ways if w.leads_to is not None and draft.kinds.get(w.leads_to) is not RoomKind.CLOSET
    )
    return farthest_apart(walked or ways, int(draft.rules.number("cable.switch_places")))


def _spots(draft: Draft, room: Room, kind: RoomKind) -> list[tuple[float, float]]:
    """Return where ceiling lights are wanted: evenly over the floor, in a row along a hall."""
    floor = floor_of(room)
    low_x, low_y, high_x, high_y = floor.bounds
    wide, deep = high_x - low_x, high_y - low_y
    if kind is RoomKind.HALL:
        count = max(1, ceil(max(wide, deep) / draft.inches("hall_light_length")))
        columns, rows = (count, 1) if wide >= deep else (1, count)
    else:
        count = max(1, ceil(room.area.sqft / draft.rules.number("cable.light_area_sqft")))
        columns, rows = (count, 1) if wide >= deep else (1, count)
    if columns * rows == 1:
        return [middle_of(floor)]
    grid = [
        (low_x + wide * (2 * c + 1) / (2 * columns), low_y + deep * (2 * r + 1) / (2 * rows))
        for r in range(rows)
        for c in range(columns)
    ]
    return [_inside(floor, spot) for spot in grid]


def _inside(floor: Polygon, spot: tuple[float, float]) -> tuple[float, float]:
    from shapely import Point as Spot
    from shapely.ops import nearest_points

    if floor.contains(Spot(spot)):
        return spot
    near = nearest_points(floor, Spot(spot))[0]
    return (near.x, near.y)


def _bath(draft: Draft, room: Room) -> list[_Wanted]:
    """A light over the mirror, and a fan over the floor."""
    ways = draft.ways[room.name][:1]
    served: list[tuple[str, str]] = []
    surface, low, high = basin_of(draft, room)
    place = draft.place_near(
        surface, (low + high) / 2, up=draft.inches("mirror_light_height"), low=low, high=high
    )
    if place is not None:
        light = draft.on_wall(f"{room.name} light", DeviceKind.LIGHT, place, room=room.name, what="mirror")
        served.append((f"{room.name} switch", light.name))
    fan = draft.on_ceiling(
        f"{room.name} fan", DeviceKind.FAN, middle_of(floor_of(room)), room=room.name, what="bath fan"
    )
    if fan is not None:
        served.append((f"{room.name} fan switch", fan.name))
    return [_Wanted(way=way, words=words, serves=(name,)) for way in ways for words, name in served]


def _outside_doors(draft: Draft) -> list[_Wanted]:
    """A light outdoors beside every outside door, switched inside."""
    wanted = []
    for ways in draft.ways.values():
        for way in ways:
            if way.leads_to != OUTDOORS:
                continue
            place = _outdoors_at(draft, way)
            if place is not None:
                light = draft.on_wall(
                    f"{way.opening} light", DeviceKind.LIGHT, place, room=OUTDOORS, what="outdoor"
                )
                wanted.append(_Wanted(way=way, words=f"{way.opening} light switch", serves=(light.name,)))
    return wanted


def _outdoors_at(draft: Draft, way: Way) -> BoxPlace | None:
    wall = next(w for w in draft.house.walls for o in w.openings if o.name == way.opening)
    opening = next(o for o in wall.openings if o.name == way.opening)
    left, right = opening.along.inches, (opening.along + opening.width).inches
    after = wall.length.inches - right >= left
    edge = right if after else left
    low, high = (right, right + _SEARCH) if after else (left - _SEARCH, left)
    up = draft.inches("outdoor_light_height")
    side = weather_side(draft.house, wall)
    for bars in (False, True):
        places = draft.boxes.on_wall(wall, side, low, high, up=up, bars=bars)
        place = nearest(places, edge + (_STEP_ASIDE if after else -_STEP_ASIDE))
        if place is not None:
            return place
    return None


def _switch_box(draft: Draft, group: Sequence[_Wanted]) -> None:
    way = group[0].way
    place = _at_latch(draft, way, gangs=len(group))
    if place is None:
        return
    box = f"{way.room} switches at {way.opening}" if len(group) > 1 else ""
    for n, each in enumerate(group):
        draft.on_wall(
            each.words,
            DeviceKind.SWITCH,
            place,
            room=way.room,
            box=box,
            serves=each.serves,
            gangs=1,
            take=False,
        )
        if n == 0:
            draft.boxes.take(place.wall, place.along, place.up, gangs=len(group))


def _at_latch(draft: Draft, way: Way, *, gangs: int) -> BoxPlace | None:
    """Return the nearest place at the latch side, else at the other side, else anywhere along the wall."""
    up = draft.inches("switch_height")
    after, before = (way.high, way.high + _SEARCH), (way.low - _SEARCH, way.low)
    tried = (after, before) if way.latch_at_high else (before, after)
    whole = (0.0, way.surface.width.inches)
    for bars in (False, True):
        for low, high in (*tried, whole):
            edge = way.high if (low, high) == after else way.low
            places = draft.boxes.on_surface(way.surface, low, high, up=up, gangs=gangs, bars=bars)
            place = nearest(places, edge)
            if place is not None:
                return place
    return _on_a_wall_nearby(draft, way, up=up, gangs=gangs)


def _on_a_wall_nearby(draft: Draft, way: Way, *, up: float, gangs: int) -> BoxPlace | None:
    """Return a place on another wall of the room, at the corner nearest to the way."""
    others = [s for s in draft.walls_of(way.room) if s.id != way.surface.id]
    found = [
        (abs(x - way.plan[0]) + abs(y - way.plan[1]), place)
        for surface in others
        for place in draft.boxes.on_surface(surface, 0.0, surface.width.inches, up=up, gangs=gangs)
        for x, y in [
            (
                surface.plan_origin[0] + surface.plan_x[0] * place.x,
                surface.plan_origin[1] + surface.plan_x[1] * place.x,
            )
        ]
    ]
    return min(found, key=lambda each: (each[0], each[1].wall, each[1].along))[1] if found else None
