"""Every surface of a room, a crew or a house with its boards, at a glance."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards import Board, Layout, Surface
from setday.drawing.board_joints import JointKind, joints, widths_of
from setday.drawing.board_marks import piece_marks, rows_of
from setday.drawing.boards import draw_joint, joint_legend, piece_corners
from setday.drawing.elevation import Elevation
from setday.drawing.ink import FINE, HAIR, LINE, Svg, group, polygon, rect
from setday.drawing.lettering import NORMAL, SMALL, Taken, letters, text_width
from setday.drawing.notes import folded
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.drawing.placing import free_place

__all__ = ["house_boards_overview", "overview_height"]

_GAP = 22.0
_LEAST_LABEL = 84.0
"""Room a surface's name takes at the least [drawing units]."""
_LEAST_SCALE = 1.05
"""Drawing units per inch at which numbers still fit on small pieces."""
_LEADING = SMALL * 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """Where a surface stands on the sheet, and its name in lines."""

    surface: Surface
    x: float
    top: float
    label: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelves:
    """Surfaces side by side in shelves, their scale, and the height of all shelves."""

    stands: tuple[_Stand, ...]
    per_inch: float
    height: float

    @classmethod
    def filled(cls, surfaces: Sequence[Surface], paper: Paper) -> "_Shelves":
        per_inch = _small_scale(surfaces, paper)
        stands, x, top, deepest = [], _GAP, 8.0, 0.0
        for surface in surfaces:
            wide = max(surface.width / 64 * per_inch, _LEAST_LABEL)
            if x > _GAP and x + wide > paper.width - 4:
                x, top, deepest = _GAP, top + deepest, 0.0
            label = tuple(folded(surface.label, width=wide + _GAP - 6))
            stands.append(_Stand(surface=surface, x=x, top=top, label=label))
            deepest = max(deepest, surface.height / 64 * per_inch + len(label) * _LEADING + 24)
            x += wide + _GAP
        return cls(stands=tuple(stands), per_inch=per_inch, height=top + deepest)


def overview_height(surfaces: Sequence[Surface], *, paper: Paper = LETTER) -> float:
    """Return how high the overview of these surfaces comes out [drawing units]."""
    return _Shelves.filled(surfaces, paper).height + 30


def house_boards_overview(
    surfaces: Sequence[Surface],
    layout: Layout,
    *,
    boards: Sequence[Board],
    title: str = "Boards of the house",
    paper: Paper = LETTER,
    key: str = "overview",
) -> str:
    """Draw several surfaces small, side by side at one scale, each with its numbered boards.

    Parameters
    ----------
    surfaces : sequence of Surface
        In the order they are to be shown; a room's, a crew's or the whole house's.
    layout : Layout
    boards : sequence of Board
    title : str
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    shelves = _Shelves.filled(surfaces, paper)
    parts = [_stand(stand, layout, shelves.per_inch, boards) for stand in shelves.stands]
    pieces = sum(piece.surface in {s.id for s in surfaces} for piece in layout.pieces)
    legend, high = joint_legend(tuple(JointKind), x=_GAP, y=shelves.height + 6, width=paper.width)
    return finish(
        body=(*parts, legend),
        title=title,
        desc=f"{len(surfaces)} surfaces with {pieces} pieces, each with its number.",
        width=paper.width,
        height=shelves.height + 6 + high,
        key=key_of(key),
    )


def _small_scale(surfaces: Sequence[Surface], paper: Paper) -> float:
    """Return the scale at which as many of the widest surface stand side by side as still read well."""
    widest = max((surface.width for surface in surfaces), default=64) / 64
    for columns in (4, 3, 2):
        per_inch = (paper.width - (columns + 1) * _GAP) / (columns * widest)
        if per_inch >= _LEAST_SCALE:
            return min(per_inch, 1.6)
    return min((paper.width - 2 * _GAP) / widest, 1.6)


def _stand(stand: _Stand, layout: Layout, per_inch: float, boards: Sequence[Board]) -> Svg:
    high, head = stand.surface.height / 64 * per_inch, len(stand.label) * _LEADING
    view = Elevation(per_inch=per_inch, left=stand.x, base=stand.top + 8 + head + high)
    words = (
        letters(text, x=stand.x, y=stand.top + 6 + i * _LEADING, size=SMALL, anchor="start")
        for i, text in enumerate(stand.label)
    )
    return group(_small(stand.surface, layout, view, boards), *words)


def _small(surface: Surface, layout: Layout, view: Elevation, boards: Sequence[Board]) -> Svg:
    pieces = [piece for piece in layout.pieces if piece.surface == surface.id]
    rows, marks = rows_of(layout, surface.id), piece_marks(layout)
    found = joints(surface, pieces, rows=rows, widths=widths_of(layout, boards))
    voids = [view.box(v.x / 64, v.y / 64, v.w / 64, v.h / 64) for v in surface.voids]
    taken = Taken(list(voids))
    outline = view.ring([(x / 64, y / 64) for x, y in surface.outline])
    blanks = [
        rect(x=b.left, y=b.top, w=b.right - b.left, h=b.bottom - b.top, width=HAIR, fill="paper")
        for b in voids
    ]
    numbers = []
    for piece in pieces:
        ring = view.ring([(x / 64, y / 64) for x, y in piece_corners(piece)])
        numbers.append(_number(marks[piece], ring, taken))
    return group(
        polygon(outline, width=FINE, fill="paper"),
        *blanks,
        *(draw_joint(joint, view) for joint in found),
        polygon(outline, width=LINE),
        *numbers,
        data_kind="surface",
        data_id=surface.id,
    )


def _number(mark: str, ring: list[tuple[float, float]], taken: Taken) -> Svg:
    """Write the mark of a piece where it fits, level or upright; on the tiniest across its edges."""
    for size, upright in ((NORMAL, False), (NORMAL, True), (SMALL, False), (SMALL, True)):
        wide, tall = text_width(mark, size=size) + 1, size * 1.05
        place = free_place([ring], (tall, wide) if upright else (wide, tall), taken, margin=0)
        if place:
            at = ((place.left + place.right) / 2, (place.top + place.bottom) / 2)
            return letters(mark, x=at[0], y=at[1], size=size, bold=True, halo=True, upright=upright)
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    narrow = max(ys) - min(ys) > max(xs) - min(xs)
    return letters(mark, x=x, y=y, size=SMALL, bold=True, halo=True, upright=narrow)
