"""The framing of a wall, derived from its openings, its corners and its stud layout.

Studs stand on centre from one end of the framing, so that a 48 in board edge falls on a stud; doubled at
openings (king and jack), three at corners, a pair where a partition ends against the wall (common
practice, no source; what was really built overrides it).
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from setday.findings import Finding, Severity
from setday.house.description import FramingChange, TypedOpening
from setday.house.model import FramingMember, MemberKind, Opening
from setday.house.placing import PlacedWall, from_inches
from setday.measure import Length

__all__ = ["Top", "frame_wall", "height_at", "layout_centers", "wall_top"]

THICK = 1.5
"""Thickness of dimension lumber, plates and studs alike [in] (American Softwood Lumber Standard sizes)."""
BEARING_HEADER = 9.25
"""Depth of a header where none is written, bearing walls [in]; common practice, no source."""
LIGHT_HEADER = 1.5
"""A flat plate carries the opening in a wall that carries nothing [in]; common practice, no source."""
NAILING = 1.0
"""How much of a backing stud shows beyond the wall it backs [in]; common practice, no source."""
LEAST_NAILING = 0.5
"""A stud that shows this much beyond a wall backs it; no other is set [in] (common practice, no source)."""

Top = tuple[tuple[Length, Length], ...]


@dataclass(frozen=True, slots=True)
class _Frame:
    """What a wall's framing is figured from: run and openings in inches along the framing."""

    wall: PlacedWall
    openings: tuple[Opening, ...]
    typed: dict[str, TypedOpening]
    top: Top

    @property
    def run(self) -> float:
        return self.wall.frame_end - self.wall.frame_start

    @property
    def base(self) -> float:
        return THICK * self.wall.kind.plates_below

    def under_plates(self, along: float) -> float:
        return height_at(self.top, along) - THICK * self.wall.kind.plates_above


def wall_top(wall: PlacedWall) -> Top:
    """Return the height of a wall's top along its framing, from 0 to its run."""
    run = from_inches(wall.frame_end - wall.frame_start)
    if not wall.typed.gable:
        return ((Length(0), wall.typed.height), (run, wall.typed.height))
    shifted = [(a.inches - wall.frame_start, h) for a, h in wall.typed.gable]
    points = tuple((from_inches(a), h) for a, h in shifted)
    inner = tuple((a, h) for a, h in points if Length(0) < a < run)
    return (
        (Length(0), from_inches(height_at(points, 0.0))),
        *inner,
        (run, from_inches(height_at(points, run.inches))),
    )


def height_at(top: Top, along: float) -> float:
    """Return the height of a top line at a place along it [in]; level beyond its ends."""
    if along <= top[0][0].inches:
        return top[0][1].inches
    for (a, ha), (b, hb) in pairwise(top):
        if along <= b.inches:
            share = (along - a.inches) / (b.inches - a.inches) if b > a else 0.0
            return ha.inches + share * (hb.inches - ha.inches)
    return top[-1][1].inches


def frame_wall(
    wall: PlacedWall,
    openings: tuple[Opening, ...],
    typed: dict[str, TypedOpening],
    walls: dict[str, PlacedWall],
) -> tuple[tuple[FramingMember, ...], tuple[Finding, ...]]:
    """Derive the framing members of one wall, then apply what was really built.

    Parameters
    ----------
    wall : PlacedWall
    openings : tuple of Opening
        Of this wall, in order.
    typed : dict
        Openings as written, by name, for jacks and headers.
    walls : dict
        All placed walls by name.
    """
    frame = _Frame(wall=wall, openings=openings, typed=typed, top=wall_top(wall))
    standing = [m for m in _ends(frame) if not _in_opening(m, frame)]
    around = [m for opening in openings for m in _around(opening, frame)]
    for kind in (MemberKind.JACK, MemberKind.KING):
        for member in around:
            if member.kind is kind and _has_room(member, standing, frame):
                standing.append(member)
    for place in _corner_places(frame) + _partition_places(frame, walls):
        backer = _backer(place, standing, frame)
        if backer is not None and not _in_opening(backer, frame):
            standing.append(backer)
    standing += _layout_studs(frame, standing)
    lying = [m for m in around if m.kind not in (MemberKind.JACK, MemberKind.KING)]
    members, findings = _as_built([*standing, *lying], frame)
    plates = _plates(frame)
    in_order = sorted([*plates, *members], key=lambda m: (m.left, m.bottom, m.kind.value))
    return tuple(in_order), tuple(findings)


def _upright(kind: MemberKind, center: float, frame: _Frame, *, bottom: float | None = None) -> FramingMember:
    left, right = center - THICK / 2, center + THICK / 2
    return FramingMember(
        kind=kind,
        left=from_inches(left),
        right=from_inches(right),
        bottom=from_inches(frame.base if bottom is None else bottom),
        top_left=from_inches(frame.under_plates(left)),
        top_right=from_inches(frame.under_plates(right)),
    )


def _ends(frame: _Frame) -> list[FramingMember]:
    return [_upright(MemberKind.END_STUD, at, frame) for at in (THICK / 2, frame.run - THICK / 2)]


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a backer is wanted: beyond the face of the wall it backs, on the side `side` (1 or -1) of it."""

    kind: MemberKind
    face: float
    side: int

    def shown(self, member: FramingMember) -> float:
        """How much of a member's edge shows beyond the face of the wall to be backed [in]."""
        outer = member.right if self.side > 0 else member.left
        return min(THICK, self.side * (outer.inches - self.face))


def _corner_places(frame: _Frame) -> list[_Place]:
    """Return where a stud is to show beyond the wall that butts against this one at a corner."""
    places = []
    for joint in frame.wall.joints:
        through = abs((frame.wall.frame_start if joint.at_start else frame.wall.frame_end) - joint.far) < 1e-6
        if joint.corner and through:
            out = abs(joint.near - joint.far)
            face, side = (out, 1) if joint.at_start else (frame.run - out, -1)
            places.append(_Place(MemberKind.CORNER, face, side))
    return places


def _partition_places(frame: _Frame, walls: dict[str, PlacedWall]) -> list[_Place]:
    """Return the two sides of every partition that ends against this wall."""
    places = []
    for other in walls.values():
        for joint in other.joints:
            if joint.meets != frame.wall.name or joint.corner:
                continue
            slant = abs(other.ux * frame.wall.uy - other.uy * frame.wall.ux)
            center = joint.along_other - frame.wall.frame_start
            places += [
                _Place(MemberKind.PARTITION, center + side * other.half / slant, side) for side in (-1, 1)
            ]
    return places


def _backer(place: _Place, standing: list[FramingMember], frame: _Frame) -> FramingMember | None:
    """Return the backer at a place, moved against what stands in its way; None where that backs it."""
    backer = _upright(place.kind, place.face + place.side * (NAILING - THICK / 2), frame)
    near = [m for m in standing if _clash(m, backer)]
    if any(place.shown(m) >= LEAST_NAILING for m in near):
        return None
    if near:
        outer = max(m.right for m in near) if place.side > 0 else min(m.left for m in near)
        backer = _upright(place.kind, outer.inches + place.side * THICK / 2, frame)
    return backer if _has_room(backer, standing, frame) else None


def _has_room(member: FramingMember, standing: list[FramingMember], frame: _Frame) -> bool:
    inside = Length(0) <= member.left and member.right <= from_inches(frame.run)
    return inside and not _in_opening(member, frame) and not any(_clash(member, m) for m in standing)


def _in_opening(member: FramingMember, frame: _Frame) -> bool:
    return any(
        member.right > o.along and member.left < o.along + o.width and member.top_left > o.sill
        for o in frame.openings
    )


def _header_depth(opening: Opening, frame: _Frame) -> float:
    typed = frame.typed[opening.name]
    head = opening.head.inches
    middle = opening.along.inches + opening.width.inches / 2
    space = max(0.0, frame.under_plates(middle) - head)
    if typed.header_depth is not None:
        return min(typed.header_depth.inches, space)
    wanted = min(BEARING_HEADER if frame.wall.kind.bearing else LIGHT_HEADER, space)
    return space if space - wanted < THICK else wanted


def _around(opening: Opening, frame: _Frame) -> list[FramingMember]:
    jacks = frame.typed[opening.name].jacks
    left, right = opening.along.inches, (opening.along + opening.width).inches
    depth = _header_depth(opening, frame)
    members = []
    for side, edge in ((-1, left), (1, right)):
        members += [_jack(edge + side * THICK * (n + 0.5), opening, frame) for n in range(jacks)]
        members.append(_upright(MemberKind.KING, edge + side * THICK * (jacks + 0.5), frame))
    if depth > 0:
        reach = THICK * jacks
        head = opening.head.inches
        members.append(_level(MemberKind.HEADER, left - reach, right + reach, head, head + depth))
    if opening.sill.inches > frame.base:
        sill = opening.sill.inches
        members.append(_level(MemberKind.SILL, left, right, sill - THICK, sill))
    return members + _cripples(opening, frame, depth)


def _jack(center: float, opening: Opening, frame: _Frame) -> FramingMember:
    return replace(_upright(MemberKind.JACK, center, frame), top_left=opening.head, top_right=opening.head)


def _level(kind: MemberKind, left: float, right: float, bottom: float, top: float) -> FramingMember:
    return FramingMember(
        kind=kind,
        left=from_inches(left),
        right=from_inches(right),
        bottom=from_inches(bottom),
        top_left=from_inches(top),
        top_right=from_inches(top),
    )


def layout_centers(wall: PlacedWall) -> list[float]:
    """Return the centres of the stud layout along a wall's framing [in]."""
    run = wall.frame_end - wall.frame_start
    spacing = (wall.typed.spacing or wall.kind.spacing).inches
    offset = wall.typed.layout_offset.inches
    from_start = [offset + n * spacing for n in range(-1, int(run / spacing) + 2)]
    marks = [run - at for at in from_start] if wall.typed.layout_from_end else from_start
    return sorted(at for at in marks if THICK <= at <= run - THICK)


def _cripples(opening: Opening, frame: _Frame, depth: float) -> list[FramingMember]:
    left, right = opening.along.inches, (opening.along + opening.width).inches
    over, under = opening.head.inches + depth, opening.sill.inches - THICK
    cripples = []
    for at in layout_centers(frame.wall):
        if not left + THICK / 2 <= at <= right - THICK / 2:
            continue
        if frame.under_plates(at) - over >= THICK:
            cripples.append(_upright(MemberKind.CRIPPLE, at, frame, bottom=over))
        if under - frame.base > 0:
            top = from_inches(under)
            cripples.append(replace(_upright(MemberKind.CRIPPLE, at, frame), top_left=top, top_right=top))
    return cripples


def _layout_studs(frame: _Frame, standing: list[FramingMember]) -> list[FramingMember]:
    studs: list[FramingMember] = []
    for at in layout_centers(frame.wall):
        stud = _upright(MemberKind.STUD, at, frame)
        if not _in_opening(stud, frame) and not any(_clash(stud, m) for m in standing + studs):
            studs.append(stud)
    return studs


def _clash(a: FramingMember, b: FramingMember) -> bool:
    return a.left < b.right and b.left < a.right


def _plates(frame: _Frame) -> list[FramingMember]:
    plates = [
        _level(MemberKind.BOTTOM_PLATE, low, high, n * THICK, (n + 1) * THICK)
        for low, high in _between_doors(frame)
        for n in range(frame.wall.kind.plates_below)
    ]
    for (a, ha), (b, hb) in pairwise(frame.top):
        for n in range(frame.wall.kind.plates_above):
            down = from_inches(n * THICK)
            plates.append(
                FramingMember(
                    kind=MemberKind.TOP_PLATE,
                    left=a,
                    right=b,
                    bottom=ha - down - from_inches(THICK),
                    top_left=ha - down,
                    top_right=hb - down,
                )
            )
    return plates


def _between_doors(frame: _Frame) -> list[tuple[float, float]]:
    stretches, low = [], 0.0
    for opening in frame.openings:
        if opening.sill.inches < frame.base:
            stretches.append((low, opening.along.inches))
            low = (opening.along + opening.width).inches
    stretches.append((low, frame.run))
    return [(a, b) for a, b in stretches if b > a]


def _as_built(members: list[FramingMember], frame: _Frame) -> tuple[list[FramingMember], list[Finding]]:
    findings = []
    for change in frame.wall.typed.changes:
        at = change.at.inches
        if change.do == "add":
            kind = MemberKind(change.member) if change.member in set(MemberKind) else MemberKind.STUD
            members = [*members, replace(_upright(kind, at, frame), built=True)]
            continue
        index = _nearest(members, change.member, at)
        if index is None:
            findings.append(_nothing_there(change, frame))
            continue
        found = members[index]
        members = members[:index] + members[index + 1 :]
        if change.do == "move" and change.to is not None:
            members.append(_moved(found, change.to, frame))
    return members, findings + _overlaps(members, frame)


def _overlaps(members: list[FramingMember], frame: _Frame) -> list[Finding]:
    """Ask about members built where others stand."""
    upright = [m for m in members if m.kind not in (MemberKind.HEADER, MemberKind.SILL)]
    return [
        _overlap(built, other, frame)
        for n, built in enumerate(upright)
        for k, other in enumerate(upright)
        if built.built and (k < n or not other.built) and k != n and _in_each_other(built, other)
    ]


def _in_each_other(a: FramingMember, b: FramingMember) -> bool:
    low, high = max(a.bottom, b.bottom), min(max(a.top_left, a.top_right), max(b.top_left, b.top_right))
    return _clash(a, b) and low < high


def _overlap(built: FramingMember, other: FramingMember, frame: _Frame) -> Finding:
    by = min(built.right, other.right) - max(built.left, other.left)
    where = next((c.where for c in frame.wall.typed.changes if built.center in (c.at, c.to)), None)
    return Finding(
        rule="house.framing-overlap",
        about=f"wall '{frame.wall.name}'",
        found=f"as built, its {built.kind.value} at {built.center} reaches {by} into the "
        f"{other.kind.value} at {other.center}.",
        expected="members that stand side by side.",
        do=f"Measure again, or say where the {other.kind.value} really stands, or that it was removed.",
        severity=Severity.ASK,
        where=where if where and where.line else frame.wall.typed.where,
    )


def _moved(member: FramingMember, to: Length, frame: _Frame) -> FramingMember:
    shift = to - member.center
    moved = replace(member, left=member.left + shift, right=member.right + shift, built=True)
    if member.top_left == member.top_right:
        return moved
    return replace(
        moved,
        top_left=from_inches(frame.under_plates(moved.left.inches)),
        top_right=from_inches(frame.under_plates(moved.right.inches)),
    )


def _nearest(members: list[FramingMember], kind: str, at: float) -> int | None:
    near = [
        (abs(m.center.inches - at), n)
        for n, m in enumerate(members)
        if m.kind.value == kind and abs(m.center.inches - at) <= THICK
    ]
    return min(near)[1] if near else None


def _nothing_there(change: FramingChange, frame: _Frame) -> Finding:
    return Finding(
        rule="house.framing-change",
        about=f"wall '{frame.wall.name}'",
        found=f"there is no {change.member} at {change.at} from its start to {change.do}.",
        expected="the centre of a member that the layout gives, within 1-1/2 in.",
        do="Look at the wall's elevation for the members and their centres.",
        where=change.where if change.where.line else frame.wall.typed.where,
    )
