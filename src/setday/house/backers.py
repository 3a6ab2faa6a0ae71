"""Backing studs: they show beyond a wall that ends against this one, so that its boards can be fastened."""

from dataclasses import dataclass

from setday.house.lumber import THICK
from setday.house.model import FramingMember, MemberKind
from setday.house.placing import PlacedWall
from setday.house.uprights import Frame, clash, has_room, upright

__all__ = ["Place", "backer_at", "corner_places", "partition_places"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a backer is wanted: beyond the face of the wall it backs, on the side `side` (1 or -1) of it."""

    kind: MemberKind
    face: float
    side: int

    def shown(self, member: FramingMember) -> float:
        """Return how much of a member's edge shows beyond the face of the wall to be backed [in]."""
        outer = member.right if self.side > 0 else member.left
        return min(THICK, self.side * (outer.inches - self.face))


def corner_places(frame: Frame) -> list[Place]:
    """Return where a stud is to show beyond the wall that butts against this one at a corner."""
    places = []
    for joint in frame.wall.joints:
        through = abs((frame.wall.frame_start if joint.at_start else frame.wall.frame_end) - joint.far) < 1e-6
        if joint.corner and through:
            out = abs(joint.near - joint.far)
            face, side = (out, 1) if joint.at_start else (frame.run - out, -1)
            places.append(Place(MemberKind.CORNER, face, side))
    return places


def partition_places(frame: Frame, walls: dict[str, PlacedWall]) -> list[Place]:
    """Return the two sides of every partition that ends against this wall."""
    places = []
    for other in walls.values():
        for joint in other.joints:
            if joint.meets != frame.wall.name or joint.corner:
                continue
            slant = abs(other.ux * frame.wall.uy - other.uy * frame.wall.ux)
            center = joint.along_other - frame.wall.frame_start
            places += [
                Place(MemberKind.PARTITION, center + side * other.half / slant, side) for side in (-1, 1)
            ]
    return places


def backer_at(place: Place, standing: list[FramingMember], frame: Frame) -> FramingMember | None:
    """Return the backer at a place, moved against what stands in its way; None where that backs it."""
    backer = upright(place.kind, place.face + place.side * (frame.habits.backing_shown - THICK / 2), frame)
    near = [m for m in standing if clash(m, backer)]
    if any(place.shown(m) >= frame.habits.backing_least for m in near):
        return None
    if near:
        outer = max(m.right for m in near) if place.side > 0 else min(m.left for m in near)
        backer = upright(place.kind, outer.inches + place.side * THICK / 2, frame)
    return backer if has_room(backer, standing, frame) else None
