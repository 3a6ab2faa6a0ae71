"""Receptacles proposed: along walls, over counters, at basins, in laundries, halls and outdoors."""

from collections.abc import Sequence
from math import ceil

from setday.cable.placing.box_places import BoxPlace, nearest
from setday.cable.placing.counters import counter_spaces, kitchen_of, off_counter_breaks
from setday.cable.placing.covering import Spot, fewest_spots
from setday.cable.placing.draft import Draft
from setday.cable.placing.fronts import basin_of, front_and_back, weather_side
from setday.cable.placing.wall_spaces import Break, WallSpace, wall_spaces
from setday.cable.placing.ways import OUTDOORS
from setday.cable.rooms import RoomKind, is_large_foyer
from setday.house import DeviceKind, Room, Wall

__all__ = ["HABITABLE", "propose_counters", "propose_receptacles", "reach_of_hall"]

HABITABLE = (RoomKind.KITCHEN, RoomKind.DINING, RoomKind.LIVING, RoomKind.BEDROOM, RoomKind.OTHER)
"""Rooms whose walls are held to the spacing of receptacles."""
_SERVED = (RoomKind.UTILITY, RoomKind.GARAGE, RoomKind.WORKROOM)
_LOWER_STEPS = (2.0, 4.0)
"""Over a counter, a box may stand this much lower where a window is in the way [in]; our own."""


def propose_receptacles(draft: Draft) -> None:
    """Put receptacles in every room, and outdoors at the front and the back."""
    for room in draft.house.rooms:
        kind = draft.kinds[room.name]
        if kind in HABITABLE:
            _along_walls(draft, room, kind)
        elif kind is RoomKind.HALL:
            _in_hall(draft, room)
        elif kind in _SERVED:
            _one_in(draft, room, up=draft.inches("receptacle_height"))
        elif kind is RoomKind.BATH:
            _at_basin(draft, room)
    _outdoors(draft)


def propose_counters(draft: Draft) -> None:
    """Put receptacles over the counters of every kitchen."""
    for room in draft.rooms(RoomKind.KITCHEN):
        kitchen = kitchen_of(draft.house, room.name, draft.rules)
        for space in counter_spaces(draft.house, kitchen):
            if space.length < draft.inches("counter_least"):
                continue
            top = draft.inches("counter_receptacle_height")
            heights = (top, *(top - step for step in _LOWER_STEPS))
            places = _chosen(draft, space, draft.inches("counter_reach"), heights)
            for place in places:
                draft.on_wall(
                    f"{room.name} counter receptacle",
                    DeviceKind.RECEPTACLE,
                    place,
                    room=room.name,
                    what="counter",
                )


def _along_walls(draft: Draft, room: Room, kind: RoomKind) -> None:
    breaks: dict[str, list[Break]] = {}
    if kind is RoomKind.KITCHEN:
        breaks = off_counter_breaks(kitchen_of(draft.house, room.name, draft.rules))
    for space in wall_spaces(draft.house, room.name, breaks=breaks):
        if space.length < draft.inches("least_wall"):
            continue
        for place in _chosen(draft, space, draft.inches("reach"), (draft.inches("receptacle_height"),)):
            draft.on_wall(f"{room.name} receptacle", DeviceKind.RECEPTACLE, place, room=room.name)


def _chosen(draft: Draft, space: WallSpace, reach: float, heights: Sequence[float]) -> tuple[BoxPlace, ...]:
    """Return the fewest places that cover a wall space: at studs, on bars where that takes fewer."""
    best: tuple[BoxPlace, ...] = ()
    for bars in (False, True):
        found = [
            (piece.start + place.x - piece.low, rank, place)
            for piece in space.pieces
            for rank, up in enumerate(heights)
            for place in draft.boxes.on_surface(piece.surface, piece.low, piece.high, up=up, bars=bars)
        ]
        found.sort(key=lambda each: (each[0], each[1]))
        spots = [Spot(at=at, second_choice=rank > 0 or place.on_bar) for at, rank, place in found]
        taken = fewest_spots(spots, length=space.length, reach=reach)
        if taken is not None and (not best or len(taken) < len(best)):
            best = tuple(found[n][2] for n in taken)
        if best and len(best) <= ceil(space.length / (2 * reach)):
            break
    return best or tuple(place for _, _, place in found[:1])


def reach_of_hall(room: Room) -> float:
    """Return the length of a hall: the longer side of the box around it [in]."""
    xs, ys = [p.x.inches for p in room.outline], [p.y.inches for p in room.outline]
    return max(max(xs) - min(xs), max(ys) - min(ys))


def _in_hall(draft: Draft, room: Room) -> None:
    if is_large_foyer(room, draft.rules):
        for space in wall_spaces(draft.house, room.name):
            if space.length >= draft.inches("foyer_wall"):
                _in_space(draft, room, space, up=draft.inches("receptacle_height"))
    elif reach_of_hall(room) >= draft.inches("hall_least"):
        _one_in(draft, room, up=draft.inches("receptacle_height"))


def _one_in(draft: Draft, room: Room, *, up: float) -> None:
    """Put one receptacle in the middle of the room's longest wall space."""
    spaces = sorted(wall_spaces(draft.house, room.name), key=lambda space: -space.length)
    for space in spaces:
        if _in_space(draft, room, space, up=up):
            return


def _in_space(draft: Draft, room: Room, space: WallSpace, *, up: float) -> bool:
    """Put a receptacle in the middle of a wall space's longest piece that has a place for it."""
    for piece in sorted(space.pieces, key=lambda p: p.low - p.high):
        places = draft.boxes.on_surface(piece.surface, piece.low, piece.high, up=up)
        place = nearest(places, (piece.low + piece.high) / 2)
        if place is not None:
            draft.on_wall(f"{room.name} receptacle", DeviceKind.RECEPTACLE, place, room=room.name)
            return True
    return False


def _at_basin(draft: Draft, room: Room) -> None:
    surface, low, high = basin_of(draft, room)
    half = draft.inches("basin_width") / 2
    middle = min(max((low + high) / 2, low + half), max(high - half, low))
    place = draft.place_near(
        surface, middle + half + 6.0, up=draft.inches("bath_receptacle_height"), low=low, high=high
    )
    if place is not None:
        draft.on_wall(f"{room.name} receptacle", DeviceKind.RECEPTACLE, place, room=room.name, what="basin")


def _outdoors(draft: Draft) -> None:
    """Put a receptacle at the front and one at the back, beside a door where there is one."""
    front, back = front_and_back(draft.house, draft.ways)
    for words, wall in (("front", front), ("back", back)):
        if wall is None:
            continue
        side = weather_side(draft.house, wall)
        up = draft.inches("outdoor_receptacle_height")
        run = wall.length.inches
        places = draft.boxes.on_wall(wall, side, 12.0, run - 12.0, up=up) or draft.boxes.on_wall(
            wall, side, 12.0, run - 12.0, up=up, bars=True
        )
        place = nearest(places, _beside_door(draft, wall))
        if place is not None:
            draft.on_wall(
                f"{words} outdoor receptacle",
                DeviceKind.RECEPTACLE,
                place,
                room=OUTDOORS,
                what="outdoor",
            )


def _beside_door(draft: Draft, wall: Wall) -> float:
    for opening in sorted(wall.openings, key=lambda o: "front" not in o.name):
        way = next((w for ways in draft.ways.values() for w in ways if w.opening == opening.name), None)
        if way is not None and way.leads_to == OUTDOORS:
            after = wall.length.inches - (opening.along + opening.width).inches
            far = after >= opening.along.inches
            edge = (opening.along + opening.width).inches if far else opening.along.inches
            return edge + (24.0 if far else -24.0)
    return wall.length.inches / 2
