"""Building the stage: boxes, cables, devices, feed, paths and wants put in and taken out.

Each function returns another hookup; what was on a thing that goes, goes with it.
"""

from dataclasses import replace

from setday.switching.hookup import Box, Cable, Device, Hookup, Join, Path, Want

__all__ = [
    "with_box",
    "with_cable",
    "with_device",
    "with_path",
    "with_want",
    "without_box",
    "without_cable",
    "without_device",
    "without_path",
    "without_want",
]


def with_box(hookup: Hookup, box: Box) -> Hookup:
    """Return the hookup with another box, or with a box of that name changed."""
    if box.name in [each.name for each in hookup.boxes]:
        boxes = tuple(box if each.name == box.name else each for each in hookup.boxes)
        return replace(hookup, boxes=boxes)
    return replace(hookup, boxes=(*hookup.boxes, box))


def with_cable(hookup: Hookup, cable: Cable) -> Hookup:
    """Return the hookup with another cable."""
    return replace(hookup, cables=(*hookup.cables, cable))


def with_device(hookup: Hookup, device: Device) -> Hookup:
    """Return the hookup with another device."""
    return replace(hookup, devices=(*hookup.devices, device))


def with_path(hookup: Hookup, path: Path) -> Hookup:
    """Return the hookup with another path a cable could be run along."""
    return replace(hookup, paths=(*hookup.paths, path))


def with_want(hookup: Hookup, want: Want) -> Hookup:
    """Return the hookup with a want; one for the same load gives way."""
    kept = tuple(each for each in hookup.wants if each.load != want.load)
    return replace(hookup, wants=(*kept, want))


def without_box(hookup: Hookup, name: str) -> Hookup:
    """Return the hookup without a box, its devices, and the cables and paths that lead to it."""
    for device in [each.name for each in hookup.devices if each.box == name]:
        hookup = without_device(hookup, device)
    for cable in [each.name for each in hookup.cables if name in (each.a, each.b)]:
        hookup = without_cable(hookup, cable)
    return replace(
        hookup,
        boxes=tuple(box for box in hookup.boxes if box.name != name),
        paths=tuple(path for path in hookup.paths if name not in (path.a, path.b)),
        joins=tuple(join for join in hookup.joins if join.box != name),
    )


def without_cable(hookup: Hookup, name: str) -> Hookup:
    """Return the hookup without a cable; its ends leave the joins they are in."""
    cables = tuple(cable for cable in hookup.cables if cable.name != name)
    return replace(hookup, cables=cables, joins=_joins_without(hookup, name))


def without_device(hookup: Hookup, name: str) -> Hookup:
    """Return the hookup without a device; its terminals leave their joins, its wants go."""
    loads = {load for device in hookup.devices if device.name == name for load, _, _ in device.loads}
    wants = tuple(
        replace(want, switches=tuple(switch for switch in want.switches if switch != name))
        for want in hookup.wants
        if want.load not in loads and want.switches != (name,)
    )
    devices = tuple(device for device in hookup.devices if device.name != name)
    return replace(hookup, devices=devices, wants=wants, joins=_joins_without(hookup, name))


def without_path(hookup: Hookup, place: int) -> Hookup:
    """Return the hookup without the path at a place in `hookup.paths`."""
    return replace(hookup, paths=hookup.paths[:place] + hookup.paths[place + 1 :])


def without_want(hookup: Hookup, load: str) -> Hookup:
    """Return the hookup without the want of a load."""
    return replace(hookup, wants=tuple(want for want in hookup.wants if want.load != load))


def _joins_without(hookup: Hookup, holder: str) -> tuple[Join, ...]:
    left = (
        replace(join, points=tuple(point for point in join.points if point.holder != holder))
        for join in hookup.joins
    )
    return tuple(join for join in left if len(join.points) > 1)
