"""What is cut out of a piece of board: openings, notches and slopes, measured on the piece itself.

All places are those of the piece as it hangs, seen from the room: from its left end and from its lower
edge.  The face of a board is its room side, so a piece laid face up is marked with the same figures.
"""

from dataclasses import dataclass
from itertools import pairwise

from setday.boards.laidout import Ring, ring_of
from setday.boards.outcome import Piece
from setday.boards.problem import Surface
from setday.measure import Length

__all__ = ["CutOut", "Slope", "cut_outs", "cuts_in_words", "is_shaped", "slopes"]

_LEAST = 2
"""The thinnest cut-out that is told [1/64 in]."""
_Rect = tuple[int, int, int, int]
_Edge = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """A rectangle cut out of a piece.

    Parameters
    ----------
    name : str
        The opening's name; empty for a notch that the shape of the surface asks for.
    left, low : Length
        From the left end and from the lower edge of the piece.
    width, height : Length
    piece_width, piece_height : Length
        Of the box around the piece, as it hangs.
    """

    name: str
    left: Length
    low: Length
    width: Length
    height: Length
    piece_width: Length
    piece_height: Length

    @property
    def right(self) -> Length:
        """From the left end of the piece to the far side of the cut-out."""
        return self.left + self.width

    @property
    def high(self) -> Length:
        """From the lower edge of the piece to the top of the cut-out."""
        return self.low + self.height

    @property
    def in_words(self) -> str:
        """The cut-out as it is called out."""
        return f"{self.name or 'notch'} cut out {self._across()}, {self.width} wide, {self._upward()}"

    def _across(self) -> str:
        if not self.left:
            return "at the left end"
        return "at the right end" if self.right == self.piece_width else f"{self.left} from the left"

    def _upward(self) -> str:
        whole = self.high == self.piece_height
        if not self.low:
            return "from edge to edge" if whole else f"{self.height} high from the lower edge"
        if whole:
            return f"{self.height} deep from the upper edge"
        return f"{self.height} high, its lower side {self.low} above the lower edge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """A sloped cut, from left to right.

    Parameters
    ----------
    start, end : Length
        From the left end of the piece.
    start_height, end_height : Length
        From the lower edge of the piece.
    upper : bool
        True where the board lies under the slope, False where it lies over it.
    """

    start: Length
    end: Length
    start_height: Length
    end_height: Length
    upper: bool

    @property
    def in_words(self) -> str:
        """The cut as it is called out."""
        way = "down" if self.end_height < self.start_height else "up"
        side = "slope" if self.upper else "slope of the lower edge"
        begins = f", beginning {self.start} from the left" if self.start else ""
        run = self.end - self.start
        return f"{side} from {self.start_height} {way} to {self.end_height} over {run}{begins}"


def cut_outs(piece: Piece, surface: Surface) -> tuple[CutOut, ...]:
    """Return what is cut out of a piece, openings first, each from left to right.

    What is thinner than 1/32 in is not cut and not told.

    Parameters
    ----------
    piece : Piece
    surface : Surface
        The one it hangs on.
    """
    openings = sorted(
        (rect, void.name or "opening")
        for void in surface.voids
        if (rect := _within(piece, (void.x, void.y, void.x + void.w, void.y + void.h))) is not None
    )
    notches = [(rect, "") for rect in _notches(piece, [rect for rect, _ in openings])]
    return tuple(
        CutOut(
            name=name,
            left=Length(a),
            low=Length(b),
            width=Length(c - a),
            height=Length(d - b),
            piece_width=Length(piece.w),
            piece_height=Length(piece.h),
        )
        for (a, b, c, d), name in (*openings, *notches)
        if min(c - a, d - b) >= _LEAST
    )


def slopes(piece: Piece) -> tuple[Slope, ...]:
    """Return the sloped cuts of a piece, from left to right."""
    found = []
    for x0, y0, x1, y1 in _edges(_ring_on_piece(piece)):
        if x0 == x1 or y0 == y1:
            continue
        upper = x1 < x0
        (a, low), (b, high) = sorted(((x0, y0), (x1, y1)))
        found.append(
            Slope(
                start=Length(a), end=Length(b), start_height=Length(low), end_height=Length(high), upper=upper
            )
        )
    return tuple(sorted(found, key=lambda slope: (slope.start, not slope.upper)))


def is_shaped(piece: Piece, surface: Surface) -> bool:
    """Return whether a piece is more than a rectangle."""
    return bool(cut_outs(piece, surface) or slopes(piece))


def cuts_in_words(piece: Piece, surface: Surface) -> tuple[str, ...]:
    """Return every cut-out and slope of a piece as it is called out."""
    return (*(cut.in_words for cut in cut_outs(piece, surface)), *(slope.in_words for slope in slopes(piece)))


def _within(piece: Piece, box: _Rect) -> _Rect | None:
    """Return the part of a box of the surface that lies on the piece's box, in places of the piece."""
    a, b = max(box[0] - piece.x, 0), max(box[1] - piece.y, 0)
    c, d = min(box[2] - piece.x, piece.w), min(box[3] - piece.y, piece.h)
    return (a, b, c, d) if a < c and b < d else None


def _ring_on_piece(piece: Piece) -> Ring:
    return tuple((x - piece.x, y - piece.y) for x, y in ring_of(piece))


def _edges(ring: Ring) -> list[_Edge]:
    return [(*a, *b) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]


def _notches(piece: Piece, taken: list[_Rect]) -> list[_Rect]:
    """Return the rectangles that level and plumb edges leave out of the box, openings not counted."""
    ring = _ring_on_piece(piece)
    places = sorted({x for x, _ in ring} | {x for a, _, c, _ in taken for x in (a, c)})
    found: list[_Rect] = []
    for left, right in pairwise(places):
        for low, high in _bare(ring, (left, right), piece.h, taken):
            before = next((r for r in found if r[2] == left and (r[1], r[3]) == (low, high)), None)
            if before is not None:
                found.remove(before)
            found.append((before[0] if before else left, low, right, high))
    return sorted(found)


def _bare(ring: Ring, strip: tuple[int, int], height: int, taken: list[_Rect]) -> list[tuple[int, int]]:
    """Return the stretches of an upright strip without board, between level edges."""
    left, right = strip
    over = [e for e in _edges(ring) if min(e[0], e[2]) <= left and right <= max(e[0], e[2]) and e[0] != e[2]]
    levels = sorted((e[1] + e[3], e[1] == e[3], e[1]) for e in over)
    bounds = [(0, True, 0), *levels, (2 * height, True, height)]
    bare = [
        (a[2], b[2]) for a, b in zip(bounds[::2], bounds[1::2], strict=True) if a[1] and b[1] and a[2] < b[2]
    ]
    for a, low, c, high in taken:
        if a <= left and right <= c:
            bare = [
                part for p, q in bare for part in ((p, min(q, low)), (max(p, high), q)) if part[0] < part[1]
            ]
    return bare
