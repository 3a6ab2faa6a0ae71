"""One piece of board by itself, with the place of every corner as it is marked with a tape."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards import Piece, Surface, cut_outs, cuts_in_words
from setday.drawing.elevation import Elevation, words_in_box
from setday.drawing.hatch import hatch
from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, group, line, polygon, rect
from setday.drawing.lettering import SMALL, Box, letters, spread, text_width
from setday.drawing.notes import notes_below
from setday.measure import Length

__all__ = ["piece_detail"]

_APART = 10.5
_LEADER = 14.0
_MARGIN = 8.0
_HIGHEST = 170.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Marked:
    """The places to mark along the lower edge, and up the left and the right end [1/64 in]."""

    across: tuple[int, ...]
    left: tuple[int, ...]
    right: tuple[int, ...]

    @property
    def beside(self) -> tuple[float, float]:
        """Room the figures take at the left and at the right [drawing units]."""
        wide = [
            max((text_width(str(Length(p)), size=SMALL) for p in side), default=0.0) for side in self.ends
        ]
        return (
            _MARGIN + _LEADER + wide[0] + 6,
            (_LEADER + wide[1] + 6 if self.right else 0.0) + _MARGIN,
        )

    @property
    def below(self) -> float:
        """Room the figures take below [drawing units]."""
        return _LEADER + max(text_width(str(Length(place)), size=SMALL) for place in self.across) + 10

    @property
    def ends(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The places up the left and up the right end."""
        return self.left, self.right


def piece_detail(
    piece: Piece, *, surface: Surface, ring: Sequence[tuple[int, int]], words: str, top: float, width: float
) -> tuple[Svg, float]:
    """Draw a shaped piece as it hangs, seen from the room; return it and where it ends.

    Parameters
    ----------
    piece : Piece
    surface : Surface
        The one it hangs on.
    ring : sequence of corners
        Of the piece on its surface [1/64 in].
    words : str
        What it is, lettered over it; empty for nothing.
    top, width : float
        Where it may stand [drawing units].
    """
    corners = [(x - piece.x, y - piece.y) for x, y in ring]
    marked = _marked(piece, surface, corners)
    (before, after), head = marked.beside, 16.0
    per_inch = min((width - before - after) / (piece.w / 64), _HIGHEST / (piece.h / 64), 6.0)
    high = max(piece.h / 64 * per_inch, _APART * max(map(len, marked.ends)))
    title, top = notes_below((words,), y=top + 6, width=width) if words else (Svg(""), top + 6)
    view = Elevation(per_inch=per_inch, left=before, base=top + head - 10 + high)
    figures = (_along(marked, view), *_upward(marked, piece, view))
    called, foot = notes_below(cuts_in_words(piece, surface), y=view.base + marked.below + 6, width=width)
    return group(title, _drawn(piece, surface, corners, view), *figures, called, data_kind="detail"), foot


def _drawn(piece: Piece, surface: Surface, corners: Sequence[tuple[int, int]], view: Elevation) -> Svg:
    whole = view.box(0, 0, piece.w / 64, piece.h / 64)
    around = [
        (whole.left, whole.top), (whole.right, whole.top),
        (whole.right, whole.bottom), (whole.left, whole.bottom),
    ]  # fmt: skip
    ring = view.ring([(x / 64, y / 64) for x, y in corners])
    holes = []
    for cut in cut_outs(piece, surface):
        box = view.box(cut.left.inches, cut.low.inches, cut.width.inches, cut.height.inches)
        holes.append(_hole(box, cut.name))
    return group(
        hatch([around], spacing=6),
        polygon(around, width=HAIR, dash="6 3"),
        polygon(ring, width=BOLD, fill="paper"),
        *holes,
    )


def _hole(box: Box, name: str) -> Svg:
    """Draw what is cut out, hatched; the parts of its outline at the edge of the piece stay the piece's."""
    corners = [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]
    wide, tall = box.right - box.left, box.bottom - box.top
    return group(
        rect(x=box.left, y=box.top, w=wide, h=tall, width=0, fill="paper"),
        hatch([corners], spacing=6),
        polygon(corners, width=LINE),
        (words_in_box(box, (name, "cut out")) or words_in_box(box, (name,)) or Svg("")) if name else Svg(""),
    )


def _marked(piece: Piece, surface: Surface, corners: Sequence[tuple[int, int]]) -> _Marked:
    cuts = cut_outs(piece, surface)
    ys = [
        *corners,
        *((c.left.sixtyfourths, y.sixtyfourths) for c in cuts for y in (c.low, c.high)),
    ]
    xs = {x for x, _ in corners} | {x.sixtyfourths for c in cuts for x in (c.left, c.right)}
    at_right = {y for x, y in ys if x == piece.w}
    left = {0, piece.h} | {y for x, y in ys if x < piece.w and y not in at_right}
    left |= {y for x, y in ys if x == 0}
    return _Marked(
        across=_told({0, piece.w} | xs),
        left=_told(left),
        right=_told(at_right - {0}) if at_right - {0, piece.h} else (),
    )


def _told(places: set[int]) -> tuple[int, ...]:
    """Return places in order, one of those that read the same on a tape."""
    return tuple({str(Length(place)): place for place in sorted(places, reverse=True)}.values())[::-1]


def _along(marked: _Marked, view: Elevation) -> Svg:
    """Letter the distance of every place from the left end, under the piece."""
    at = [view.x(place / 64) for place in marked.across]
    stand = spread(at, gap=_APART, low=at[0] - 4, high=max(at[-1], at[0] + _APART * (len(at) - 1)) + 4)
    parts = []
    for place, x, moved in zip(marked.across, at, stand, strict=True):
        text = str(Length(place))
        parts.append(line(x1=x, y1=view.base + 2, x2=x, y2=view.base + 6, width=FINE))
        parts.append(line(x1=x, y1=view.base + 6, x2=moved, y2=view.base + _LEADER, width=HAIR))
        middle = view.base + _LEADER + 3 + text_width(text, size=SMALL) / 2
        parts.append(letters(text, x=moved, y=middle, size=SMALL, upright=True))
    return group(*parts)


def _upward(marked: _Marked, piece: Piece, view: Elevation) -> tuple[Svg, Svg]:
    """Letter the height of every place over the lower edge, at both ends of the piece."""
    drawn = []
    ends = ((marked.left, 0, -1, "end"), (marked.right, piece.w, 1, "start"))
    for places, end, outward, anchor in ends:
        x = view.x(end / 64)
        at = [-view.y(place / 64) for place in places]
        stand = spread(at, gap=_APART, low=-view.base - 4, high=10_000.0) if at else []
        parts = []
        for place, y, moved in zip(places, at, stand, strict=True):
            parts.append(line(x1=x + outward * 2, y1=-y, x2=x + outward * 6, y2=-y, width=FINE))
            parts.append(line(x1=x + outward * 6, y1=-y, x2=x + outward * _LEADER, y2=-moved, width=HAIR))
            parts.append(
                letters(
                    str(Length(place)), x=x + outward * (_LEADER + 3), y=-moved, size=SMALL, anchor=anchor
                )
            )
        drawn.append(group(*parts))
    return drawn[0], drawn[1]
