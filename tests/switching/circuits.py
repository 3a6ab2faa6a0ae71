"""Circuits for the tests: the demo's, chains of any number of switches, and wrong ones by the hundred."""

import random
from functools import cache
from importlib.resources import files
from itertools import pairwise

from setday.files import read_hookup
from setday.switching import Box, Device, DeviceKind, Feed, Hookup, Join, Path, Want, plan

FOLDER = files("setday") / "demo" / "hookups"
STANDARD = tuple(sorted(entry.name.removesuffix(".yaml") for entry in FOLDER.iterdir()))


@cache
def standard(name: str) -> Hookup:
    """Return a circuit of the demo."""
    entry = FOLDER / f"{name}.yaml"
    return read_hookup(entry.read_bytes(), name=f"{name}.yaml").sound()


@cache
def chain(switches: int) -> Hookup:
    """Return so many switches in a row with the lamp behind the last, as planned."""
    kinds = [DeviceKind.SINGLE_POLE] if switches == 1 else [DeviceKind.FOUR_WAY] * switches
    if switches > 1:
        kinds[0] = kinds[-1] = DeviceKind.THREE_WAY
    names = [f"S{n + 1}" for n in range(switches)]
    boxes = [*names, "L1"]
    asked = Hookup(
        name=f"{switches} in a row",
        feed=Feed(box="S1"),
        boxes=tuple(Box(name=name) for name in boxes),
        cables=(),
        devices=(
            *(Device(name=name, kind=kind, box=name) for name, kind in zip(names, kinds, strict=True)),
            Device(name="L1", kind=DeviceKind.LAMP, box="L1", watts=100),
        ),
        joins=(),
        wants=(Want(load="L1", switches=tuple(names)),),
        paths=tuple(Path(a=a, b=b, length_ft=10) for a, b in pairwise(boxes)),
    )
    return plan(asked).hookup


def rejoined(hookup: Hookup, *pairs: tuple[str, str]) -> Hookup:
    """Return a hookup with what belongs on two points swapped, for each pair of their names."""
    joins = [list(join.points) for join in hookup.joins]
    by_name = {str(point): point for point in hookup.points() if point.box != "panel"}
    for first, second in pairs:
        a, b = by_name[first], by_name[second]
        assert a.box == b.box
        joins = [[{a: b, b: a}.get(point, point) for point in points] for points in joins]
    return hookup.with_joins(tuple(Join(points=tuple(points)) for points in joins))


def without(hookup: Hookup, name: str, *, box: str = "") -> Hookup:
    """Return a hookup with one point taken out of its join."""
    joins = []
    for join in hookup.joins:
        kept = tuple(p for p in join.points if str(p) != name or (box and p.box != box))
        if len(kept) > 1:
            joins.append(Join(points=kept))
    return hookup.with_joins(tuple(joins))


def touching(hookup: Hookup, first: str, second: str) -> Hookup:
    """Return a hookup in which the joins of two points, by name, touch."""
    one, other = (next(j for j in hookup.joins if name in map(str, j.points)) for name in (first, second))
    rest = tuple(join for join in hookup.joins if join not in (one, other))
    return hookup.with_joins((*rest, Join(points=(*one.points, *other.points))))


def wrong(hookup: Hookup, chance: random.Random) -> Hookup:
    """Return a hookup with a few joins changed at random, or all joins of one box thrown together anew."""
    groups: dict[str, list[list]] = {
        box.name: [list(join.points) for join in hookup.joins_in(box.name)] for box in hookup.boxes
    }
    for _ in range(chance.randint(1, 4)):
        box = chance.choice([name for name, joins in groups.items() if joins])
        groups[box] = chance.choice(_WAYS)(groups[box], list(hookup.points_in(box)), chance)
    joins = tuple(
        Join(points=tuple(points))
        for box_groups in groups.values()
        for points in box_groups
        if len(points) > 1
    )
    return hookup.with_joins(joins)


def _swap(groups: list[list], points: list, chance: random.Random) -> list[list]:
    a, b = chance.sample(points, 2)
    return [[{a: b, b: a}.get(point, point) for point in group] for group in groups]


def _move(groups: list[list], points: list, chance: random.Random) -> list[list]:
    point = chance.choice(points)
    groups = [[other for other in group if other != point] for group in groups]
    chance.choice(groups).append(point)
    return groups


def _leave_out(groups: list[list], points: list, chance: random.Random) -> list[list]:
    point = chance.choice(points)
    return [[other for other in group if other != point] for group in groups]


def _touch(groups: list[list], points: list, chance: random.Random) -> list[list]:
    if len(groups) < 2:
        return groups
    a, b = chance.sample(range(len(groups)), 2)
    return [group for n, group in enumerate(groups) if n not in (a, b)] + [groups[a] + groups[b]]


def _anew(groups: list[list], points: list, chance: random.Random) -> list[list]:
    fresh: list[list] = [[] for _ in range(max(2, len(groups)))]
    for point in points:
        chance.choice(fresh).append(point)
    return fresh


_WAYS = (_swap, _move, _leave_out, _touch, _swap, _move, _anew)
