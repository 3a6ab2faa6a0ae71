"""A wall that boards are laid on: its framing and openings, the boards that lie, and places to touch."""

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, element, group, line, rect
from setday.drawing.lettering import NORMAL, SMALL, letters
from setday.drawing.paper import PHONE, Paper, finish, key_of

if TYPE_CHECKING:
    from setday.learning import LaidWall, WallToLay

__all__ = ["laying_picture"]

_EDGE, _FOOT = 12.0, 30.0


def laying_picture(
    wall: "WallToLay", laid: "LaidWall", *, paper: Paper = PHONE, key: str = "laying", touch: bool = True
) -> str:
    """Draw the wall with the boards laid so far.

    Parameters
    ----------
    wall : WallToLay
    laid : LaidWall
    paper : Paper
        Only its width is used.
    key : str
        Prefix of the ids.
    touch : bool
        Places where the next board may end take a finger: ``data-row``, ``data-end``.

    Returns
    -------
    str
        An SVG.
    """
    surface = wall.surface
    scale = (paper.width - 2 * _EDGE) / surface.width
    high = surface.height * scale
    sight = _Sight(scale, high + _EDGE)
    body = (
        rect(x=_EDGE, y=_EDGE, w=surface.width * scale, h=high, width=LINE),
        group(*(sight.upright(x, 0, surface.height, FINE, "4 4") for x in wall.snaps[:-1])),
        group(*(sight.level(y, surface.width, HAIR) for y in wall.edges[1:-1])),
        *(sight.board(piece.x, piece.y, piece.w, piece.h, str(piece.board)) for piece in laid.pieces),
        *(sight.opening(v.x, v.y, v.w, v.h) for v in surface.voids),
        *(_touches(wall, laid, sight) if touch else ()),
        *_members_counted(wall, sight),
    )
    return finish(
        body=tuple(body),
        title=f"Boards on the {surface.label}",
        desc=f"{laid.boards} boards taken; {len(laid.pieces)} pieces lie.",
        width=paper.width,
        height=high + 2 * _EDGE + _FOOT,
        key=key_of(key),
    )


class _Sight:
    """From sixty-fourths on the wall to the paper."""

    def __init__(self, scale: float, floor: float) -> None:
        self.scale, self.floor = scale, floor

    def x(self, x: int) -> float:
        return _EDGE + x * self.scale

    def y(self, y: int) -> float:
        return self.floor - y * self.scale

    def upright(self, x: int, low: int, high: int, width: float, dash: str | None = None) -> Svg:
        return line(x1=self.x(x), y1=self.y(low), x2=self.x(x), y2=self.y(high), width=width, dash=dash)

    def level(self, y: int, far: int, width: float) -> Svg:
        return line(x1=self.x(0), y1=self.y(y), x2=self.x(far), y2=self.y(y), width=width, dash="2 3")

    def board(self, x: int, y: int, w: int, h: int, words: str) -> Svg:
        face = rect(
            x=self.x(x), y=self.y(y + h), w=w * self.scale, h=h * self.scale, width=BOLD, fill="shade"
        )
        middle = letters(words, x=self.x(x + w // 2), y=self.y(y + h // 2), size=NORMAL, bold=True, halo=True)
        return group(face, middle)

    def opening(self, x: int, y: int, w: int, h: int) -> Svg:
        return rect(
            x=self.x(x), y=self.y(y + h), w=w * self.scale, h=h * self.scale, width=LINE, fill="paper"
        )


def _touches(wall: "WallToLay", laid: "LaidWall", sight: _Sight) -> Iterator[Svg]:
    """Yield a touch place about every member that the next board of a row may reach."""
    for row in range(wall.rows):
        low, high = wall.edges[-2 - row], wall.edges[-1 - row]
        start = laid.reached[row] if laid.reached else 0
        ends = [x for x in wall.snaps if start < x <= start + wall.board.length]
        if not ends:
            continue
        sides = [start, *((a + b) // 2 for a, b in pairwise(ends)), wall.surface.width]
        for (left, right), end in zip(pairwise(sides), ends, strict=True):
            yield element(
                "rect",
                x=sight.x(left),
                y=sight.y(high),
                width=(min(right, end + wall.board.width) - left) * sight.scale,
                height=(high - low) * sight.scale,
                fill="#fff",
                fill_opacity=0,
                class_="sd-touch",
                data_row=str(row),
                data_end=str(end),
            )


def _members_counted(wall: "WallToLay", sight: _Sight) -> Iterator[Svg]:
    """Yield numbers under the members, as the list beside the drawing counts them."""
    last = -100.0
    for n, x in enumerate(wall.snaps, start=1):
        if sight.x(x) - last >= 16:
            last = sight.x(x)
            yield letters(str(n), x=last, y=sight.floor + 14, size=SMALL)
