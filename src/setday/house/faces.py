"""The straight faces of a room on the plan."""

from dataclasses import dataclass
from math import hypot

from shapely import Polygon
from shapely.geometry.polygon import orient

__all__ = ["PLAY", "Face", "Knot", "room_faces", "tidy"]

PLAY = 1 / 32
"""What is nearer than this is the same place [in]; our own."""

Knot = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One straight face of a room on the plan: from `left` to `right` as seen from inside [in]."""

    left: Knot
    right: Knot
    facing: str

    @property
    def length(self) -> float:
        """Length of the face [in]."""
        return hypot(self.right[0] - self.left[0], self.right[1] - self.left[1])

    @property
    def direction(self) -> Knot:
        """Unit vector from left to right."""
        return (
            (self.right[0] - self.left[0]) / self.length,
            (self.right[1] - self.left[1]) / self.length,
        )

    def at(self, x: float, into_room: float = 0.0) -> Knot:
        """Return the plan point at `x` along the face and `into_room` off it [in]."""
        ux, uy = self.direction
        return (self.left[0] + ux * x + uy * into_room, self.left[1] + uy * x - ux * into_room)


def room_faces(space: Polygon) -> tuple[Face, ...]:
    """Return the faces of a room clockwise, from the west end of its northernmost north wall."""
    turned = orient(space, sign=-1.0)
    faces: list[Face] = []
    for ring in (turned.exterior, *turned.interiors):
        knots = tidy(list(ring.coords)[:-1])
        ring_faces = [
            Face(left=a, right=b, facing=_facing(a, b))
            for a, b in zip(knots, knots[1:] + knots[:1], strict=True)
        ]
        north = [n for n, face in enumerate(ring_faces) if face.facing == "north"]
        first = max(north, key=lambda n: (ring_faces[n].left[1], -ring_faces[n].left[0]), default=0)
        faces += ring_faces[first:] + ring_faces[:first]
    return tuple(faces)


def tidy(knots: list[Knot]) -> list[Knot]:
    """Return a ring of corners without doubled ones and without corners on a straight side."""
    ring = [
        (k[0], k[1])
        for n, k in enumerate(knots)
        if hypot(k[0] - knots[n - 1][0], k[1] - knots[n - 1][1]) > PLAY / 2
    ]
    kept = []
    for n, knot in enumerate(ring):
        before, after = ring[n - 1], ring[(n + 1) % len(ring)]
        turn = (knot[0] - before[0]) * (after[1] - knot[1]) - (knot[1] - before[1]) * (after[0] - knot[0])
        if abs(turn) > 1e-6 * max(1.0, hypot(after[0] - before[0], after[1] - before[1])):
            kept.append(knot)
    return kept


def _facing(left: Knot, right: Knot) -> str:
    ux, uy = right[0] - left[0], right[1] - left[1]
    out_x, out_y = -uy, ux
    if abs(out_y) >= abs(out_x):
        return "north" if out_y > 0 else "south"
    return "east" if out_x > 0 else "west"
