"""Walls put on the plan: centre lines, which wall meets which, and how far each one's framing runs."""

from dataclasses import dataclass, replace
from math import hypot

from setday.findings import Finding, Severity
from setday.house.description import HouseDescription, Point, TypedWall, WallKind, WallLine
from setday.measure import Length

__all__ = ["Joint", "PlacedWall", "from_inches", "place_walls"]

MEET = 0.26
"""Ends this near another wall's framing meet it [in]; a quarter inch is the play of a tape (our own)."""
NEARLY = 12.0
"""Ends this near, but not meeting, were surely meant to meet [in] (our own)."""
PARALLEL = 1e-6


def from_inches(inches: float) -> Length:
    """Return the length on the 1/64 in grid nearest to so many inches."""
    return Length(round(inches * 64))


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """One end of a wall where it meets another.

    Parameters
    ----------
    wall : str
        The wall that ends here.
    at_start : bool
        Which end of it.
    meets : str
        The wall it meets.
    corner : bool
        True when the other wall ends here too (an L); False for a T.
    near, far, center : float
        Where the other wall's near face, far face and centre line cross this wall's centre line,
        measured from this wall's start [in].
    along_other : float
        Where this wall's centre line crosses the other's, from the other's start [in].
    """

    wall: str
    at_start: bool
    meets: str
    corner: bool
    near: float
    far: float
    center: float
    along_other: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedWall:
    """A wall on the plan, in inches.

    `x`, `y` is the start of the centre line as written, `ux`, `uy` its direction, `length` its extent
    as written.  The framing runs from `frame_start` to `frame_end` along it; the faces seen from the
    rooms run from `face_start` to `face_end` (through the corner at an L).
    """

    typed: TypedWall
    kind: WallKind
    x: float
    y: float
    ux: float
    uy: float
    length: float
    frame_start: float
    frame_end: float
    face_start: float
    face_end: float
    joints: tuple[Joint, ...] = ()

    @property
    def name(self) -> str:
        """Name in the house file."""
        return self.typed.name

    @property
    def half(self) -> float:
        """Half the depth of the framing [in]."""
        return self.kind.depth.inches / 2

    def at(self, along: float, left: float = 0.0) -> tuple[float, float]:
        """Return the plan point `along` the centre line and `left` of it [in]."""
        return (self.x + self.ux * along - self.uy * left, self.y + self.uy * along + self.ux * left)

    def along(self, x: float, y: float) -> float:
        """Return how far along the centre line a plan point lies [in]."""
        return (x - self.x) * self.ux + (y - self.y) * self.uy

    def left_of(self, x: float, y: float) -> float:
        """Return how far left of the centre line a plan point lies [in]."""
        return (y - self.y) * self.ux - (x - self.x) * self.uy

    def parallel_to(self, other: "PlacedWall") -> bool:
        """Tell whether two walls run the same way, or opposite ways."""
        return abs(self.ux * other.uy - self.uy * other.ux) < PARALLEL


def place_walls(description: HouseDescription) -> tuple[tuple[PlacedWall, ...], tuple[Finding, ...]]:
    """Put the walls on the plan and find where they meet.

    Returns
    -------
    walls : tuple of PlacedWall
        In the order written; walls that cannot be placed are left out.
    findings : tuple of Finding
    """
    kinds = {kind.name: kind for kind in description.kinds}
    findings: list[Finding] = []
    placed: list[PlacedWall] = []
    for typed in description.walls:
        kind = kinds.get(typed.kind)
        if kind is None:
            findings.append(_unknown_kind(typed, sorted(kinds)))
            continue
        wall = _placed(typed, kind)
        if wall is None:
            findings.append(_too_short(typed, kind))
        else:
            placed.append(wall)
    joined = tuple(_joined(wall, placed) for wall in placed)
    findings += [f for wall in joined for f in _end_findings(wall, joined)]
    findings += _crossings(joined)
    return joined, tuple(findings)


def _placed(typed: TypedWall, kind: WallKind) -> PlacedWall | None:
    x, y = typed.start.x.inches, typed.start.y.inches
    dx, dy = typed.end.x.inches - x, typed.end.y.inches - y
    length = hypot(dx, dy)
    if length < kind.depth.inches:
        return None
    ux, uy = dx / length, dy / length
    aside = {WallLine.CENTER: 0.0, WallLine.LEFT: -1.0, WallLine.RIGHT: 1.0}[typed.line]
    shift = aside * kind.depth.inches / 2
    return PlacedWall(
        typed=typed,
        kind=kind,
        x=x - uy * shift,
        y=y + ux * shift,
        ux=ux,
        uy=uy,
        length=length,
        frame_start=0.0,
        frame_end=length,
        face_start=0.0,
        face_end=length,
    )


def _joined(wall: PlacedWall, placed: list[PlacedWall]) -> PlacedWall:
    order = {other.name: n for n, other in enumerate(placed)}
    joints = [
        j for at_start in (True, False) for other in placed if (j := _joint(wall, other, at_start=at_start))
    ]
    for joint in joints:
        through = joint.corner and order[wall.name] < order[joint.meets]
        frame = joint.far if through else joint.near
        face = joint.far if joint.corner else joint.near
        if joint.at_start:
            wall = replace(wall, frame_start=frame, face_start=face)
        else:
            wall = replace(wall, frame_end=frame, face_end=face)
    return replace(wall, joints=tuple(joints))


def _joint(wall: PlacedWall, other: PlacedWall, *, at_start: bool) -> Joint | None:
    if other.name == wall.name or wall.parallel_to(other):
        return None
    if not _touches(wall, other, MEET, at_start=at_start):
        return None
    center, slant = _crossing(wall, other)
    reach = other.half / abs(slant)
    sign = 1.0 if at_start else -1.0
    along_other = other.along(*wall.at(center))
    near_start = along_other < wall.half / abs(slant) + MEET
    near_end = along_other > other.length - wall.half / abs(slant) - MEET
    corner = (near_start and _touches(other, wall, MEET, at_start=True)) or (
        near_end and _touches(other, wall, MEET, at_start=False)
    )
    return Joint(
        wall=wall.name,
        at_start=at_start,
        meets=other.name,
        corner=corner,
        near=center + sign * reach,
        far=center - sign * reach,
        center=center,
        along_other=along_other,
    )


def _touches(wall: PlacedWall, other: PlacedWall, play: float, *, at_start: bool) -> bool:
    """Tell whether an end of `wall` lies in or on the framing of `other`, give or take `play`."""
    x, y = wall.at(0.0 if at_start else wall.length)
    along = other.along(x, y)
    margin = wall.half + play
    return abs(other.left_of(x, y)) <= other.half + play and -margin <= along <= other.length + margin


def _crossing(wall: PlacedWall, other: PlacedWall) -> tuple[float, float]:
    """Return where `other`'s centre line crosses `wall`'s, and the sine of the angle between them."""
    slant = wall.ux * other.uy - wall.uy * other.ux
    dx, dy = other.x - wall.x, other.y - wall.y
    return (dx * other.uy - dy * other.ux) / slant, slant


def _end_findings(wall: PlacedWall, walls: tuple[PlacedWall, ...]) -> list[Finding]:
    findings = []
    for at_start in (True, False):
        if any(j.at_start == at_start for j in wall.joints):
            continue
        others = [o for o in walls if o.name != wall.name and not wall.parallel_to(o)]
        close = [o for o in others if _touches(wall, o, NEARLY, at_start=at_start)]
        if not close:
            continue
        x, y = wall.at(0.0 if at_start else wall.length)
        nearest = min(close, key=lambda o: abs(o.left_of(x, y)) - o.half)
        gap = abs(nearest.left_of(x, y)) - nearest.half
        findings.append(_gap_finding(wall, nearest, gap, at_start=at_start))
    return findings


def _gap_finding(wall: PlacedWall, other: PlacedWall, gap: float, *, at_start: bool) -> Finding:
    end = "start" if at_start else "end"
    point = wall.typed.start if at_start else wall.typed.end
    how = f"{from_inches(gap)} away from" if gap > 0 else "beside, but past the end of,"
    return Finding(
        rule="house.walls-meet",
        about=f"wall '{wall.name}'",
        found=f"its {end} at {point} stands {how} wall '{other.name}' and meets nothing.",
        expected="walls that enclose a room meet each other.",
        do=f"Bring the {end} of '{wall.name}' to the framing of '{other.name}', or move it clear by a foot.",
        where=wall.typed.where,
    )


def _crossings(walls: tuple[PlacedWall, ...]) -> list[Finding]:
    findings = []
    for n, wall in enumerate(walls):
        for other in walls[n + 1 :]:
            if _cross(wall, other):
                findings.append(
                    _clash(wall, other, "cross each other in mid-run", "Write the shorter one as two walls.")
                )
            elif _overlap(wall, other):
                findings.append(
                    _clash(wall, other, "stand in each other's place", "Move one, or write them as one wall.")
                )
    return findings


def _clash(wall: PlacedWall, other: PlacedWall, how: str, do: str) -> Finding:
    return Finding(
        rule="house.walls-clash",
        about=f"wall '{other.name}'",
        found=f"it and wall '{wall.name}' {how}.",
        expected="walls meet at their ends, or end against the side of another.",
        do=do,
        where=other.typed.where,
    )


def _cross(wall: PlacedWall, other: PlacedWall) -> bool:
    if wall.parallel_to(other):
        return False
    first, slant = _crossing(wall, other)
    second = other.along(*wall.at(first))
    clear_first, clear_second = other.half / abs(slant) + MEET, wall.half / abs(slant) + MEET
    return (
        clear_first < first < wall.length - clear_first
        and clear_second < second < other.length - clear_second
    )


def _overlap(wall: PlacedWall, other: PlacedWall) -> bool:
    if not wall.parallel_to(other):
        return False
    if abs(other.left_of(*wall.at(0.0))) >= wall.half + other.half - MEET:
        return False
    ends = sorted((other.along(*wall.at(0.0)), other.along(*wall.at(wall.length))))
    return min(ends[1], other.length) - max(ends[0], 0.0) > MEET


def _unknown_kind(typed: TypedWall, kinds: list[str]) -> Finding:
    return Finding(
        rule="house.wall-kind",
        about=f"wall '{typed.name}'",
        found=f"its kind '{typed.kind}' is not described.",
        expected=f"one of: {', '.join(kinds)}." if kinds else "a wall kind.",
        do="Write the kind under the wall kinds, or change the word.",
        where=typed.where,
    )


def _too_short(typed: TypedWall, kind: WallKind) -> Finding:
    return Finding(
        rule="house.wall-length",
        about=f"wall '{typed.name}'",
        found=f"it runs from {typed.start} to {typed.end}, shorter than it is thick.",
        expected=f"a run longer than {kind.depth}.",
        do="Check both ends.",
        severity=Severity.PROBLEM,
        where=typed.where,
    )


def plan_point(x: float, y: float) -> Point:
    """Return the plan point nearest to (x, y) inches."""
    return Point(x=from_inches(x), y=from_inches(y))
