"""The floor line of a room, walked on the plan: what a tape laid along the foot of the walls would measure.

Made from the room's outline and from the walls' openings, and not from its surfaces, so that a check that
walks it shares nothing with what proposes devices.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import hypot

from setday.house import House, Opening, OpeningKind, Room, Surface, Wall
from setday.measure import Length

__all__ = ["FloorLine", "Interval", "WallPart", "bare_of", "floor_lines", "opening_cuts"]

_ON_LINE = 0.1
"""What is this near the floor line lies on it [in]: the plan's grid is a sixty-fourth."""
_PLAY = 1 / 32

Knot = tuple[float, float]
Interval = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPart:
    """A stretch of floor line on one wall surface.

    Parameters
    ----------
    surface : str
        Id of the surface, "" where none is there.
    x_from, x_to : Length
        Along the surface.
    wall, side : str
    along_from, along_to : Length
        Along the wall's framing, at `x_from` and `x_to`.
    """

    surface: str
    x_from: Length
    x_to: Length
    wall: str
    side: str
    along_from: Length
    along_to: Length


@dataclass(frozen=True, kw_only=True)
class FloorLine:
    """One ring of a room's outline: places on it are distances from its first corner [in]."""

    room: str
    corners: tuple[Knot, ...]

    @cached_property
    def starts(self) -> tuple[float, ...]:
        """Where each edge begins [in]."""
        starts = [0.0]
        for a, b in pairwise((*self.corners, self.corners[0])):
            starts.append(starts[-1] + hypot(b[0] - a[0], b[1] - a[1]))
        return tuple(starts)

    @property
    def length(self) -> float:
        """Length all round [in]."""
        return self.starts[-1]

    @property
    def edges(self) -> Iterable[tuple[float, Knot, Knot]]:
        """Yield where each edge begins, and its two ends."""
        ring = (*self.corners, self.corners[0])
        return zip(self.starts, ring, ring[1:], strict=False)

    def at(self, s: float) -> Knot:
        """Return the plan point at a place along the line."""
        s %= self.length
        for start, a, b in self.edges:
            run = hypot(b[0] - a[0], b[1] - a[1])
            if s <= start + run:
                share = (s - start) / run if run else 0.0
                return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
        return self.corners[0]

    def nearest(self, point: Knot) -> tuple[float, float]:
        """Return how far a point is off the line, and the place nearest to it [in]."""
        found = []
        for start, a, b in self.edges:
            run = hypot(b[0] - a[0], b[1] - a[1])
            t = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / run
            t = min(max(t, 0.0), run)
            x, y = a[0] + (b[0] - a[0]) * t / run, a[1] + (b[1] - a[1]) * t / run
            found.append((hypot(point[0] - x, point[1] - y), start + t))
        return min(found)

    def on(self, ends: tuple[Knot, Knot]) -> list[Interval]:
        """Return what a straight stretch of plan covers of the line."""
        found = []
        for start, a, b in self.edges:
            run = hypot(b[0] - a[0], b[1] - a[1])
            ux, uy = (b[0] - a[0]) / run, (b[1] - a[1]) / run
            off = [abs((x - a[0]) * uy - (y - a[1]) * ux) for x, y in ends]
            places = sorted((x - a[0]) * ux + (y - a[1]) * uy for x, y in ends)
            low, high = max(places[0], 0.0), min(places[1], run)
            if max(off) <= _ON_LINE and high - low > _PLAY:
                found.append((start + low, start + high))
        return found

    def spaces(self, cuts: Sequence[Interval]) -> tuple[Interval, ...]:
        """Return what is left of the line between cuts.

        A space that runs past the first corner ends beyond the line's length; without cuts, the line is one
        space all round.
        """
        if not cuts:
            return ((0.0, self.length),)
        merged: list[Interval] = []
        for low, high in sorted(cuts):
            if merged and low <= merged[-1][1] + _PLAY:
                merged[-1] = (merged[-1][0], max(merged[-1][1], high))
            else:
                merged.append((low, high))
        after = [*merged[1:], (merged[0][0] + self.length, merged[0][1] + self.length)]
        gaps = [(one[1], other[0]) for one, other in zip(merged, after, strict=True)]
        return tuple(gap for gap in gaps if gap[1] - gap[0] > _PLAY)

    def within(self, s: float, space: Interval) -> float | None:
        """Return a place as counted in a space, None where it lies outside."""
        for turn in (s, s + self.length):
            if space[0] - _PLAY <= turn <= space[1] + _PLAY:
                return turn
        return None

    def parts(self, house: House, stretch: Interval) -> tuple[WallPart, ...]:
        """Return a stretch of the line surface by surface."""
        found = []
        for start, a, b in self.edges:
            run = hypot(b[0] - a[0], b[1] - a[1])
            for shift in (0.0, self.length):
                low, high = max(stretch[0], start + shift), min(stretch[1], start + shift + run)
                if high - low > _PLAY:
                    found += _on_surfaces(house, self.room, (self.at(low), self.at(high)))
        return tuple(found)


def bare_of(space: Interval, at: Iterable[float], *, reach: float) -> tuple[Interval, ...]:
    """Return the stretches of a space that are farther than `reach` from every place.

    Parameters
    ----------
    space : tuple of float
    at : iterable of float
        Places of receptacles, counted as the space is [in].
    reach : float
        [in].

    Examples
    --------
    >>> bare_of((0, 145), [72], reach=72)
    ((144, 145),)
    """
    left, bare = space[0], []
    for place in sorted(at):
        if place - reach > left + _PLAY:
            bare.append((left, min(place - reach, space[1])))
        left = max(left, place + reach)
    if space[1] > left + _PLAY:
        bare.append((left, space[1]))
    return tuple(each for each in bare if each[1] - each[0] > _PLAY)


def floor_lines(room: Room) -> tuple[FloorLine, ...]:
    """Return the rings of a room's outline: around the room, and around walls that stand in it."""
    return tuple(
        FloorLine(room=room.name, corners=tuple((p.x.inches, p.y.inches) for p in ring))
        for ring in (room.outline, *room.holes)
    )


def opening_cuts(house: House, line: FloorLine) -> list[Interval]:
    """Return what doors and cased openings take of a floor line."""
    return [
        cut
        for wall in house.walls
        for opening in wall.openings
        if opening.kind is not OpeningKind.WINDOW
        for ends in _faces(wall, opening)
        for cut in line.on(ends)
    ]


def _faces(wall: Wall, opening: Opening) -> tuple[tuple[Knot, Knot], tuple[Knot, Knot]]:
    """Return an opening's two faces on the plan."""
    x, y, run = wall.start.x.inches, wall.start.y.inches, wall.length.inches
    ux, uy = (wall.end.x.inches - x) / run, (wall.end.y.inches - y) / run
    half = wall.kind.depth.inches / 2
    low, high = opening.along.inches, (opening.along + opening.width).inches
    left, right = (
        (
            (x + ux * low - uy * off, y + uy * low + ux * off),
            (x + ux * high - uy * off, y + uy * high + ux * off),
        )
        for off in (half, -half)
    )
    return left, right


def _on_surfaces(house: House, room: str, ends: tuple[Knot, Knot]) -> list[WallPart]:
    found = []
    for surface in house.surfaces:
        if surface.room != room or not surface.spans:
            continue
        (ox, oy), (ux, uy) = surface.plan_origin, surface.plan_x
        off = [abs((x - ox) * uy - (y - oy) * ux) for x, y in ends]
        low, high = sorted((x - ox) * ux + (y - oy) * uy for x, y in ends)
        if max(off) <= _ON_LINE:
            found += _on_spans(surface, low, high)
    return found


def _on_spans(surface: Surface, low: float, high: float) -> list[WallPart]:
    parts = []
    for span in surface.spans:
        left, right = max(low, span.x.inches), min(high, (span.x + span.width).inches)
        if right - left <= _PLAY:
            continue
        x_from, x_to = Length(round(left * 64)), Length(round(right * 64))
        ahead = (x_from - span.x, x_to - span.x)
        along = [span.along + off if span.forward else span.along - off for off in ahead]
        parts.append(
            WallPart(
                surface=surface.id,
                x_from=x_from,
                x_to=x_to,
                wall=span.wall,
                side=span.side,
                along_from=along[0],
                along_to=along[1],
            )
        )
    return parts
