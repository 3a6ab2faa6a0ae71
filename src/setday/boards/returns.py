"""Returns: the sides and heads of window openings where they are cased with board."""

from collections.abc import Iterable

from setday.boards.outline import rectangle
from setday.boards.problem import Rows, SurfaceKind
from setday.boards.problem import Surface as BoardSurface
from setday.house import House, OpeningKind, Surface
from setday.measure import Length
from setday.rules import RuleBook

__all__ = ["return_strips"]


def return_strips(
    surface: Surface, house: House, like: BoardSurface, *, thickness: Length, rules: RuleBook
) -> Iterable[BoardSurface]:
    """Return the strips of board that case the openings of a wall surface, without sills.

    Each strip is as deep as the wall's framing and its board, less what a window takes up of it; doors
    have jambs and get none.

    Parameters
    ----------
    surface : Surface
        The house's surface.
    house : House
    like : BoardSurface
        The problem's surface on it; the strips take its kind of board, room, day and longest board.
    thickness : Length
        Of that board.
    rules : RuleBook
    """
    if rules.choice("boards.returns") != "board":
        return
    depths = {wall.name: wall.kind.depth for wall in house.walls}
    depth = max((depths[span.wall] for span in surface.spans if span.wall in depths), default=Length(0))
    far_side = {span.wall for span in surface.spans if span.side == "right"}
    outside = {wall.name for wall in house.walls if wall.kind.outside}
    for opening in surface.openings:
        # An opening between two rooms is cased once, from the left side of its wall.
        if opening.kind == OpeningKind.DOOR.value or far_side - outside:
            continue
        frame = rules.length("boards.return_frame")
        taken = frame if opening.kind == OpeningKind.WINDOW.value else Length(0)
        deep = (depth + thickness - taken).sixtyfourths
        sides = (("head", opening.w), ("left", opening.h), ("right", opening.h))
        for name, length in sides:
            if deep > 0:
                yield _strip(like, f"{opening.name}-{name}", f"{opening.name}, {name} return", length, deep)


def _strip(like: BoardSurface, key: str, words: str, length: Length, deep: int) -> BoardSurface:
    return BoardSurface(
        id=f"{like.id}:{key.replace(' ', '-')}",
        label=f"{like.label}, {words}",
        room=like.room,
        kind=SurfaceKind.WALL,
        outline=rectangle(0, 0, length.sixtyfourths, deep),
        voids=(),
        members=(),
        board_kind=like.board_kind,
        rows=(Rows.ALONG,),
        longest=like.longest,
        member_spacing=like.member_spacing,
        sequence=like.sequence,
        day=like.day,
    )
