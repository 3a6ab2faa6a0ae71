"""Symbols of devices on the plan: by form and by letter, never by color."""

from collections.abc import Sequence
from math import atan2, cos, pi, sin

from setday.drawing.ink import LINE, Svg, circle, group, line, polygon, rect
from setday.drawing.lettering import SMALL, letters
from setday.house import Device, DeviceKind

__all__ = ["REACH", "device_mark", "device_symbol", "device_words", "symbol_key"]

REACH = 6.5
"""Half the size of a symbol [drawing units]."""
_RAYS = 4
Vector = tuple[float, float]


def device_symbol(device: Device, *, at: Vector, facing: Vector, ways: int = 1, solid: bool = False) -> Svg:
    """Draw the symbol of a device.

    Parameters
    ----------
    device : Device
    at : tuple of float
        Its middle [drawing units].
    facing : tuple of float
        Unit vector away from its wall; strokes of a receptacle run that way.
    ways : int
        For a switch: how many switches serve what it serves.
    solid : bool
        Fill it, for a device that is picked out.
    """
    drawn = {
        DeviceKind.RECEPTACLE: _receptacle,
        DeviceKind.LIGHT: _light,
        DeviceKind.FAN: _round,
        DeviceKind.ALARM: _diamond,
        DeviceKind.APPLIANCE: _square,
        DeviceKind.JUNCTION: _square,
    }.get(device.kind)
    ring = circle(x=at[0], y=at[1], r=REACH + 3.5, width=LINE) if solid else Svg("")
    if drawn is None:
        return group(ring, _switch(at, ways))
    return group(ring, drawn(device, at, facing))


def _receptacle(device: Device, at: Vector, facing: Vector) -> Svg:
    """A ring with two strokes through it; one half filled where only half is switched."""
    x, y = at
    fx, fy = facing
    tx, ty = -fy, fx
    offs = (-2.0, 2.0)
    strokes = []
    for off in offs:
        sx, sy = x + tx * off, y + ty * off
        long = REACH + 2.5
        strokes.append(
            line(x1=sx - fx * long, y1=sy - fy * long, x2=sx + fx * long, y2=sy + fy * long, width=LINE)
        )
    ring = circle(x=x, y=y, r=REACH - 1.5, width=LINE, fill="paper")
    half = Svg("")
    if device.typed.half_switched:
        arc = [_round_at(at, REACH - 1.5, _angle(facing) + pi / 2 + pi * i / 8) for i in range(9)]
        half = polygon(arc, width=0, fill="ink")
    return group(ring, half, *strokes)


def _angle(vector: Vector) -> float:
    return atan2(vector[1], vector[0])


def _round_at(at: Vector, r: float, turn: float) -> Vector:
    return at[0] + r * cos(turn), at[1] + r * sin(turn)


def _light(device: Device, at: Vector, facing: Vector) -> Svg:
    """A ring with rays all round; on a wall with rays on its free side only."""
    x, y = at
    on_wall = bool(device.typed.wall)
    turns = [pi / 4 + pi / 2 * i for i in range(_RAYS)]
    if on_wall:
        base = _angle(facing)
        turns = [base - pi / 4, base, base + pi / 4]
    rays = []
    for turn in turns:
        (ax, ay), (bx, by) = _round_at(at, REACH - 2, turn), _round_at(at, REACH + 2.5, turn)
        rays.append(line(x1=ax, y1=ay, x2=bx, y2=by, width=LINE))
    return group(circle(x=x, y=y, r=REACH - 2, width=LINE, fill="paper"), *rays)


def _round(device: Device, at: Vector, _: Vector) -> Svg:
    x, y = at
    ring = circle(x=x, y=y, r=REACH, width=LINE, fill="paper")
    return group(ring, letters(device_mark(device), x=x, y=y, size=SMALL, bold=True))


def _diamond(device: Device, at: Vector, _: Vector) -> Svg:
    x, y = at
    r = REACH + 1.8
    shape = polygon([(x - r, y), (x, y - r), (x + r, y), (x, y + r)], width=LINE, fill="paper")
    return group(shape, letters(device_mark(device), x=x, y=y, size=SMALL, bold=True))


def _square(device: Device, at: Vector, _: Vector) -> Svg:
    x, y = at
    mark = device_mark(device)
    half = REACH + (1.5 if len(mark) > 1 else 0.0)
    shape = rect(x=x - half, y=y - REACH, w=2 * half, h=2 * REACH, width=LINE, fill="paper")
    return group(shape, letters(mark, x=x, y=y, size=SMALL, bold=True))


def _switch(at: Vector, ways: int) -> Svg:
    """The letter S, with a 3 below it for one of a pair, a 4 for one of a chain of more."""
    x, y = at
    small = str(min(ways, 3) + 1) if ways > 1 else ""
    under = letters(small, x=x + 7.0, y=y + 4.0, size=SMALL, bold=True) if small else Svg("")
    return group(letters("S", x=x, y=y, size=SMALL * 1.35, bold=True, halo=True), under)


def device_mark(device: Device) -> str:
    """Return the letters of a device on drawings: the first letters of its words.

    Receptacles and lights are told by their form and have none.
    """
    if device.kind is DeviceKind.SWITCH:
        return "S"
    if device.kind is DeviceKind.JUNCTION:
        return "J"
    if device.kind in (DeviceKind.RECEPTACLE, DeviceKind.LIGHT):
        return ""
    if device.kind is DeviceKind.FAN:
        return "F"
    words = (device.typed.what or device.kind.value).split()
    if device.kind is DeviceKind.ALARM:
        return "A"
    first = "".join(word[0].upper() for word in words[:2])
    return first if len(words) > 1 else words[0][:2].upper()


def device_words(device: Device) -> str:
    """Say what a device is: "counter receptacle", "smoke alarm", "range"."""
    what, kind = device.typed.what, device.kind.value
    if device.kind is DeviceKind.APPLIANCE:
        return what or kind
    return what if what.endswith(kind) else f"{what} {kind}".strip()


def symbol_key(devices: Sequence[Device]) -> list[str]:
    """Say in words what the symbols on a drawing stand for, those that are on it."""
    kinds = {device.kind for device in devices}
    words = {
        DeviceKind.RECEPTACLE: "ring with two strokes: receptacle (half filled: half switched)",
        DeviceKind.SWITCH: "S: switch (3: one of a pair, 4: one of a longer chain)",
        DeviceKind.LIGHT: "ring with rays: light (on a wall, rays on one side)",
        DeviceKind.FAN: "ring with F: fan",
        DeviceKind.ALARM: "diamond with A: smoke or carbon monoxide alarm",
        DeviceKind.JUNCTION: "square with J: junction box",
    }
    said = [text for kind, text in words.items() if kind in kinds]
    marks = {
        device_mark(device): device_words(device) for device in devices if device.kind is DeviceKind.APPLIANCE
    }
    if marks:
        said.append("squares: " + ", ".join(f"{mark} {what}" for mark, what in sorted(marks.items())))
    return said
