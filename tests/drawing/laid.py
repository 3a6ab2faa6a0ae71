"""One wall laid out by hand: three boards in two rows, for drawings and sheets."""

from setday.boards import (
    Board,
    BoughtBoard,
    Joist,
    Layout,
    Piece,
    Rows,
    Surface,
    SurfaceKind,
    SurfaceRows,
    Void,
)

__all__ = ["one_layout", "one_surface", "price_list", "sixty"]


def sixty(value: float) -> int:
    return round(value * 64)


def price_list() -> tuple[Board, ...]:
    return tuple(
        Board(
            key=f"board-regular-1/2-{width}x{length}",
            kind="regular-1/2",
            width=sixty(width),
            length=sixty(length),
            price_cents=cents,
        )
        for width, length, cents in ((48, 96, 1200), (48, 144, 1800))
    )


def one_surface() -> Surface:
    """A wall of 12'-6" by 8'-0" with a window."""
    return Surface(
        id="bedroom/north",
        label="bedroom, north wall",
        room="bedroom",
        kind=SurfaceKind.WALL,
        outline=((0, 0), (sixty(150), 0), (sixty(150), sixty(96)), (0, sixty(96))),
        voids=(Void(x=sixty(52), y=sixty(34), w=sixty(40), h=sixty(46), name="north window"),),
        members=tuple(Joist(x=sixty(x), y_low=0, y_high=sixty(96)) for x in range(16, 150, 16)),
        board_kind="regular-1/2",
        rows=(Rows.ALONG,),
        longest=sixty(144),
        member_spacing=sixty(16),
        sequence=1,
    )


def _piece(
    row: int, box_in: tuple[float, float, float, float], board: int, board_at: tuple[float, float]
) -> Piece:
    x, y, w, h = box_in
    return Piece(
        surface="bedroom/north",
        row=row,
        x=sixty(x),
        y=sixty(y),
        w=sixty(w),
        h=sixty(h),
        board=board,
        board_x=sixty(board_at[0]),
        board_y=sixty(board_at[1]),
    )


def one_layout() -> Layout:
    """Two rows with one butt joint each on `one_surface`, from three boards."""
    return Layout(
        surfaces=(SurfaceRows(surface="bedroom/north", rows=Rows.ALONG, edges=(0, sixty(48), sixty(96))),),
        boards=(
            BoughtBoard(number=1, key="board-regular-1/2-48x144"),
            BoughtBoard(number=2, key="board-regular-1/2-48x96"),
            BoughtBoard(number=3, key="board-regular-1/2-48x96"),
        ),
        pieces=(
            _piece(1, (0, 48, 112, 48), 1, (0, 0)),
            _piece(1, (112, 48, 38, 48), 2, (0, 0)),
            _piece(0, (0, 0, 96, 48), 3, (0, 0)),
            _piece(0, (96, 0, 54, 48), 2, (38, 0)),
        ),
        relaxed=('bedroom, north wall: a joint stands 12" from the one above instead of 16".',),
    )
