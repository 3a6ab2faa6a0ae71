"""The kept boards of a surface on a crew's sheet, with their lengths."""

from collections.abc import Iterator
from dataclasses import replace

from setday.boards import BoardFigure, Layout, Surface
from setday.drawing import Paper, board_layout

__all__ = ["boards_of"]


def boards_of(
    figure: BoardFigure, surface_id: str, *, paper: Paper, key: str, alone: bool = False
) -> Iterator[str]:
    """Yield a drawing of each layer and part of a surface of the house with its boards.

    Parameters
    ----------
    figure : BoardFigure
        With a layout that passed its check; nothing is drawn without one.
    surface_id : str
        Of the house.
    paper : Paper
    key : str
        Prefix of the ids.
    alone : bool
        Number the boards on this surface by itself, so that a gap between two rooms tells no count.
    """
    layout = figure.outcome.layout
    if layout is None:
        return
    on_it = {note.surface for note in figure.prepared.notes if note.house_surface == surface_id}
    for surface in figure.prepared.problem.surfaces:
        if surface.id in on_it and any(piece.surface == surface.id for piece in layout.pieces):
            hung = _alone(layout, surface) if alone else layout
            yield board_layout(
                surface, hung, boards=figure.prepared.problem.boards, paper=paper, members=False, key=key
            )


def _alone(layout: Layout, surface: Surface) -> Layout:
    """Return the layout of one surface, its boards counted from 1."""
    pieces = [piece for piece in layout.pieces if piece.surface == surface.id]
    numbers = {board: n for n, board in enumerate(dict.fromkeys(piece.board for piece in pieces), start=1)}
    return replace(
        layout,
        pieces=tuple(replace(piece, board=numbers[piece.board]) for piece in pieces),
        boards=tuple(
            replace(bought, number=numbers[bought.number])
            for bought in layout.boards
            if bought.number in numbers
        ),
    )
