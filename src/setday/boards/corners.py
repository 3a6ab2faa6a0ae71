"""The upright corners of rooms, found on the plan: inner ones and outer ones."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from setday.house import Surface

__all__ = ["WallCorner", "corners"]

_PLAY = 0.25
"""Ends of surfaces nearer than this meet in one corner [in] (our own)."""
_STRAIGHT = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class WallCorner:
    """A corner between two upright surfaces of one room.

    Parameters
    ----------
    left, right : Surface
        The surface left of the corner and the one right of it, as seen from inside the room.
    inside : bool
        True for an inner corner, False for an outer one.
    """

    left: Surface
    right: Surface
    inside: bool

    @property
    def height(self) -> int:
        """How high both surfaces reach in the corner together [1/64 in]."""
        (low, high), (other_low, other_high) = (
            _reach(self.left, at_left=False),
            _reach(self.right, at_left=True),
        )
        return max(0, min(high, other_high) - max(low, other_low))


def corners(surfaces: Iterable[Surface]) -> tuple[WallCorner, ...]:
    """Return the corners between upright surfaces of the same room; straight joints are none."""
    upright = tuple(surfaces)
    found = []
    for left in upright:
        for right in upright:
            if left.room != right.room or left.kind is not right.kind or left.id == right.id:
                continue
            (ax, ay), (bx, by) = _end(left, at_left=False), _end(right, at_left=True)
            turn = left.plan_x[0] * right.plan_x[1] - left.plan_x[1] * right.plan_x[0]
            if hypot(ax - bx, ay - by) <= _PLAY and abs(turn) > _STRAIGHT:
                found.append(WallCorner(left=left, right=right, inside=turn < 0))
    return tuple(found)


def _end(surface: Surface, *, at_left: bool) -> tuple[float, float]:
    x = min(x for x, _ in surface.outline) if at_left else surface.width
    (ox, oy), (ux, uy) = surface.plan_origin, surface.plan_x
    return ox + ux * x.inches, oy + uy * x.inches


def _reach(surface: Surface, *, at_left: bool) -> tuple[int, int]:
    x = min(x for x, _ in surface.outline) if at_left else surface.width
    heights = [y.sixtyfourths for place, y in surface.outline if place == x]
    return min(heights), max(heights)
