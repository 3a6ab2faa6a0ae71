"""Checks of a house as a whole: names, doors, heights, things outside it."""

from collections.abc import Iterable

from shapely import box
from shapely.geometry.base import BaseGeometry

from setday.findings import Finding, Severity, Where
from setday.house.description import HouseDescription, OpeningKind
from setday.house.model import Surface
from setday.house.placing import from_inches

__all__ = ["check_doors", "check_names", "check_outside"]

_PLAY = 0.5


def check_names(description: HouseDescription) -> tuple[Finding, ...]:
    """Find names given twice among walls, openings, rooms, devices and circuits."""
    groups: tuple[tuple[str, Iterable[tuple[str, Where]]], ...] = (
        ("wall kind", [(k.name, k.where) for k in description.kinds]),
        ("wall", [(w.name, w.where) for w in description.walls]),
        ("opening", [(o.name, o.where) for o in description.openings]),
        ("room", [(r.name, r.where) for r in description.rooms]),
        ("device", [(d.name, d.where) for d in description.devices]),
        ("circuit", [(c.name, c.where) for c in description.circuits]),
    )
    findings = []
    for what, entries in groups:
        first: dict[str, Where] = {}
        for name, where in entries:
            if name in first:
                findings.append(
                    Finding(
                        rule="house.name-twice",
                        about=f"{what} '{name}'",
                        found=f"another {what} on line {first[name].line} has the same name.",
                        expected="a name of its own for each.",
                        do="Rename one of them.",
                        where=where,
                    )
                )
            first.setdefault(name, where)
    return tuple(findings)


def check_doors(description: HouseDescription, surfaces: tuple[Surface, ...]) -> tuple[Finding, ...]:
    """Ask about rooms that no door or cased opening leads into."""
    ways = {OpeningKind.DOOR.value, OpeningKind.CASED.value}
    open_rooms = {s.room for s in surfaces if any(o.kind in ways for o in s.openings)}
    return tuple(
        Finding(
            rule="house.room-without-door",
            about=f"room '{room.name}'",
            found="no door or cased opening leads into it.",
            expected="a way in.",
            do="Write the missing opening, or leave it if the space is closed for good.",
            severity=Severity.ASK,
            where=room.where,
        )
        for room in description.rooms
        if room.name not in open_rooms and any(s.room == room.name for s in surfaces)
    )


def check_outside(description: HouseDescription, footprint: BaseGeometry) -> tuple[Finding, ...]:
    """Find floor holes and reserved spaces that reach outside the house."""
    low_x, low_y, high_x, high_y = footprint.bounds
    around = box(low_x - _PLAY, low_y - _PLAY, high_x + _PLAY, high_y + _PLAY)
    entries = [
        (f"floor hole '{h.name}'", h.corner, h.east, h.north, h.where) for h in description.floor_holes
    ]
    entries += [
        (f"reserved space '{r.name}'", r.corner, r.east, r.north, r.where) for r in description.reserves
    ]
    findings = []
    for about, corner, east, north, where in entries:
        x, y = corner.x.inches, corner.y.inches
        if not around.covers(box(x, y, x + east.inches, y + north.inches)):
            findings.append(
                Finding(
                    rule="house.outside",
                    about=about,
                    found=f"its box from {corner} reaches outside the house.",
                    expected=f"a box between (0, 0) corner {from_inches(low_x)}, {from_inches(low_y)} "
                    f"and {from_inches(high_x)}, {from_inches(high_y)}.",
                    do="Check its corner and its size.",
                    where=where,
                )
            )
    return tuple(findings)
