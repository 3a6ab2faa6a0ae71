"""A surface sketched without its measures: what stands in which order, for a crew that still measures it."""

from collections.abc import Iterable

from setday.drawing.elevation import Elevation, crossed_box, words_in_box
from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, HAIR, LINE, Svg, group, line, polygon, rect
from setday.drawing.lettering import SMALL, Taken, letters
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.house import Surface, SurfaceKind, SurfaceOpening, WetPatch
from setday.measure import Length

__all__ = ["surface_sketch"]

_HIGH = 0.5
"""Height of a sketch against its width, whatever the surface measures."""
_MOST_WIDE = 340.0
_BLANK = 34.0
"""Room at the left and below for the measures that are written in by hand [drawing units]."""
_NOTE = "A sketch, not to measure: only the order is right. Measure, and write it on the lines."


def surface_sketch(surface: Surface, *, paper: Paper = LETTER, key: str = "sketch") -> str:
    """Draw a surface in the order of its corners and openings, with blank lines to write measures on.

    Every place is drawn at its rank among the others, never at its distance: surfaces of different sizes
    with the same things in the same order have the same sketch, so that it tells no sealed figure.

    Parameters
    ----------
    surface : Surface
    paper : Paper
        Only its width is used, up to what a phone has.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    xs, ys = _ranks(x for x, _ in _corners(surface)), _ranks(y for _, y in _corners(surface))
    width = min(paper.width, _MOST_WIDE)
    across, up = width - _BLANK - 12, (width - _BLANK - 12) * _HIGH
    view = Elevation(per_inch=1.0, left=_BLANK, base=12 + up)
    at = {
        "x": {x: across * n / max(1, len(xs) - 1) for n, x in enumerate(xs)},
        "y": {y: up * n / max(1, len(ys) - 1) for n, y in enumerate(ys)},
    }
    ring = view.ring([(at["x"][x], at["y"][y]) for x, y in surface.outline])
    taken = Taken()
    body = (
        polygon(ring, width=0, fill="paper"),
        *_wet(surface, view, at, taken),
        polygon(ring, width=BOLD),
        *_openings(surface, view, at, taken),
        *_blanks(view, across=across, up=up),
    )
    notes, height = notes_below([_NOTE], y=view.base + _BLANK + 8, width=width)
    return finish(
        body=(*body, notes),
        title=f"Sketch of {surface.label}, without measures",
        desc=_words(surface),
        width=width,
        height=height,
        key=key_of(key, surface.id),
    )


def _corners(surface: Surface) -> Iterable[tuple[Length, Length]]:
    yield from surface.outline
    boxes: tuple[SurfaceOpening | WetPatch, ...] = (*surface.openings, *surface.wet)
    for box in boxes:
        yield box.x, box.y
        yield box.x + box.w, box.y + box.h


def _ranks(places: Iterable[Length]) -> tuple[Length, ...]:
    return tuple(sorted(set(places)))


_At = dict[str, dict[Length, float]]


def _box(box: SurfaceOpening | WetPatch, at: _At) -> tuple[float, float, float, float]:
    left, low = at["x"][box.x], at["y"][box.y]
    return left, low, at["x"][box.x + box.w] - left, at["y"][box.y + box.h] - low


def _openings(surface: Surface, view: Elevation, at: _At, taken: Taken) -> Iterable[Svg]:
    for opening in surface.openings:
        box = view.box(*_box(opening, at))
        words = words_in_box(box, (opening.kind,), taken=taken) or Svg("")
        yield group(crossed_box(box, door=not opening.y), words)


def _wet(surface: Surface, view: Elevation, at: _At, taken: Taken) -> Iterable[Svg]:
    for patch in surface.wet:
        box = view.box(*_box(patch, at))
        w, h = box.right - box.left, box.bottom - box.top
        yield group(
            hatch_box(x=box.left, y=box.top, w=w, h=h, spacing=7, angle=45.0),
            rect(x=box.left, y=box.top, w=w, h=h, width=HAIR),
            words_in_box(box, (patch.name,), taken=taken) or Svg(""),
        )


def _blanks(view: Elevation, *, across: float, up: float) -> Iterable[Svg]:
    """Draw a dimension line under the sketch and one at its left, with nothing written on them."""
    y, x = view.base + 18, view.left - 18
    yield line(x1=view.left, y1=y, x2=view.left + across, y2=y, width=LINE)
    yield line(x1=x, y1=view.base, x2=x, y2=view.base - up, width=LINE)
    for end in (view.left, view.left + across):
        yield line(x1=end, y1=y - 5, x2=end, y2=y + 5, width=LINE)
    for end in (view.base, view.base - up):
        yield line(x1=x - 5, y1=end, x2=x + 5, y2=end, width=LINE)
    middle = view.left + across / 2
    yield letters("______", x=middle, y=y - 1, size=SMALL, halo=True)


def _words(surface: Surface) -> str:
    what = "Ceiling" if surface.kind is SurfaceKind.CEILING else "Wall"
    named = ", ".join(opening.kind for opening in surface.openings)
    return f"{what} without measures" + (f"; from the left: {named}." if named else ".")
