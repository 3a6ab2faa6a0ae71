"""Whether the pieces cover each surface exactly: nothing bare, nothing twice, nothing over an opening.

Surfaces with level and plumb edges only are checked exactly, in whole sixty-fourths.  On slopes a cut
cannot always stand on the grid; there a sliver thinner than 1/32 in passes.
"""

from collections.abc import Iterable
from itertools import pairwise
from typing import TYPE_CHECKING

from setday.boards.faults import at, fault
from setday.boards.laidout import LaidOut, Ring, ring_of, twice_area
from setday.boards.outcome import Piece
from setday.boards.problem import Surface, Void
from setday.findings import Finding

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

__all__ = ["cover_findings", "is_square_cut", "wanted_area"]

_SLIVER = 1.0
"""Half the width of a sliver that passes on slopes [1/64 in]."""

Interval = tuple[int, int]


def cover_findings(laid: LaidOut) -> Iterable[Finding]:
    """Check every surface of the problem."""
    for surface in laid.problem.surfaces:
        pieces = laid.pieces_on.get(surface.id, ())
        misshapen = [f for piece in pieces for f in _shape_findings(surface, piece)]
        yield from misshapen
        if misshapen:
            continue
        if is_square_cut(surface.outline):
            yield from _exact(surface, pieces)
        else:
            yield from _sloped(surface, pieces)


def is_square_cut(ring: Ring) -> bool:
    """Return whether every edge of a ring is level or plumb."""
    return all(x0 == x1 or y0 == y1 for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True))


def wanted_area(surface: Surface) -> int:
    """Return the area of a square-cut surface without its openings [1/4096 in2]."""
    places = {x for x, _ in surface.outline} | {x for v in surface.voids for x in (v.x, v.x + v.w)}
    return sum(
        (right - left) * (high - low)
        for left, right in _pairs(sorted(places))
        for low, high in _less(_stack(surface.outline, left, right), _void_stack(surface.voids, left, right))
    )


def _shape_findings(surface: Surface, piece: Piece) -> Iterable[Finding]:
    if piece.w <= 0 or piece.h <= 0:
        yield fault("piece-shape", surface.label, f"a piece at {at(piece.x, piece.y)} has no size.")
        return
    ring = ring_of(piece)
    if len(ring) < 3 or twice_area(ring) <= 0:
        yield fault("piece-shape", surface.label, f"the outline at {at(piece.x, piece.y)} is not a shape.")
        return
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    if (min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)) != (piece.x, piece.y, piece.w, piece.h):
        yield fault(
            "piece-box",
            surface.label,
            f"the piece at {at(piece.x, piece.y)} does not fill the box it states.",
        )
    if is_square_cut(surface.outline) and not is_square_cut(ring):
        yield fault("piece-shape", surface.label, f"the piece at {at(piece.x, piece.y)} has a slanted cut.")


def _exact(surface: Surface, pieces: tuple[Piece, ...]) -> Iterable[Finding]:
    rings = [ring_of(piece) for piece in pieces]
    holes = [_holes(surface, piece) for piece in pieces]
    places = {x for ring in (surface.outline, *rings) for x, _ in ring}
    places |= {x for v in surface.voids for x in (v.x, v.x + v.w)}
    told: set[str] = set()
    for left, right in _pairs(sorted(places)):
        wanted = _less(_stack(surface.outline, left, right), _void_stack(surface.voids, left, right))
        hung = [
            interval
            for ring, inside in zip(rings, holes, strict=True)
            for interval in _less(_stack(ring, left, right), _void_stack(inside, left, right))
        ]
        for rule, y in _differences(wanted, hung):
            if rule not in told:
                told.add(rule)
                yield _cover_fault(rule, surface, left, y)


def _holes(surface: Surface, piece: Piece) -> tuple[Void, ...]:
    """Return the openings cut out of the middle of a piece: they touch no side of its box."""
    return tuple(
        v
        for v in surface.voids
        if piece.x < v.x and v.x + v.w < piece.x + piece.w and piece.y < v.y and v.y + v.h < piece.y + piece.h
    )


def _pairs(values: list[int]) -> Iterable[Interval]:
    return pairwise(values)


def _stack(ring: Ring, left: int, right: int) -> list[Interval]:
    """Return the heights a square-cut ring covers between two places nothing changes between."""
    levels = sorted(
        y0
        for (x0, y0), (x1, _) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if min(x0, x1) <= left and right <= max(x0, x1)
    )
    return list(zip(levels[::2], levels[1::2], strict=False))


def _void_stack(voids: tuple[Void, ...], left: int, right: int) -> list[Interval]:
    return [(v.y, v.y + v.h) for v in voids if v.x <= left and right <= v.x + v.w]


def _less(intervals: list[Interval], taken: list[Interval]) -> list[Interval]:
    for low, high in taken:
        intervals = [
            part for a, b in intervals for part in ((a, min(b, low)), (max(a, high), b)) if part[0] < part[1]
        ]
    return intervals


def _differences(wanted: list[Interval], hung: list[Interval]) -> Iterable[tuple[str, int]]:
    levels = sorted({y for interval in (*wanted, *hung) for y in interval})
    for low, high in _pairs(levels):
        asked = any(a <= low and high <= b for a, b in wanted)
        times = sum(a <= low and high <= b for a, b in hung)
        if asked and not times:
            yield "uncovered", low
        elif times > 1:
            yield "overlap", low
        elif times and not asked:
            yield "outside", low


_WORDS = {
    "uncovered": ("bare from", "every part of the surface covered."),
    "overlap": ("two pieces cover", "every part of the surface covered once."),
    "outside": ("a piece lies over an opening or beyond the surface at", "pieces inside the surface only."),
}


def _cover_fault(rule: str, surface: Surface, x: float, y: float) -> Finding:
    found, expected = _WORDS[rule]
    return fault(rule, surface.label, f"{found} {at(x, y)}.", expected)


def _sloped(surface: Surface, pieces: tuple[Piece, ...]) -> Iterable[Finding]:
    from shapely import Polygon, box, union_all

    wanted = Polygon(surface.outline).difference(
        union_all([box(v.x, v.y, v.x + v.w, v.y + v.h) for v in surface.voids])
    )
    shapes = []
    for piece in pieces:
        shape = Polygon(ring_of(piece))
        if not shape.is_valid:
            yield fault(
                "piece-shape", surface.label, f"the outline at {at(piece.x, piece.y)} crosses itself."
            )
            return
        holes = [box(v.x, v.y, v.x + v.w, v.y + v.h) for v in _holes(surface, piece)]
        shapes.append(shape.difference(union_all(holes)))
    yield from _area_fault("uncovered", surface, wanted.difference(union_all(shapes)))
    yield from _area_fault("outside", surface, union_all(shapes).difference(wanted))
    for n, shape in enumerate(shapes):
        for other in shapes[n + 1 :]:
            yield from _area_fault("overlap", surface, shape.intersection(other))


def _area_fault(rule: str, surface: Surface, area: "BaseGeometry") -> Iterable[Finding]:
    thick = area.buffer(-_SLIVER)
    if not thick.is_empty:
        spot = thick.representative_point()
        yield _cover_fault(rule, surface, spot.x, spot.y)
