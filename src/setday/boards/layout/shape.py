"""The shape of a surface, slab by slab.

A surface is looked at along its rows: ``u`` runs along a row, ``v`` across the rows.  Between two
neighbouring places where anything changes (a corner, the side of an opening) the covered part of
the surface is a stack of trapezoids; such a stretch is a slab.  All values are exact: whole
sixty-fourths of an inch, or fractions of them on slopes.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from setday.boards.problem import Rows, Surface

__all__ = ["Number", "Slab", "Span", "band", "box", "connected", "contact", "net_area", "seam", "slabs"]

Number = int | Fraction


@dataclass(frozen=True, slots=True)
class Span:
    """A trapezoid of a slab: its lower and upper edge at the slab's two ends."""

    low_start: Number
    low_end: Number
    high_start: Number
    high_end: Number


@dataclass(frozen=True, slots=True)
class Slab:
    """A stretch from `start` to `end` along u, with its trapezoids from low to high."""

    start: Number
    end: Number
    spans: tuple[Span, ...]

    def at(self, u: Number) -> list[tuple[Number, Number]]:
        """Return what is covered at `u`, as (low, high) pairs."""
        return [
            (_on(self, u, s.low_start, s.low_end), _on(self, u, s.high_start, s.high_end)) for s in self.spans
        ]


def _on(slab: Slab, u: Number, first: Number, last: Number) -> Number:
    if first == last:
        return first
    return first + Fraction(last - first) * (u - slab.start) / (slab.end - slab.start)


@dataclass(frozen=True, slots=True)
class _Edge:
    u0: int
    v0: int
    u1: int
    v1: int

    def at(self, u: Number) -> Number:
        if self.v0 == self.v1:
            return self.v0
        return self.v0 + Fraction(self.v1 - self.v0) * (u - self.u0) / (self.u1 - self.u0)

    def meets(self, v: Number) -> Number | None:
        if not min(self.v0, self.v1) < v < max(self.v0, self.v1):
            return None
        return self.u0 + Fraction((v - self.v0) * (self.u1 - self.u0)) / (self.v1 - self.v0)


def slabs(surface: Surface, *, rows: Rows) -> tuple[Slab, ...]:
    """Return the slabs of `surface`, left to right along its rows."""
    turn = rows is Rows.ACROSS
    ring = [(v, u) if turn else (u, v) for u, v in surface.outline]
    voids = [(w.y, w.x, w.h, w.w) if turn else (w.x, w.y, w.w, w.h) for w in surface.voids]
    edges = [
        _Edge(*min(a, b), *max(a, b)) for a, b in zip(ring, ring[1:] + ring[:1], strict=True) if a[0] != b[0]
    ]
    cuts: set[Number] = {u for u, _ in ring}
    for u, v, w, h in voids:
        cuts |= {u, u + w}
        cuts |= {m for e in edges for level in (v, v + h) if (m := e.meets(level)) is not None}
    low, high = min(u for u, _ in ring), max(u for u, _ in ring)
    places = sorted(c for c in cuts if low <= c <= high)
    return tuple(_slab(a, b, edges=edges, voids=voids) for a, b in pairwise(places))


def _slab(start: Number, end: Number, *, edges: list[_Edge], voids: list[tuple[int, int, int, int]]) -> Slab:
    middle = Fraction(start + end) / 2
    crossing = sorted((e for e in edges if e.u0 < middle < e.u1), key=lambda e: e.at(middle))
    spans = [
        Span(a.at(start), a.at(end), b.at(start), b.at(end))
        for a, b in zip(crossing[::2], crossing[1::2], strict=True)
    ]
    for u, v, w, h in voids:
        if u <= start and end <= u + w:
            spans = [part for s in spans for part in _without(s, v, v + h)]
    return Slab(start, end, tuple(spans))


def _without(span: Span, low: int, high: int) -> Iterable[Span]:
    below = _clip(span, None, low)
    above = _clip(span, high, None)
    return [s for s in (below, above) if s is not None]


def _clip(span: Span, low: int | None, high: int | None) -> Span | None:
    ends = [span.low_start, span.low_end, span.high_start, span.high_end]
    if low is not None:
        ends = [max(e, low) for e in ends]
    if high is not None:
        ends = [min(e, high) for e in ends]
    clipped = Span(*ends)
    empty = clipped.low_start >= clipped.high_start and clipped.low_end >= clipped.high_end
    return None if empty else clipped


def band(whole: tuple[Slab, ...], low: int, high: int) -> tuple[Slab, ...]:
    """Return the slabs of the row between the levels `low` and `high`."""
    out = []
    for slab in whole:
        for part in _split(slab, (low, high)):
            spans = [c for s in part.spans if (c := _clip(s, low, high)) is not None]
            out.append(Slab(part.start, part.end, tuple(spans)))
    return tuple(out)


def _split(slab: Slab, levels: tuple[int, int]) -> list[Slab]:
    cuts: set[Number] = set()
    for s in slab.spans:
        for first, last in ((s.low_start, s.low_end), (s.high_start, s.high_end)):
            for level in levels:
                if min(first, last) < level < max(first, last):
                    cuts.add(slab.start + Fraction(level - first) * (slab.end - slab.start) / (last - first))
    if not cuts:
        return [slab]
    places = [slab.start, *sorted(cuts), slab.end]
    return [_part(slab, a, b) for a, b in pairwise(places)]


def _part(slab: Slab, start: Number, end: Number) -> Slab:
    pairs = zip(slab.at(start), slab.at(end), strict=True)
    return Slab(start, end, tuple(Span(a[0], b[0], a[1], b[1]) for a, b in pairs))


def contact(row: tuple[Slab, ...], u: Number) -> list[tuple[Number, Number]]:
    """Return where what lies left of `u` touches what lies right of it, as (low, high) pairs."""
    left = [s for s in row if s.start < u <= s.end]
    right = [s for s in row if s.start <= u < s.end]
    if not left or not right:
        return []
    if left[0] is right[0]:
        return [(a, b) for a, b in left[0].at(u) if a < b]
    both = [(max(a, c), min(b, d)) for a, b in left[0].at(u) for c, d in right[0].at(u)]
    return [(a, b) for a, b in both if a < b]


def _within(row: tuple[Slab, ...], start: Number, end: Number) -> list[Slab]:
    out = []
    for slab in row:
        a, b = max(slab.start, start), min(slab.end, end)
        if a < b:
            out.append(slab if (a, b) == (slab.start, slab.end) else _part(slab, a, b))
    return out


def box(row: tuple[Slab, ...], start: Number, end: Number) -> tuple[int, int]:
    """Return the lowest and the highest level of what lies between `start` and `end`, rounded outward."""
    spans = [s for slab in _within(row, start, end) for s in slab.spans]
    low = min(min(s.low_start, s.low_end) for s in spans)
    high = max(max(s.high_start, s.high_end) for s in spans)
    return floor(low), ceil(high)


def connected(row: tuple[Slab, ...], start: Number, end: Number) -> bool:
    """Return whether what lies between `start` and `end` hangs together as one piece."""
    groups: list[set[tuple[int, int]]] = []
    parts = _within(row, start, end)
    for i, slab in enumerate(parts):
        for j in range(len(slab.spans)):
            mine = {(i, j)}
            touching = (
                {(i - 1, k) for k in range(len(parts[i - 1].spans)) if _touch(parts[i - 1], k, slab, j)}
                if i
                else set()
            )
            joined = [g for g in groups if g & touching]
            groups = [g for g in groups if not g & touching]
            groups.append(mine.union(*joined) if joined else mine)
    return len(groups) == 1


def _touch(left: Slab, k: int, right: Slab, j: int) -> bool:
    a, b = left.spans[k], right.spans[j]
    return max(a.low_end, b.low_start) < min(a.high_end, b.high_start)


def seam(whole: tuple[Slab, ...], level: int, ends: tuple[Number, Number]) -> bool:
    """Return whether there is board on both sides of `level` somewhere between the two `ends`."""
    for slab in _within(whole, *ends):
        for s in slab.spans:
            if min(s.low_start, s.low_end) < level < max(s.high_start, s.high_end):
                return True
    return False


def net_area(surface: Surface) -> float:
    """Return what there is to cover [1/4096 in2]."""
    total: Number = 0
    for slab in slabs(surface, rows=Rows.ALONG):
        for s in slab.spans:
            ends = (s.high_start - s.low_start) + (s.high_end - s.low_end)
            total += Fraction(ends * (slab.end - slab.start)) / 2
    return float(total)
