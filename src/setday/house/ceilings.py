"""The underside of the ceiling framing over every point of a room."""

from dataclasses import dataclass
from math import hypot

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from setday.findings import Finding, Severity
from setday.house.description import (
    Axis,
    CeilingShape,
    HouseDescription,
    Side,
    TypedCeiling,
    TypedDrop,
    TypedHatch,
)
from setday.house.placing import from_inches
from setday.house.rooms import FoundRoom

__all__ = ["Drop", "Overhead", "Plane", "overheads"]

_FAR = 1e5
_LOW_CEILING = 76.0
"""A ceiling lower than this is asked about [in] (our own; a bath may go to 6 ft 8 in by model code)."""
_OUTWARD = {Side.NORTH: (0, 1), Side.SOUTH: (0, -1), Side.EAST: (1, 0), Side.WEST: (-1, 0)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """One plane of a ceiling: height `base + east * x + north * y` [in] over `region` of the plan."""

    name: str
    base: float
    east: float
    north: float
    region: Polygon

    def height(self, x: float, y: float) -> float:
        """Return the height of the plane over a plan point [in]."""
        return self.base + self.east * x + self.north * y

    @property
    def stretch(self) -> tuple[float, float]:
        """How much longer the plane is than the plan, along east and north."""
        return hypot(1.0, self.east), hypot(1.0, self.north)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """A dropped box: where it is on the plan, and its underside [in]."""

    typed: TypedDrop
    region: Polygon
    bottom: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Overhead:
    """Everything above one room."""

    typed: TypedCeiling
    planes: tuple[Plane, ...]
    drops: tuple[Drop, ...]
    hatches: tuple[TypedHatch, ...]

    def plane_at(self, x: float, y: float) -> Plane:
        """Return the plane over a plan point, drops apart."""
        return min(self.planes, key=lambda plane: plane.height(x, y))

    def drop_at(self, x: float, y: float) -> Drop | None:
        """Return the drop over a plan point, the lowest where several meet."""
        over = [d for d in self.drops if _within(d.region, x, y)]
        return min(over, key=lambda d: d.bottom) if over else None


def overheads(
    description: HouseDescription, rooms: tuple[FoundRoom, ...]
) -> tuple[dict[str, Overhead], tuple[Finding, ...]]:
    """Build the ceiling over every room.

    Returns
    -------
    overheads : dict
        By room name; rooms without a ceiling are left out.
    findings : tuple of Finding
    """
    findings: list[Finding] = []
    typed_by_room = {ceiling.room: ceiling for ceiling in description.ceilings}
    over: dict[str, Overhead] = {}
    for room in rooms:
        typed = typed_by_room.get(room.typed.name)
        if typed is None:
            findings.append(_missing(room))
            continue
        planes = _planes(typed, room)
        if isinstance(planes, Finding):
            findings.append(planes)
            continue
        drops, dropped = _drops(description, room)
        findings += dropped + _low(typed, planes, room)
        over[room.typed.name] = Overhead(
            typed=typed, planes=planes, drops=drops, hatches=_hatches(description, room)
        )
    findings += _unknown_rooms(description)
    findings += _stray_hatches(description, rooms)
    return over, tuple(findings)


def _planes(typed: TypedCeiling, room: FoundRoom) -> tuple[Plane, ...] | Finding:
    everywhere = box(-_FAR, -_FAR, _FAR, _FAR)
    height, rise = typed.height.inches, typed.rise.inches / 12
    if typed.shape is CeilingShape.FLAT:
        return (Plane(name="", base=height, east=0.0, north=0.0, region=everywhere),)
    if rise <= 0:
        return _ceiling_finding(typed, "it slopes but has no rise.", 'a rise, like 4" per foot.')
    low_x, low_y, high_x, high_y = room.space.bounds
    if typed.shape is CeilingShape.SLOPE:
        if typed.low_side is None:
            return _ceiling_finding(
                typed, "it slopes but does not say which side is low.", "north, east, south or west."
            )
        ox, oy = _OUTWARD[typed.low_side]
        edge = {Side.NORTH: high_y, Side.SOUTH: -low_y, Side.EAST: high_x, Side.WEST: -low_x}[typed.low_side]
        return (
            Plane(name="", base=height + rise * edge, east=-rise * ox, north=-rise * oy, region=everywhere),
        )
    if typed.ridge_runs is None or typed.ridge_at is None:
        return _ceiling_finding(
            typed, "it is a vault but does not say where the ridge runs.", "a ridge, like east-west at 14'."
        )
    at = typed.ridge_at.inches
    low, high = (low_y, high_y) if typed.ridge_runs is Axis.EAST_WEST else (low_x, high_x)
    if not low < at < high:
        return _ceiling_finding(
            typed,
            f"its ridge at {typed.ridge_at} does not cross the room, "
            f"which runs from {from_inches(low)} to {from_inches(high)}.",
            "a ridge over the room; a room on one side of it has a ceiling of shape slope.",
        )
    ridge = height + rise * max(at - low, high - at)
    return _vault(typed.ridge_runs, at, ridge, rise)


def _vault(runs: Axis, at: float, ridge: float, rise: float) -> tuple[Plane, ...]:
    if runs is Axis.EAST_WEST:
        return (
            Plane(
                name="north", base=ridge + rise * at, east=0.0, north=-rise, region=box(-_FAR, at, _FAR, _FAR)
            ),
            Plane(
                name="south", base=ridge - rise * at, east=0.0, north=rise, region=box(-_FAR, -_FAR, _FAR, at)
            ),
        )
    return (
        Plane(name="east", base=ridge + rise * at, east=-rise, north=0.0, region=box(at, -_FAR, _FAR, _FAR)),
        Plane(name="west", base=ridge - rise * at, east=rise, north=0.0, region=box(-_FAR, -_FAR, at, _FAR)),
    )


def _drops(description: HouseDescription, room: FoundRoom) -> tuple[tuple[Drop, ...], list[Finding]]:
    drops, findings = [], []
    for typed in description.drops:
        if typed.room != room.typed.name:
            continue
        x, y = typed.corner.x.inches, typed.corner.y.inches
        region = room.space.intersection(box(x, y, x + typed.east.inches, y + typed.north.inches))
        if not isinstance(region, Polygon) or region.area < 1.0:
            findings.append(_drop_outside(typed))
        else:
            drops.append(Drop(typed=typed, region=region, bottom=typed.bottom.inches))
    return tuple(drops), findings


def _hatches(description: HouseDescription, room: FoundRoom) -> tuple[TypedHatch, ...]:
    return tuple(hatch for hatch in description.hatches if hatch.room == room.typed.name)


def _within(region: BaseGeometry, x: float, y: float) -> bool:
    low_x, low_y, high_x, high_y = region.bounds
    return bool(low_x - 0.02 <= x <= high_x + 0.02 and low_y - 0.02 <= y <= high_y + 0.02)


def _low(typed: TypedCeiling, planes: tuple[Plane, ...], room: FoundRoom) -> list[Finding]:
    lowest = min(min(plane.height(x, y) for plane in planes) for x, y in list(room.space.exterior.coords))
    if lowest >= _LOW_CEILING or (typed.shape is not CeilingShape.FLAT and lowest > 0):
        return []
    severity = Severity.ASK if lowest > 0 else Severity.PROBLEM
    return [
        Finding(
            rule="house.ceiling-low",
            about=f"ceiling of '{typed.room}'",
            found=f"it comes down to {from_inches(lowest)} above the subfloor.",
            expected="a ceiling above the doors.",
            do="Check the height and the rise.",
            severity=severity,
            where=typed.where,
        )
    ]


def _missing(room: FoundRoom) -> Finding:
    return Finding(
        rule="house.ceiling-missing",
        about=f"room '{room.typed.name}'",
        found="it has no ceiling.",
        expected="a ceiling of its own, or one for all rooms.",
        do="Write its ceiling's height and the way its framing runs.",
        where=room.typed.where,
    )


def _ceiling_finding(typed: TypedCeiling, found: str, expected: str) -> Finding:
    return Finding(
        rule="house.ceiling-shape",
        about=f"ceiling of '{typed.room}'",
        found=found,
        expected=expected,
        do="Add what is missing, or make the ceiling flat.",
        where=typed.where,
    )


def _drop_outside(typed: TypedDrop) -> Finding:
    return Finding(
        rule="house.drop-outside",
        about=f"drop '{typed.name}'",
        found=f"its box at {typed.corner} does not lie over one part of room '{typed.room}'.",
        expected="a box over the room's floor.",
        do="Check its corner and its size, or write it as two.",
        where=typed.where,
    )


def _unknown_rooms(description: HouseDescription) -> list[Finding]:
    known = {room.name for room in description.rooms}
    entries = [
        *((c.room, f"ceiling of '{c.room}'", c.where) for c in description.ceilings),
        *((d.room, f"drop '{d.name}'", d.where) for d in description.drops),
        *((h.room, f"ceiling opening '{h.name}'", h.where) for h in description.hatches),
        *((w.room, f"wet stretch '{w.name}'", w.where) for w in description.wets),
    ]
    return [
        Finding(
            rule="house.room-unknown",
            about=about,
            found=f"there is no room '{room}'.",
            expected=f"one of: {', '.join(sorted(known))}.",
            do="Correct the name of the room.",
            where=where,
        )
        for room, about, where in entries
        if room not in known
    ]


def _stray_hatches(description: HouseDescription, rooms: tuple[FoundRoom, ...]) -> list[Finding]:
    spaces = {room.typed.name: room.space for room in rooms}
    findings = []
    for hatch in description.hatches:
        space = spaces.get(hatch.room)
        x, y = hatch.corner.x.inches, hatch.corner.y.inches
        if space is not None and not space.covers(box(x, y, x + hatch.east.inches, y + hatch.north.inches)):
            findings.append(
                Finding(
                    rule="house.hatch-outside",
                    about=f"ceiling opening '{hatch.name}'",
                    found=f"its box at {hatch.corner} does not lie wholly over room '{hatch.room}'.",
                    expected="a box over the room's floor.",
                    do="Check its corner and its size.",
                    where=hatch.where,
                )
            )
    return findings
