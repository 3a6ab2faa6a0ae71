"""The walls of a room as its floor line runs: surface after surface, broken where a person walks through."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from setday.house import House, OpeningKind, Surface, SurfaceKind

__all__ = ["Break", "Piece", "WallSpace", "doorways", "wall_spaces"]

_MEET = 0.1
_PLAY = 1 / 64
_WALKED = (OpeningKind.DOOR.value, OpeningKind.CASED.value)

Break = tuple[float, float]
"""A stretch of a surface that is no wall space: from, to [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of one surface that belongs to a wall space; `start` is where it begins along it [in]."""

    surface: Surface
    low: float
    high: float
    start: float

    @property
    def end(self) -> float:
        """Where it ends along the wall space [in]."""
        return self.start + self.high - self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSpace:
    """Wall unbroken along the floor line, corners included."""

    pieces: tuple[Piece, ...]

    @property
    def length(self) -> float:
        """Length along the floor line [in]."""
        return self.pieces[-1].end


def doorways(surface: Surface) -> list[Break]:
    """Return what doors and cased openings take of a surface."""
    return [(o.x.inches, (o.x + o.w).inches) for o in surface.openings if o.kind in _WALKED]


def wall_spaces(
    house: House, room: str, *, breaks: Mapping[str, Sequence[Break]] | None = None
) -> tuple[WallSpace, ...]:
    """Return the wall spaces of a room, however short.

    Parameters
    ----------
    house : House
    room : str
    breaks : mapping or None
        What else breaks the floor line, by surface id: fixed cabinets, counters, appliances.
    """
    breaks = breaks or {}
    spaces = []
    for ring in _rings(house, room):
        stretches = [
            (surface, stretch)
            for surface in ring
            for stretch in _between(surface, [*doorways(surface), *breaks.get(surface.id, ())])
        ]
        spaces += _joined(ring, stretches)
    return tuple(spaces)


def _rings(house: House, room: str) -> Iterator[list[Surface]]:
    """Yield runs of surfaces, each beginning where the one before ends."""
    run: list[Surface] = []
    for surface in house.surfaces:
        if surface.room != room or surface.kind is not SurfaceKind.WALL:
            continue
        if run and not _meet(_right(run[-1]), surface.plan_origin):
            yield run
            run = []
        run.append(surface)
    if run:
        yield run


def _right(surface: Surface) -> tuple[float, float]:
    width = surface.width.inches
    return (
        surface.plan_origin[0] + surface.plan_x[0] * width,
        surface.plan_origin[1] + surface.plan_x[1] * width,
    )


def _meet(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return hypot(a[0] - b[0], a[1] - b[1]) < _MEET


def _between(surface: Surface, taken: list[Break]) -> list[Break]:
    """Return what is left of a surface, from left to right."""
    left, at = [], 0.0
    for low, high in sorted(taken):
        if low > at + _PLAY:
            left.append((at, low))
        at = max(at, high)
    width = surface.width.inches
    if width > at + _PLAY:
        left.append((at, width))
    return left


def _joined(ring: list[Surface], stretches: list[tuple[Surface, Break]]) -> list[WallSpace]:
    """Put stretches that meet around a corner together; a closed ring is opened where it begins."""
    groups: list[list[tuple[Surface, Break]]] = []
    for surface, (low, high) in stretches:
        before = groups[-1][-1] if groups else None
        if before and low < _PLAY and _reaches_corner(before) and _next(ring, before[0]) is surface:
            groups[-1].append((surface, (low, high)))
        else:
            groups.append([(surface, (low, high))])
    closed = _meet(_right(ring[-1]), ring[0].plan_origin)
    if closed and len(groups) > 1 and _wraps(ring, groups):
        groups = [groups[-1] + groups[0], *groups[1:-1]]
    return [_space(group) for group in groups]


def _next(ring: list[Surface], surface: Surface) -> Surface:
    return ring[(ring.index(surface) + 1) % len(ring)]


def _reaches_corner(stretch: tuple[Surface, Break]) -> bool:
    return stretch[1][1] > stretch[0].width.inches - _PLAY


def _wraps(ring: list[Surface], groups: list[list[tuple[Surface, Break]]]) -> bool:
    last, first = groups[-1][-1], groups[0][0]
    return last[0] is ring[-1] and _reaches_corner(last) and first[0] is ring[0] and first[1][0] < _PLAY


def _space(group: list[tuple[Surface, Break]]) -> WallSpace:
    pieces, start = [], 0.0
    for surface, (low, high) in group:
        pieces.append(Piece(surface=surface, low=low, high=high, start=start))
        start += high - low
    return WallSpace(pieces=tuple(pieces))
