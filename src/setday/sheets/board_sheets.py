"""Sheets of the boards: every surface, the cut list, how boards are cut."""

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum

from setday.boards import (
    Board,
    BoardProblem,
    CutList,
    Layout,
    Piece,
    Surface,
    board_words,
    cuts_in_words,
    is_shaped,
)
from setday.drawing import (
    LETTER,
    READ_SHAPED,
    Paper,
    Table,
    cutting_diagram,
    house_boards_overview,
    overview_height,
    piece_marks,
    piece_size,
    shaped_pieces,
)
from setday.measure import Length
from setday.sheets.blocks import Block, Heading, Note, Picture, PictureGrid, Sheet, TableBlock

__all__ = [
    "CutBy",
    "board_list_sheet",
    "cut_list_sheet",
    "cutting_sheet",
    "overview_sheets",
]

_HALF = Paper(width=345, height=300, to_scale=False)
_NAMING = (
    "A piece is named by its board: 17 is the only piece of board 17; 17a and 17b are both cut from it. "
    "Sizes are length along the row x height. Starts at: from the end of the board. Cut-outs are measured on "
    "the piece as it hangs, seen from the room: from its left end and its lower edge."
)


class CutBy(StrEnum):
    """How a cut list is divided."""

    HOUSE = "house"
    ROOM = "room"
    DAY = "day"
    CREW = "crew"


def cut_list_sheet(
    problem: BoardProblem, layout: Layout, *, by: CutBy = CutBy.ROOM, crews: Mapping[str, str] | None = None
) -> Sheet:
    """Return the cut list, in hanging order within each part.

    Parameters
    ----------
    problem : BoardProblem
    layout : Layout
    by : CutBy
        One part for the house, for each room, for each day or for each crew.
    crews : mapping or None
        Crew by id of surface, for `CutBy.CREW`; surfaces of no crew come under "no crew yet".
    """
    surfaces = {surface.id: surface for surface in problem.surfaces}
    parts: dict[str, list[tuple[str, ...]]] = {}
    for row, surface_id in _cut_rows(problem, layout):
        parts.setdefault(_part(surfaces[surface_id], by, crews or {}), []).append(row)
    head = ("Piece", "Size", "From a board", "Starts at", "Hung on", "Row", "Done")
    tables = (
        TableBlock(
            table=Table(
                caption=name,
                head=head,
                rows=tuple(rows),
                figures=(False, False, False, True, False, True, False),
            ),
            widths=("auto", "auto", "auto", "auto", "1fr", "auto", "auto"),
        )
        for name, rows in parts.items()
    )
    words = {CutBy.HOUSE: "whole house"}.get(by, f"by {by.value}")
    return Sheet(title=f"Cut list, {words}", blocks=(Note(text=_NAMING), *tables))


def _cut_rows(problem: BoardProblem, layout: Layout) -> Iterable[tuple[tuple[str, ...], str]]:
    marks = piece_marks(layout)
    rows = {entry.surface: entry.rows for entry in layout.surfaces}
    keys = {bought.number: bought.key for bought in layout.boards}
    boards = {board.key: board for board in problem.boards}
    labels = {surface.id: surface.label for surface in problem.surfaces}
    surfaces = {surface.id: surface for surface in problem.surfaces}
    for piece in layout.pieces:
        board = boards[keys[piece.board]]
        stock = f"{board_words(Length(board.width), Length(board.length))} {board.kind}"
        start = str(Length(piece.board_x))
        size = piece_size(piece, rows[piece.surface])
        shape = cuts_in_words(piece, surfaces[piece.surface])
        row = (
            marks[piece],
            size,
            stock,
            start,
            "; ".join((labels[piece.surface], *shape)),
            str(piece.row + 1),
            "\N{WHITE SQUARE}",
        )
        yield row, piece.surface


def _part(surface: Surface, by: CutBy, crews: Mapping[str, str]) -> str:
    if by is CutBy.ROOM:
        return surface.room
    if by is CutBy.DAY:
        return f"Day {surface.day}"
    if by is CutBy.CREW:
        return crews.get(surface.id, "no crew yet")
    return "All boards"


def board_list_sheet(listed: CutList) -> Sheet:
    """Return for every board its cuts in one sentence, as called out at the saw horses, by hanging day."""
    blocks: list[Block] = []
    for day in listed.days:
        rows = tuple((board.sentence, "\N{WHITE SQUARE}") for board in listed.boards if board.day == day)
        table = Table(caption=f"Day {day}", head=("Board and its cuts", "Done"), rows=rows)
        blocks.append(TableBlock(table=table, widths=("1fr", "auto")))
    return Sheet(title="Cut list, board by board", blocks=tuple(blocks))


def cutting_sheet(problem: BoardProblem, layout: Layout) -> Sheet:
    """Return a picture of every board that is cut, each shaped piece by itself, and the boards hung whole."""
    boards = {board.key: board for board in problem.boards}
    surfaces = {surface.id: surface for surface in problem.surfaces}
    whole: list[int] = []
    pictures: list[Picture] = []
    for bought in layout.boards:
        board = boards[bought.key]
        pieces = [piece for piece in layout.pieces if piece.board == bought.number]
        if _hung_whole(pieces, board, surfaces):
            whole.append(bought.number)
        else:
            pictures += _cutting_pictures(problem, layout, bought.number)
    blocks: list[Block] = []
    if whole:
        blocks.append(Note(text=f"Hung whole: {', '.join(str(number) for number in whole)}."))
    if pictures:
        blocks += [Note(text=READ_SHAPED), PictureGrid(pictures=tuple(pictures))]
    return Sheet(title="How each board is cut", blocks=tuple(blocks))


def _hung_whole(pieces: Sequence[Piece], board: Board, surfaces: Mapping[str, Surface]) -> bool:
    if len(pieces) != 1:
        return False
    piece = pieces[0]
    return sorted((piece.w, piece.h)) == sorted((board.width, board.length)) and not is_shaped(
        piece, surfaces[piece.surface]
    )


def _cutting_pictures(problem: BoardProblem, layout: Layout, number: int) -> list[Picture]:
    svg = cutting_diagram(
        layout, number=number, boards=problem.boards, surfaces=problem.surfaces, paper=_HALF, details=False
    )
    alone = shaped_pieces(layout, number=number, surfaces=problem.surfaces, width=_HALF.width)
    return [Picture(svg=drawn, widest_in=3.6, highest_in=4.0) for drawn in (svg, *alone)]


def overview_sheets(problem: BoardProblem, layout: Layout) -> tuple[Sheet, ...]:
    """Return all surfaces small, so many on a sheet that the numbers still read."""
    sheets: list[Sheet] = []
    left = list(problem.surfaces)
    while left:
        count = next(
            (n for n in range(len(left), 1, -1) if overview_height(left[:n]) <= LETTER.height - 40), 1
        )
        some, left = left[:count], left[count:]
        svg = house_boards_overview(some, layout, boards=problem.boards, key=f"overview-{len(sheets) + 1}")
        rooms = ", ".join(dict.fromkeys(surface.room for surface in some))
        sheets.append(Sheet(title="Boards at a glance", blocks=(Heading(text=rooms), Picture(svg=svg))))
    return tuple(sheets)
