"""The framing of a wall, derived from its openings, its corners and its stud layout.

Studs stand on centre from one end of the framing, so that a 48 in board edge falls on a stud; doubled at
openings (king and jack), three at corners, a pair where a partition ends against the wall (common
practice, no source; what was really built overrides it).
"""

from itertools import pairwise

from setday.findings import Finding
from setday.house.around_openings import around_opening
from setday.house.as_built import as_built
from setday.house.backers import backer_at, corner_places, partition_places
from setday.house.description import TypedOpening
from setday.house.lumber import THICK
from setday.house.model import FramingMember, MemberKind, Opening
from setday.house.placing import PlacedWall, from_inches
from setday.house.rulebook import FramingHabits, usual_habits
from setday.house.uprights import Frame, clash, has_room, in_opening, layout_centers, level, upright
from setday.house.wall_top import wall_top

__all__ = ["frame_wall"]


def frame_wall(
    wall: PlacedWall,
    openings: tuple[Opening, ...],
    typed: dict[str, TypedOpening],
    walls: dict[str, PlacedWall],
    *,
    habits: FramingHabits | None = None,
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
    habits : FramingHabits or None
        Header depths and backing; None takes the usual ones.
    """
    frame = Frame(
        wall=wall, openings=openings, typed=typed, top=wall_top(wall), habits=habits or usual_habits()
    )
    standing = [m for m in _ends(frame) if not in_opening(m, frame)]
    around = [m for opening in openings for m in around_opening(opening, frame)]
    for kind in (MemberKind.JACK, MemberKind.KING):
        for member in around:
            if member.kind is kind and has_room(member, standing, frame):
                standing.append(member)
    for place in corner_places(frame) + partition_places(frame, walls):
        backer = backer_at(place, standing, frame)
        if backer is not None and not in_opening(backer, frame):
            standing.append(backer)
    standing += _layout_studs(frame, standing)
    lying = [m for m in around if m.kind not in (MemberKind.JACK, MemberKind.KING)]
    members, findings = as_built([*standing, *lying], frame)
    plates = _plates(frame)
    in_order = sorted([*plates, *members], key=lambda m: (m.left, m.bottom, m.kind.value))
    return tuple(in_order), tuple(findings)


def _ends(frame: Frame) -> list[FramingMember]:
    return [upright(MemberKind.END_STUD, at, frame) for at in (THICK / 2, frame.run - THICK / 2)]


def _layout_studs(frame: Frame, standing: list[FramingMember]) -> list[FramingMember]:
    studs: list[FramingMember] = []
    for at in layout_centers(frame.wall):
        stud = upright(MemberKind.STUD, at, frame)
        if not in_opening(stud, frame) and not any(clash(stud, m) for m in standing + studs):
            studs.append(stud)
    return studs


def _plates(frame: Frame) -> list[FramingMember]:
    plates = [
        level(MemberKind.BOTTOM_PLATE, low, high, n * THICK, (n + 1) * THICK)
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


def _between_doors(frame: Frame) -> list[tuple[float, float]]:
    stretches, low = [], 0.0
    for opening in frame.openings:
        if opening.sill.inches < frame.base:
            stretches.append((low, opening.along.inches))
            low = (opening.along + opening.width).inches
    stretches.append((low, frame.run))
    return [(a, b) for a, b in stretches if b > a]
