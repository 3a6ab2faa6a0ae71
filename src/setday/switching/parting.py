"""Boxes wired as two parts that share nothing but the grounds, each part reached over its own path.

Where the paths have loops, a box may be cheaper to serve from two sides: each part with its own cable,
its own neutral and its own devices.  A parted box is written as two boxes, the second with a mark.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

from setday.switching.hookup import Hookup

__all__ = ["whole_name", "with_parted_boxes"]

_MARK = " \N{DAGGER}"


def whole_name(box: str) -> str:
    """Return the name of the box a part belongs to."""
    return box.removesuffix(_MARK)


def with_parted_boxes(hookup: Hookup) -> Iterator[Hookup]:
    """Yield the layout with one box parted, then two, and so on, in every way to divide its devices.

    Nothing is yielded where the paths form a tree: two cables over one path are weighed there anyway.
    """
    if not _has_loop(hookup):
        return
    options = {
        box.name: list(_second_parts(hookup, box.name)) for box in hookup.boxes if box.name != hookup.feed.box
    }
    for count in range(1, len(options) + 1):
        for names in combinations(options, count):
            for moved in product(*(options[name] for name in names)):
                yield _parted(hookup, dict(zip(names, moved, strict=True)))


def _has_loop(hookup: Hookup) -> bool:
    top: dict[str, str] = {}

    def find(box: str) -> str:
        while top.get(box, box) != box:
            box = top[box]
        return box

    for path in hookup.paths:
        a, b = find(path.a), find(path.b)
        if a == b:
            return True
        top[a] = b
    return False


def _second_parts(hookup: Hookup, box: str) -> Iterator[frozenset[str]]:
    """Yield which devices the second part may hold: none (cables pass through), or some, never the first."""
    here = [device.name for device in hookup.devices if device.box == box]
    for count in range(max(1, len(here))):
        for chosen in combinations(here[1:], count):
            yield frozenset(chosen)


def _parted(hookup: Hookup, moved: dict[str, frozenset[str]]) -> Hookup:
    twins = tuple(replace(box, name=box.name + _MARK) for box in hookup.boxes if box.name in moved)
    devices = tuple(
        replace(device, box=device.box + _MARK) if device.name in moved.get(device.box, ()) else device
        for device in hookup.devices
    )
    paths = [
        replace(path, a=a, b=b)
        for path in hookup.paths
        for a in ((path.a, path.a + _MARK) if path.a in moved else (path.a,))
        for b in ((path.b, path.b + _MARK) if path.b in moved else (path.b,))
    ]
    return replace(hookup, boxes=(*hookup.boxes, *twins), devices=devices, paths=tuple(paths))
