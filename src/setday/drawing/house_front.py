"""A hookup from the room's side: closed boxes, handles, lamps.  No conductor is drawn."""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sin

from setday.drawing.ink import BOLD, DASHED, FINE, HAIR, LINE, Svg, circle, group, line, path, rect
from setday.drawing.lettering import NORMAL, SMALL, letters, text_width
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.switching import Device, DeviceKind, Hookup, Look, Seen, position_words

__all__ = ["house_front"]

_SLOT = 76.0
_HEIGHT = 148.0
_GAP = 10.0
_LEAST_WIDTH = 300.0
_RAYS = 8

Say = Callable[[str], str]


def house_front(
    hookup: Hookup,
    *,
    position: tuple[int, ...],
    seen: Seen | None = None,
    opened: tuple[str, ...] = (),
    paper: Paper = LETTER,
    key: str = "front",
    say: Say = str,
) -> str:
    """Draw what stands in the room: handles as they stand, lamps as they were last seen so.

    Parameters
    ----------
    hookup : Hookup
        Only its boxes and devices are drawn.
    position : tuple of int
        1 for up (on), 0 for down (off).
    seen : Seen or None
        What the lamps did in this position; None when nobody looked.
    opened : tuple of str
        Boxes whose cover is off.
    paper : Paper
        Its width is the most that is filled.
    key : str
        Prefix of the ids.
    say : function
        Gives the drawing's own words in the reader's language.

    Returns
    -------
    str
        An SVG.
    """
    room = _Room(hookup=hookup, position=position, seen=seen, opened=opened, say=say)
    left, top, lowest, right = 1.0, 34.0, 34.0 + _HEIGHT, _LEAST_WIDTH
    parts: list[Svg] = [_breaker(room)]
    for box in hookup.boxes:
        devices = [device for device in hookup.devices if device.box == box.name]
        width = max(len(devices), 1) * _SLOT + 12
        width = max(width, text_width(box.name, size=NORMAL) + 24)
        if left > 1 and left + width > paper.width - 1:
            left, top = 1.0, top + _HEIGHT + _GAP
        parts.append(_box(room, box.name, devices, left=left, top=top, width=width))
        right = max(right, left + width + 1)
        left, lowest = left + width + _GAP, top + _HEIGHT
    return finish(
        body=tuple(parts),
        title=say("The room as it stands"),
        desc="; ".join(_words(room)),
        width=right,
        height=lowest + 2,
        key=key_of(key),
    )


@dataclass(frozen=True, kw_only=True)
class _Room:
    hookup: Hookup
    position: tuple[int, ...]
    seen: Seen | None
    opened: tuple[str, ...]
    say: Say

    def handle(self, switch: Device) -> int:
        return self.position[self.hookup.switches.index(switch)]

    def look(self, load: str) -> Look | None:
        """Return what a lamp did; None when nobody looked."""
        if self.seen is None or self.seen.breaker_opens:
            return None
        return dict(self.seen.looks).get(load)

    def look_words(self, load: str) -> str:
        look = self.look(load)
        return "?" if look is None else self.say(look.value)


def _words(room: _Room) -> list[str]:
    said = [_breaker_words(room)]
    for device in room.hookup.devices:
        if device.kind.is_switch:
            said.append(f"{device.name} {room.say(position_words(device.kind)[room.handle(device)])}")
        said += [f"{load} {room.look_words(load)}" for load, _, _ in device.loads]
    return said


def _breaker_words(room: _Room) -> str:
    if room.seen is None:
        return room.say("breaker locked off")
    return room.say("breaker opened") if room.seen.breaker_opens else room.say("breaker on")


def _breaker(room: _Room) -> Svg:
    on = room.seen is not None and not room.seen.breaker_opens
    body = rect(x=1, y=4, w=40, h=20, width=LINE, fill="paper")
    handle = rect(x=22 if on else 5, y=8, w=15, h=12, width=0, fill="ink")
    return group(body, handle, letters(_breaker_words(room), x=50, y=18, size=NORMAL, anchor="start"))


def _box(room: _Room, name: str, devices: list[Device], *, left: float, top: float, width: float) -> Svg:
    is_open = name in room.opened
    plate = rect(x=left, y=top, w=width, h=_HEIGHT, width=LINE, dash=DASHED if is_open else None, rx=4)
    title = letters(name, x=left + width / 2, y=top + 17, size=NORMAL, bold=True)
    state = room.say("cover off") if is_open else room.say("cover on")
    under = letters(state, x=left + width / 2, y=top + _HEIGHT - 7, size=SMALL)
    first = left + (width - len(devices) * _SLOT) / 2 + _SLOT / 2
    drawn = [_device(room, device, x=first + n * _SLOT, top=top + 24) for n, device in enumerate(devices)]
    screws = [] if is_open else [_screw(left + 8, top + 8), _screw(left + width - 8, top + 8)]
    return group(plate, title, under, *screws, *drawn, data_kind="box", data_id=name)


def _screw(x: float, y: float) -> Svg:
    return group(circle(x=x, y=y, r=2.6, width=FINE), line(x1=x - 2, y1=y, x2=x + 2, y2=y, width=HAIR))


def _device(room: _Room, device: Device, *, x: float, top: float) -> Svg:
    if device.kind.is_switch:
        return _switch(room, device, x=x, top=top)
    if device.kind is DeviceKind.LAMP:
        return _lamp(device.name, room.look(device.name), room.look_words(device.name), x=x, y=top + 44)
    halves = [
        _lamp(load, room.look(load), room.look_words(load), x=x, y=top + 18 + 51 * n, small=True)
        for n, (load, _, _) in enumerate(device.loads)
    ]
    return group(*halves)


def _switch(room: _Room, switch: Device, *, x: float, top: float) -> Svg:
    up = bool(room.handle(switch))
    slot = rect(x=x - 9, y=top + 14, w=18, h=52, width=LINE, fill="paper", rx=3)
    handle = rect(x=x - 7, y=top + (16 if up else 42), w=14, h=22, width=0, fill="ink", rx=2)
    word = room.say(position_words(switch.kind)[int(up)])
    return group(
        slot,
        handle,
        letters(switch.name, x=x, y=top + 84, size=NORMAL, bold=True),
        letters(word.upper(), x=x, y=top + 98, size=NORMAL),
        data_kind="switch",
        data_id=switch.name,
    )


def _lamp(name: str, look: Look | None, words: str, *, x: float, y: float, small: bool = False) -> Svg:
    r = 8.0 if small else 16.0
    lit = look in (Look.FULL, Look.DIM)
    bulb = circle(x=x, y=y, r=r, width=BOLD if lit else LINE, fill="paper")
    inside = [circle(x=x, y=y, r=r * 0.45, width=0, fill="ink")] if look is Look.FULL else []
    if look is Look.DIM:
        half = r * 0.45
        inside = [path(f"M{x - half:.2f} {y:.2f}a{half:.2f} {half:.2f} 0 0 0 {2 * half:.2f} 0Z", fill="ink")]
    if look is None:
        inside = [letters("?", x=x, y=y + 4, size=NORMAL)]
    rays = _rays(x, y, r, every=1 if look is Look.FULL else 2) if lit else []
    said = words.upper() if look is not None else words
    if small:
        text = [letters(f"{name} {said}", x=x, y=y + r + 16, size=SMALL)]
    else:
        text = [
            letters(name, x=x, y=y + r + 24, size=NORMAL, bold=True),
            letters(said, x=x, y=y + r + 38, size=NORMAL),
        ]
    return group(bulb, *inside, *rays, *text, data_kind="lamp", data_id=name)


def _rays(x: float, y: float, r: float, *, every: int) -> list[Svg]:
    angles = [2 * pi * n / _RAYS for n in range(0, _RAYS, every)]
    near, far = r + 3, r + (6 if r < 10 else 9)
    return [
        line(x1=x + near * cos(a), y1=y + near * sin(a), x2=x + far * cos(a), y2=y + far * sin(a), width=LINE)
        for a in angles
    ]
