"""Devices as a person tapes them: from the corner of the room, to a mark of the tape."""

from dataclasses import replace

from setday.house.devices import Mount, TypedDevice
from setday.house.model import House, Span, Surface, SurfaceKind
from setday.house.points import Point
from setday.measure import Length

__all__ = ["taped"]

_MARK = Length(8)
"""The tape is read to the nearest 1/8 in (our own)."""
_COMPASS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}


def taped(device: TypedDevice, house: House) -> TypedDevice:
    """Return a device measured as a person with a tape says it, to the nearest 1/8 in.

    Parameters
    ----------
    device : TypedDevice
        Measured from the start of its wall's framing.
    house : House

    Returns
    -------
    TypedDevice
        On a wall measured from the nearer corner of the room; as given where it faces no room, or where
        its wall runs at an angle.
    """
    if device.mount is not Mount.WALL:
        return replace(device, point=_marked(device.point)) if device.point else device
    if device.measured_from or not device.room:
        return device
    found = _seen_on(device, house)
    if found is None:
        return device
    surface, x = found
    from_left = x <= surface.width - x
    word = _end(surface, left=from_left)
    if not word:
        return device
    distance = (x if from_left else surface.width - x).to_nearest(_MARK)
    return replace(
        device, along=distance, measured_from=word, going="", side="", up=device.up.to_nearest(_MARK)
    )


def _marked(point: Point | None) -> Point | None:
    return point and Point(x=point.x.to_nearest(_MARK), y=point.y.to_nearest(_MARK))


def _seen_on(device: TypedDevice, house: House) -> tuple[Surface, Length] | None:
    """Return the surface a device shows on and its place there; None where two faces could be meant."""
    spans = [
        (surface, span)
        for surface in house.surfaces
        if surface.room == device.room and surface.kind is SurfaceKind.WALL
        for span in surface.spans
        if span.wall == device.wall
    ]
    held = [(surface, _x(device, span)) for surface, span in spans if device.side in ("", span.side)]
    seen = [
        (s, x) for (s, x), (_, span) in zip(held, spans, strict=False) if span.x <= x <= span.x + span.width
    ]
    return seen[0] if len(spans) == 1 and seen else None


def _x(device: TypedDevice, span: Span) -> Length:
    off = device.along - span.along if span.forward else span.along - device.along
    return span.x + off


def _end(surface: Surface, *, left: bool) -> str:
    """Return the compass word of one end of a surface; "" where it runs at an angle."""
    ux, uy = surface.plan_x
    sign = -1.0 if left else 1.0
    words = (word for word, (wx, wy) in _COMPASS.items() if sign * (wx * ux + wy * uy) > 0.999)
    return next(words, "")
