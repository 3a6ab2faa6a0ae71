"""What elevations share: where a wall's or a surface's places stand on the drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.drawing.dimension import Chain, Stop, chain, distinct_stops
from setday.drawing.ink import HAIR, LINE, Svg, group, line, number, path, rect
from setday.drawing.lettering import SMALL, Box, Taken, letters, text_width
from setday.drawing.paper import Paper, Scale, scale_to_fit, smaller_scale
from setday.drawing.placing import free_place
from setday.measure import Length, write_inches

__all__ = ["Elevation", "Sides", "crossed_box", "fit", "outline_heights", "words_in_box", "words_in_ring"]

FIRST_CHAIN = 20.0
NEXT_CHAIN = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Elevation:
    """Turns inches (x to the right, y up) into drawing units (y downward).

    `mirror_in` is the width of a thing seen from behind, whose x then grows to the left; 0 otherwise.
    """

    per_inch: float
    left: float
    base: float
    mirror_in: float = 0.0

    def x(self, x_in: float) -> float:
        """Return where x stands."""
        return self.left + (self.mirror_in - x_in if self.mirror_in else x_in) * self.per_inch

    def y(self, y_in: float) -> float:
        """Return where y stands."""
        return self.base - y_in * self.per_inch

    def box(self, x_in: float, y_in: float, w_in: float, h_in: float) -> Box:
        """Return the box of a rectangle given by its lower left corner and size."""
        a, b = self.x(x_in), self.x(x_in + w_in)
        return Box(min(a, b), self.y(y_in + h_in), max(a, b), self.y(y_in))

    def ring(self, corners: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        """Return the places of a closed line."""
        return [(self.x(x), self.y(y)) for x, y in corners]

    def stops_x(self, places: Sequence[Length]) -> tuple[Stop, ...]:
        """Return the stops of a level chain."""
        return distinct_stops([(self.x(place.inches), place) for place in places])

    def stops_y(self, places: Sequence[Length]) -> tuple[Stop, ...]:
        """Return the stops of an upright chain."""
        return distinct_stops([(self.y(place.inches), place) for place in places])


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """The places to be dimensioned on each side of an elevation, one tuple a chain, from the inside out.

    `mirrored` says that x grows to the left, `top_in_inches` that the chains above are written in inches.
    """

    top: tuple[tuple[Length, ...], ...] = ()
    right: tuple[tuple[Length, ...], ...] = ()
    bottom: tuple[tuple[Length, ...], ...] = ()
    left: tuple[tuple[Length, ...], ...] = ()
    mirrored: bool = False
    top_in_inches: bool = False

    def draw(self, view: Elevation, box: Box) -> tuple[Svg, dict[str, float]]:
        """Draw all chains around `box`; return them and the room they take on each side."""
        depths: dict[str, float] = {}
        lines, words = [], []
        edges = {"top": box.top, "bottom": box.bottom, "left": box.left, "right": box.right}
        for side, edge in edges.items():
            chains, depths[side] = self._side(view, side, edge)
            lines += [one.lines for one in chains]
            words += [one.words for one in chains]
        return group(*lines, *words), depths

    def _side(self, view: Elevation, side: str, edge: float) -> tuple[list[Chain], float]:
        outward = 1 if side in {"bottom", "right"} else -1
        turn = view.stops_x if side in {"top", "bottom"} else view.stops_y
        wanted = [stops for stops in map(turn, getattr(self, side)) if len(stops) > 1]
        wanted = [stops for i, stops in enumerate(wanted) if stops not in wanted[i + 1 :]]
        drawn, off = [], FIRST_CHAIN
        for i, stops in enumerate(wanted):
            crossing = [place for other in wanted[i + 1 :] for place, _ in other]
            write = write_inches if side == "top" and self.top_in_inches else str
            one = chain(
                stops,
                side=side,
                at=edge + outward * off,
                reach_from=edge + outward * 3,
                avoid=crossing,
                write=write,
            )
            drawn.append(one)
            off += one.depth + NEXT_CHAIN
        return drawn, off - NEXT_CHAIN + 6 if drawn else 10.0


def fit(
    *,
    size_in: tuple[float, float],
    sides: Sides,
    paper: Paper,
    below: float = 60.0,
    under: float = 0.0,
) -> tuple[Scale, Elevation, Svg, Box]:
    """Choose a scale, and place a thing of `size_in` with its dimension chains on the paper.

    Parameters
    ----------
    size_in : tuple of float
        Width and height [in].
    sides : Sides
    paper : Paper
    below : float
        Room kept for what is lettered under the drawing [drawing units].
    under : float
        Room between the thing and its lower chains [drawing units].

    Returns
    -------
    tuple
        The scale; where things stand; the chains; the box of the thing and its chains together.
    """
    width_in, height_in = size_in
    scale = scale_to_fit(
        width_in=width_in,
        height_in=height_in,
        room_x=paper.width - 40,
        room_y=paper.height - 60 - under - below,
        paper=paper,
    )
    need = _room_for_chains(sides, scale, size_in)
    while over := _too_large(need, scale, size_in, paper, under + below):
        tighter = smaller_scale(scale) if paper.to_scale else Scale(per_inch=scale.per_inch * (1 - over))
        if tighter is None or tighter.per_inch * max(width_in, 1.0) < 40:
            break
        scale = tighter
        need = _room_for_chains(sides, scale, size_in)
    base = need["top"] + height_in * scale.per_inch
    view = Elevation(
        per_inch=scale.per_inch, left=need["left"], base=base, mirror_in=width_in if sides.mirrored else 0.0
    )
    box = view.box(0, 0, width_in, height_in)
    chains, _ = sides.draw(view, Box(box.left, box.top, box.right, box.bottom + under))
    return scale, view, chains, Box(0, 0, box.right + need["right"], base + under + need["bottom"])


def _room_for_chains(sides: Sides, scale: Scale, size_in: tuple[float, float]) -> dict[str, float]:
    trial = Elevation(per_inch=scale.per_inch, left=0, base=0)
    return sides.draw(trial, trial.box(0, 0, *size_in))[1]


def _too_large(
    need: dict[str, float], scale: Scale, size_in: tuple[float, float], paper: Paper, more: float
) -> float:
    """Return by what share a drawing is too large for its paper; 0 when it fits."""
    wide = need["left"] + need["right"] + size_in[0] * scale.per_inch
    high = need["top"] + need["bottom"] + size_in[1] * scale.per_inch + more
    over = max((wide - paper.width) / wide, (high - paper.height) / high)
    return over + 0.002 if over > 0.001 else 0.0


def outline_heights(
    corners: Sequence[tuple[Length, Length]],
) -> tuple[tuple[Length, ...], tuple[Length, ...]]:
    """Return the heights of an outline's corners at its left and at its right side."""
    wide = max(x for x, _ in corners)
    left = tuple(sorted({y for x, y in corners if not x}))
    right = tuple(sorted({y for x, y in corners if x == wide}))
    return left, right


def crossed_box(box: Box, *, door: bool) -> Svg:
    """Draw an opening: blank, with fine diagonals; a door without its lower line."""
    w, h = box.right - box.left, box.bottom - box.top
    blank = rect(x=box.left, y=box.top, w=w, h=h, width=0, fill="paper")
    start = f"M{number(box.left)} {number(box.bottom)}"
    around = f"{start}V{number(box.top)}H{number(box.right)}V{number(box.bottom)}{'' if door else 'Z'}"
    return group(
        blank,
        line(x1=box.left, y1=box.top, x2=box.right, y2=box.bottom, width=HAIR),
        line(x1=box.left, y1=box.bottom, x2=box.right, y2=box.top, width=HAIR),
        path(around, width=LINE),
    )


def words_in_box(
    box: Box, lines: Sequence[str], *, taken: Taken | None = None, bold: bool = False
) -> Svg | None:
    """Letter lines in the middle of a box on blank paper; None when they do not fit level or upright."""
    wide, tall = box.right - box.left, box.bottom - box.top
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    for upright in (False, True):
        across, up = _size_of(lines, upright=upright)
        patch = Box(x - across / 2, y - up / 2, x + across / 2, y + up / 2)
        if across > wide or up > tall or (taken is not None and not taken.free(patch)):
            continue
        if taken is not None:
            taken.take(patch)
        return _patch(patch, lines, upright=upright, bold=bold)
    return None


def words_in_ring(
    ring: Sequence[tuple[float, float]], lines: Sequence[str], *, taken: Taken, bold: bool = False
) -> Svg | None:
    """Letter lines on blank paper inside a closed line, as near its middle as they fit; None when nowhere."""
    for upright in (False, True):
        place = free_place([ring], _size_of(lines, upright=upright), taken)
        if place:
            return _patch(place, lines, upright=upright, bold=bold)
    return None


def _size_of(lines: Sequence[str], *, upright: bool) -> tuple[float, float]:
    need = max(text_width(text, size=SMALL) for text in lines) + 4
    high = len(lines) * SMALL * 1.3 + 2
    return (high, need) if upright else (need, high)


def _patch(patch: Box, lines: Sequence[str], *, upright: bool, bold: bool) -> Svg:
    wide, tall = patch.right - patch.left, patch.bottom - patch.top
    parts = [rect(x=patch.left, y=patch.top, w=wide, h=tall, width=0, fill="paper")]
    for i, text in enumerate(lines):
        off = (i - (len(lines) - 1) / 2) * SMALL * 1.3
        x, y = (patch.left + patch.right) / 2, (patch.top + patch.bottom) / 2
        at = (x + off, y) if upright else (x, y + off)
        parts.append(letters(text, x=at[0], y=at[1], size=SMALL, upright=upright, bold=bold and i == 0))
    return group(*parts)
