"""Where the symbols of devices stand on a drawn plan: off their walls, beside each other."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from setday.drawing.device_symbols import REACH
from setday.drawing.lettering import Box, Taken
from setday.drawing.placing import inside
from setday.drawing.plan_sight import Sight, WallOnPlan
from setday.house import Device, House, Mount

__all__ = ["Placed", "place_symbols"]

_OFF = REACH + 3.0
_WIDE = REACH + 4.0
"""Half as wide as the widest symbol, S with its figure, in the middle of the box."""
_STEP = 2 * REACH + 4.0
_TRIES = (
    (0, 0),
    (1, 0),
    (-1, 0),
    (0, 1),
    (1, 1),
    (-1, 1),
    (2, 0),
    (-2, 0),
    (0, 2),
    (2, 1),
    (-2, 1),
    (1, 2),
    (-1, 2),
)
Vector = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A device's symbol on the drawing: its middle, where its box is, and the way it faces."""

    device: Device
    at: Vector
    box: Vector
    facing: Vector


def place_symbols(house: House, sight: Sight, *, taken: Taken) -> tuple[Placed, ...]:
    """Place the symbol of every device near its box, as free as can be.

    Parameters
    ----------
    house : House
    sight : Sight
    taken : Taken
        What stands there already; the symbols are added.
    """
    placed = []
    rings = {room.name: [sight.ring(ring) for ring in (room.outline, *room.holes)] for room in house.rooms}
    ceilings_last = sorted(house.devices, key=lambda device: device.typed.mount is not Mount.WALL)
    for device in ceilings_last:
        box, facing = sight.point(device.plan), _facing(device, house, sight)
        room = rings.get(device.room, [])
        at = _free(box, facing, taken, room, on_wall=device.typed.mount is Mount.WALL)
        placed.append(Placed(device=device, at=at, box=box, facing=facing))
    order = {device.name: n for n, device in enumerate(house.devices)}
    return tuple(sorted(placed, key=lambda each: order[each.device.name]))


def _facing(device: Device, house: House, sight: Sight) -> Vector:
    """Return the unit vector into the room on the drawing (y downward); up for ceilings."""
    if device.typed.mount is not Mount.WALL:
        return (0.0, -1.0)
    on_plan = WallOnPlan(wall=house.wall(device.typed.wall), sight=sight)
    dx, dy = on_plan.direction
    nx, ny = (-dy, dx) if device.typed.side == "left" else (dy, -dx)
    size = hypot(nx, ny) or 1.0
    return nx / size, -ny / size


def _free(
    box: Vector, facing: Vector, taken: Taken, room: Sequence[Sequence[Vector]], *, on_wall: bool
) -> Vector:
    """Return the nearest free place by the box, inside its room."""
    fx, fy = facing
    tx, ty = -fy, fx
    candidates = []
    for aside, out in _TRIES:
        off = (_OFF if on_wall else 0.0) + out * _STEP
        x = box[0] + fx * off + tx * aside * _STEP
        y = box[1] + fy * off + ty * aside * _STEP
        candidates.append(Box(x - _WIDE, y - REACH, x + _WIDE, y + REACH))
    inner = [each for each in candidates if not room or inside(*_middle(each), *room)]
    found = taken.first_free(inner)
    if found is None:
        found = candidates[0]
        taken.take(found)
    return _middle(found)


def _middle(box: Box) -> Vector:
    return (box.left + box.right) / 2, (box.top + box.bottom) / 2
