"""How high a room's face goes: to the ceiling, or to the top of its wall where that is lower."""

from itertools import pairwise

from setday.house.ceilings import Overhead
from setday.house.faces import PLAY, Face, Knot, tidy
from setday.house.model import Span, Wall
from setday.house.placing import PlacedWall
from setday.house.wall_top import Top, height_at

__all__ = ["outline_of", "profile"]

_INSIDE = 0.01
"""How far inside the room the ceiling is looked for [in]; our own."""
_LEVEL = 0.5
"""A wall top this little below the ceiling is at the ceiling [in]; our own."""


def profile(
    face: Face, overhead: Overhead, spans: tuple[Span, ...], tops: dict[str, Top]
) -> tuple[tuple[float, float, Knot, Knot | None], ...]:
    """Return stretch by stretch along a face: from, to, and both heights of ceiling and of wall top [in].

    Parameters
    ----------
    face : Face
    overhead : Overhead
    spans : tuple of Span
    tops : dict
        The tops of the walls by name.
    """
    cuts = sorted(
        {0.0, face.length, *_ridge_cuts(face, overhead), *_drop_cuts(face, overhead), *_top_cuts(spans, tops)}
    )
    return tuple(
        (low, high, _ceiling_line(face, overhead, low, high), _wall_line(spans, tops, low, high))
        for low, high in pairwise(cuts)
        if high - low >= PLAY
    )


def outline_of(
    face: Face, overhead: Overhead, spans: tuple[Span, ...], walls: tuple[tuple[PlacedWall, Wall], ...]
) -> tuple[list[Knot], bool]:
    """Return the outline of a face seen from inside the room, and whether its top is all the ceiling's."""
    roof: list[Knot] = []
    meets = True
    for low, high, ceiling, wall in profile(face, overhead, spans, {w.name: w.top for _, w in walls}):
        pieces, ceiling_only = _lower_of(low, high, ceiling, wall)
        meets = meets and ceiling_only
        roof += pieces
    ring = [(0.0, 0.0), (face.length, 0.0), *reversed(roof)]
    return tidy([(x, max(y, 0.0)) for x, y in ring]), meets


def _ridge_cuts(face: Face, overhead: Overhead) -> list[float]:
    if len(overhead.planes) < 2:
        return []
    first, second = overhead.planes[0], overhead.planes[1]
    a = first.height(*face.left) - second.height(*face.left)
    b = first.height(*face.right) - second.height(*face.right)
    return [face.length * a / (a - b)] if a * b < 0 else []


def _drop_cuts(face: Face, overhead: Overhead) -> list[float]:
    cuts = []
    ux, uy = face.direction
    for drop in overhead.drops:
        for x, y in list(drop.region.exterior.coords):
            along = (x - face.left[0]) * ux + (y - face.left[1]) * uy
            if 0 < along < face.length:
                cuts.append(along)
    return cuts


def _top_cuts(spans: tuple[Span, ...], tops: dict[str, Top]) -> list[float]:
    cuts = []
    for span in spans:
        cuts += [span.x.inches, (span.x + span.width).inches]
        sign = 1 if span.forward else -1
        if span.side in ("left", "right"):
            cuts += [span.x.inches + sign * (a - span.along).inches for a, _ in tops[span.wall]]
    return [c for c in cuts if any(s.x.inches <= c <= (s.x + s.width).inches for s in spans)]


def _ceiling_line(face: Face, overhead: Overhead, low: float, high: float) -> tuple[float, float]:
    middle = face.at((low + high) / 2, _INSIDE)
    drop = overhead.drop_at(*middle)
    if drop is not None:
        return drop.bottom, drop.bottom
    plane = overhead.plane_at(*middle)
    return plane.height(*face.at(low)), plane.height(*face.at(high))


def _wall_line(
    spans: tuple[Span, ...], tops: dict[str, Top], low: float, high: float
) -> tuple[float, float] | None:
    middle = (low + high) / 2
    span = next((s for s in spans if s.x.inches <= middle <= (s.x + s.width).inches), None)
    if span is None:
        return None
    top = tops[span.wall]
    if span.side in ("start", "end"):
        level = height_at(top, span.along.inches)
        return level, level
    sign = 1 if span.forward else -1
    start = span.along.inches + sign * (low - span.x.inches)
    return height_at(top, start), height_at(top, start + sign * (high - low))


def _lower_of(
    low: float, high: float, ceiling: tuple[float, float], wall: tuple[float, float] | None
) -> tuple[list[Knot], bool]:
    """Return the lower of two straight lines over [low, high], and whether it is the ceiling's all along."""
    if wall is None or (wall[0] >= ceiling[0] - _LEVEL and wall[1] >= ceiling[1] - _LEVEL):
        return [(low, ceiling[0]), (high, ceiling[1])], True
    a, b = wall[0] - ceiling[0], wall[1] - ceiling[1]
    ends = [(low, min(wall[0], ceiling[0])), (high, min(wall[1], ceiling[1]))]
    if a * b >= 0:
        return ends, False
    share = a / (a - b)
    at = low + share * (high - low)
    return [ends[0], (at, wall[0] + share * (wall[1] - wall[0])), ends[1]], False
