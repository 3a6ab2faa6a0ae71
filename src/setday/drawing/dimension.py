"""Dimension chains: a line, a slash at every stop, and the length written over every stretch."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from setday.drawing.ink import HAIR, LINE, Svg, group, line
from setday.drawing.lettering import NORMAL, SMALL, Box, Taken, letters, text_width
from setday.measure import Length

__all__ = ["Chain", "Stop", "chain", "distinct_stops"]

Stop = tuple[float, Length]
"""A place on a chain: on the drawing, and on the house."""

_LEVELS = 4
_SHIFTS = (0.0, 0.3, -0.3, 0.55, -0.55, 0.9, -0.9, 1.3, -1.3)
"""Tried places of a moved text, in widths of it."""
_STEP = SMALL * 1.25
_ABOVE = 7.0
_FIRST_LEVEL = 15.0
_BEYOND = 3.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A drawn chain: its lines, its words, and how far it reaches outward from its line [drawing units]."""

    lines: Svg
    words: Svg
    depth: float

    @property
    def svg(self) -> Svg:
        """Lines and words together."""
        return group(self.lines, self.words)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Note:
    """A dimension text: where along the chain, how far out on a leader (0: over its stretch), how large."""

    text: str
    along: float
    out: float
    size: float
    stretch_middle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rail:
    """Turns (along, out) of a chain into drawing coordinates."""

    side: str
    at: float

    @property
    def upright(self) -> bool:
        return self.side in {"left", "right"}

    @property
    def reads_outward(self) -> bool:
        """Whether the side above a text, as it is read, is away from what is measured."""
        return self.side in {"top", "left"}

    def xy(self, along: float, out: float) -> tuple[float, float]:
        off = self.at + out if self.side in {"bottom", "right"} else self.at - out
        return (off, along) if self.upright else (along, off)

    def line(self, ends: tuple[float, float, float, float], *, width: float) -> Svg:
        (x1, y1), (x2, y2) = self.xy(ends[0], ends[1]), self.xy(ends[2], ends[3])
        return line(x1=x1, y1=y1, x2=x2, y2=y2, width=width)


def distinct_stops(stops: Sequence[Stop]) -> tuple[Stop, ...]:
    """Return the stops in order of their place on the drawing, each once."""
    return tuple(
        sorted({round(at, 3): (at, length) for at, length in stops}.values(), key=lambda stop: stop[0])
    )


def chain(
    stops: Sequence[Stop],
    *,
    side: str,
    at: float,
    reach_from: float | None = None,
    avoid: Sequence[float] = (),
    write: Callable[[Length], str] = str,
) -> Chain:
    """Draw a chain of dimensions.

    Every text stands over its own stretch where it fits; a text wider than its stretch is moved
    outward on a leader, clear of the others.

    Parameters
    ----------
    stops : sequence of Stop
        At least two, in order of their place on the drawing.
    side : str
        "top", "bottom", "left" or "right" of what is measured; outward is away from it.
    at : float
        Where the line stands: y of a level chain, x of an upright one [drawing units].
    reach_from : float or None
        Where extension lines start; None draws none.
    avoid : sequence of float
        Places where lines of other chains cross this one; texts stand beside them where they can.
    write : callable
        How a length is written.
    """
    rail = _Rail(side=side, at=at)
    notes = _notes(stops, avoid, write, above=_ABOVE if rail.reads_outward else 0.0)
    parts = [rail.line((stops[0][0] - 4, 0, stops[-1][0] + 4, 0), width=HAIR)]
    for along, _ in stops:
        parts.append(_slash(rail, along))
        if reach_from is not None:
            parts.append(rail.line((along, -abs(at - reach_from), along, 4), width=HAIR))
    leaders = [
        rail.line((note.stretch_middle, 0, note.along, note.out - note.size * 0.55), width=HAIR)
        for note in notes
        if note.out
    ]
    deepest = max((note.out for note in notes), default=0.0)
    return Chain(
        lines=group(*parts, *leaders, class_="sd-dimensions"),
        words=group(*(_written(rail, note) for note in notes), class_="sd-dimensions"),
        depth=(deepest or (_ABOVE if rail.reads_outward else 0.0)) + _ABOVE,
    )


def _slash(rail: _Rail, along: float) -> Svg:
    (x, y) = rail.xy(along, 0)
    return line(x1=x - _BEYOND, y1=y + _BEYOND, x2=x + _BEYOND, y2=y - _BEYOND, width=LINE)


def _written(rail: _Rail, note: _Note) -> Svg:
    out = note.out or (_ABOVE if rail.reads_outward else -_ABOVE)
    x, y = rail.xy(note.along, out)
    return letters(note.text, x=x, y=y, size=note.size, upright=rail.upright, halo=True)


def _notes(
    stops: Sequence[Stop], avoid: Sequence[float], write: Callable[[Length], str], *, above: float
) -> list[_Note]:
    """Place texts that fit over their stretch first, then the narrow ones outward of the line.

    `above` is how far outward the texts over their stretches stand; 0 when they stand inward.
    """
    notes, narrow = [], []
    taken = Taken()
    for (start, low), (end, high) in pairwise(stops):
        text, middle = write(abs(high - low)), (start + end) / 2
        size = next((s for s in (NORMAL, SMALL) if text_width(text, size=s) <= end - start - 5), None)
        if size is None:
            narrow.append((text, middle))
            continue
        along = _clear_of(avoid, (start, end), text_width(text, size=size))
        notes.append(_Note(text=text, along=along, out=0.0, size=size, stretch_middle=middle))
        if above:
            taken.take(_span(text, along, above, size))
    ends = (stops[0][0], stops[-1][0])
    moved = (
        _moved_out(text, middle, taken, ends, first=_FIRST_LEVEL + above * 0.6) for text, middle in narrow
    )
    return notes + [note for note in moved if note]


def _clear_of(avoid: Sequence[float], stretch: tuple[float, float], wide: float) -> float:
    """Return where over its stretch a text is crossed by no line, nearest the middle."""
    start, end = stretch
    middle, slack = (start + end) / 2, (end - start - wide) / 2 - 3
    for shift in (0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0):
        along = middle + shift * slack
        if slack > 0 and not any(abs(place - along) < wide / 2 + 2 for place in avoid):
            return along
    return middle


def _moved_out(
    text: str, middle: float, taken: Taken, ends: tuple[float, float], *, first: float
) -> _Note | None:
    """Place a text outward of the chain, near its stretch, its leader crossing no other text."""
    wide = text_width(text, size=SMALL)
    low, high = ends[0] - 8 + wide / 2, ends[1] + 8 - wide / 2
    for level in range(_LEVELS):
        out = first + level * _STEP
        for shift in _SHIFTS:
            along = middle + shift * wide
            if low < high:
                along = min(max(along, low), high)
            box = _span(text, along, out, SMALL)
            leader = _leader_boxes((middle, 1.0), (along, out - SMALL * 0.6))
            if taken.free(box) and all(taken.free(part) for part in leader):
                for part in (box, *leader):
                    taken.take(part)
                return _Note(text=text, along=along, out=out, size=SMALL, stretch_middle=middle)
    return None


def _leader_boxes(start: tuple[float, float], end: tuple[float, float]) -> list[Box]:
    """Return small boxes along a leader, to keep it clear of texts."""
    steps = 6
    points = [
        (start[0] + (end[0] - start[0]) * i / steps, start[1] + (end[1] - start[1]) * i / steps)
        for i in range(1, steps)
    ]
    return [Box(x - 0.4, y - 0.4, x + 0.4, y + 0.4) for x, y in points]


def _span(text: str, along: float, out: float, size: float) -> Box:
    half = text_width(text, size=size) / 2 + 1.5
    return Box(along - half, out - size * 0.55, along + half, out + size * 0.55)
