"""Receptacles within reach of water, as far as the house file tells where water is."""

from math import hypot

from setday.cable.placing.counters import kitchen_of
from setday.cable.placing.draft import Draft
from setday.cable.placing.fronts import basin_of
from setday.cable.rooms import RoomKind, room_kinds
from setday.house import DeviceKind, House, Surface
from setday.rules import RuleBook

__all__ = ["near_water"]

Segment = tuple[tuple[float, float], tuple[float, float]]


def near_water(house: House, rules: RuleBook) -> frozenset[str]:
    """Return the names of receptacles near a sink, a basin or a tub.

    Kitchen sinks and bath basins stand where they are assumed for the proposal of devices; tubs are the wet
    areas of the house file.  The distance is the shortest on the plan, through no wall.

    Parameters
    ----------
    house : House
    rules : RuleBook
    """
    water = _water(house, rules)
    reach = rules.length("cable.water_reach").inches
    return frozenset(
        device.name
        for device in house.devices
        if device.kind in (DeviceKind.RECEPTACLE, DeviceKind.APPLIANCE)
        and any(
            room == device.room and _off((device.plan.x.inches, device.plan.y.inches), segment) <= reach
            for room, segment in water
        )
    )


def _water(house: House, rules: RuleBook) -> list[tuple[str, Segment]]:
    kinds = room_kinds(house)
    found = [
        (surface.room, _segment(surface, patch.x.inches, (patch.x + patch.w).inches))
        for surface in house.surfaces
        for patch in surface.wet
    ]
    for room in house.rooms:
        if kinds[room.name] is RoomKind.KITCHEN:
            sink = kitchen_of(house, room.name, rules).places.get("sink")
            if sink is not None:
                found.append((room.name, _segment(sink.surface, sink.low, sink.high)))
        elif kinds[room.name] is RoomKind.BATH:
            surface, low, high = basin_of(Draft(house=house, rules=rules), room)
            half = rules.length("cable.basin_width").inches / 2
            middle = (low + high) / 2
            found.append((room.name, _segment(surface, max(low, middle - half), min(high, middle + half))))
    return found


def _segment(surface: Surface, low: float, high: float) -> Segment:
    (ox, oy), (ux, uy) = surface.plan_origin, surface.plan_x
    return ((ox + ux * low, oy + uy * low), (ox + ux * high, oy + uy * high))


def _off(point: tuple[float, float], segment: Segment) -> float:
    (ax, ay), (bx, by) = segment
    square = (bx - ax) ** 2 + (by - ay) ** 2
    t = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / square if square else 0.0
    t = min(max(t, 0.0), 1.0)
    return hypot(point[0] - ax - (bx - ax) * t, point[1] - ay - (by - ay) * t)
