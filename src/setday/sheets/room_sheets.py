"""Sheets of the boards of one room: its surfaces, as many on a page as still read, and one list of pieces."""

from collections.abc import Iterator, Sequence

from setday.boards import Board, Layout, Surface
from setday.drawing import (
    LETTER,
    Paper,
    Table,
    board_layout,
    board_layout_scale,
    room_piece_table,
)
from setday.needs import Need
from setday.sheets.blocks import UNITS_PER_INCH, Block, Picture, PictureRow, Sheet, TableBlock, WorkingBlock
from setday.working import Working

__all__ = ["room_board_sheet", "room_board_sheets"]

_BESIDE = LETTER.width / 2 - 7
"""Width of a drawing that has another one beside it [drawing units]."""
_HEIGHTS = (480, 450, 420)
"""Heights of paper tried; what is drawn is lower than its paper, by how much its dimensions say."""
_TWO_ROWS, _ONE_AND_A_BIT = 405, 460
"""Height of a drawing that goes twice on a page, and of one that goes with a lower one [drawing units]."""
_WHOLE = Paper(width=LETTER.width, height=620)
_READS = 0.25 * UNITS_PER_INCH / 12
"""Drawing units per inch of house at 1/4 in to the foot: below it few sizes stand on their pieces."""
_PIECE_WIDTHS = (*("auto",) * 5, "1fr")


def room_board_sheets(
    surfaces: Sequence[Surface], layout: Layout, *, boards: Sequence[Board], needs: Sequence[Need] = ()
) -> Iterator[Sheet]:
    """Yield the sheets of every room, in the order in which the rooms are begun.

    Parameters
    ----------
    surfaces : sequence of Surface
        As the layout problem has them.
    layout : Layout
    boards : sequence of Board
        The price list.
    needs : sequence of Need
        Those whose place is a room, a surface's id or its label are printed with it.
    """
    rooms: dict[str, list[Surface]] = {}
    for surface in surfaces:
        rooms.setdefault(surface.room, []).append(surface)
    for room, mine in rooms.items():
        places = {room, *(s.id for s in mine), *(s.label for s in mine)}
        yield room_board_sheet(
            mine, layout, boards=boards, needs=[need for need in needs if need.place in places]
        )


def room_board_sheet(
    surfaces: Sequence[Surface],
    layout: Layout,
    *,
    boards: Sequence[Board],
    needs: Sequence[Need] = (),
    workings: Sequence[Working] = (),
) -> Sheet:
    """Return the surfaces of one room with their boards: drawings, pieces, what else they take.

    Parameters
    ----------
    surfaces : sequence of Surface
        Of one room, in hanging order.
    layout : Layout
    boards : sequence of Board
        The price list.
    needs : sequence of Need
        Fasteners, compound, tape, bead of these surfaces.
    workings : sequence of Working
        Printed beneath.
    """
    blocks: list[Block] = list(_drawn(surfaces, layout, boards))
    blocks.append(TableBlock(table=room_piece_table(surfaces, layout), widths=_PIECE_WIDTHS))
    if needs:
        blocks.append(TableBlock(table=_need_table(needs)))
    blocks += [WorkingBlock(working=working) for working in workings]
    return Sheet(title=f"Boards: {surfaces[0].room}", blocks=tuple(blocks))


def _drawn(surfaces: Sequence[Surface], layout: Layout, boards: Sequence[Board]) -> Iterator[PictureRow]:
    """Yield the drawings in hanging order; a narrow one waits for the next narrow one, to stand beside it."""
    waiting: Picture | None = None
    for surface in surfaces:
        picture, narrow = _picture(surface, layout, boards)
        if not narrow:
            yield PictureRow(pictures=(picture,))
        elif waiting is None:
            waiting = picture
        else:
            yield PictureRow(pictures=(waiting, picture))
            waiting = None
    if waiting is not None:
        yield PictureRow(pictures=(waiting,))


def _picture(surface: Surface, layout: Layout, boards: Sequence[Board]) -> tuple[Picture, bool]:
    """Return the smallest drawing of a surface that still reads, and whether another may stand beside it."""
    for width in (_BESIDE, LETTER.width):
        papers = [Paper(width=width, height=height) for height in _HEIGHTS]
        drawn = [
            Picture(svg=board_layout(surface, layout, boards=boards, paper=paper))
            for paper in papers
            if board_layout_scale(surface, layout, boards=boards, paper=paper).per_inch >= _READS
        ]
        for high in (_TWO_ROWS, _ONE_AND_A_BIT):
            for picture in drawn:
                if picture.size_in[1] * UNITS_PER_INCH <= high:
                    return picture, width == _BESIDE
    return Picture(svg=board_layout(surface, layout, boards=boards, paper=_WHOLE)), False


def _need_table(needs: Sequence[Need]) -> Table:
    """Return what a room takes besides boards, each thing once."""
    sums: dict[tuple[str, str, str], float] = {}
    for need in needs:
        what = (need.label, need.unit, need.phase)
        sums[what] = sums.get(what, 0.0) + need.quantity
    return Table(
        caption="Fasteners and finish",
        head=("What", "How much", "For"),
        rows=tuple((label, f"{much:,.1f} {unit}", phase) for (label, unit, phase), much in sums.items()),
        figures=(False, True, False),
    )
