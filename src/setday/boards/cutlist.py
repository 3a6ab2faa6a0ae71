"""The cut list: for every board its cuts in words, by room, by day, by crew."""

from dataclasses import dataclass

from setday.boards.cutting import board_box
from setday.boards.laidout import LaidOut, length_along
from setday.boards.outcome import Piece
from setday.boards.problem import Board, Rows, Surface, SurfaceKind
from setday.measure import Length, write_feet_inches

__all__ = ["BoardCuts", "CrewShare", "Cut", "CutList", "cut_list", "share_among_crews"]

_SQFT = (12 * 64) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece of a board: how long and wide it is and where it goes.

    Parameters
    ----------
    piece : int
        Its place in the layout's pieces, from 0.
    surface, label, room : str
        Where it hangs.
    row : str
        Which row, in words.
    length, width : Length
        Along and across its board.
    shaped : bool
        True when it is more than a rectangle: cut around an opening or to a slope.
    day : int
    """

    piece: int
    surface: str
    label: str
    room: str
    row: str
    length: Length
    width: Length
    shaped: bool
    day: int

    @property
    def place(self) -> str:
        """Where it goes, in words: "upper row, bedroom, north wall"."""
        return f"{self.row}, {self.label}" if self.row else self.label


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCuts:
    """One board and its cuts in hanging order.

    Parameters
    ----------
    number : int
    key : str
        On the price list.
    length, width : Length
    cuts : tuple of Cut
    left_over : Length
        Length left at the end of the board beyond the last piece.
    room : str
        Where its first piece hangs.
    day : int
        When its first piece hangs.
    """

    number: int
    key: str
    length: Length
    width: Length
    cuts: tuple[Cut, ...]
    left_over: Length
    room: str
    day: int

    @property
    def sentence(self) -> str:
        """The cuts in one sentence, as called out at the saw horses."""
        said = [_say(cut, self, first=n == 0) for n, cut in enumerate(self.cuts)]
        rest = f"; {self.left_over} left over" if self.left_over else ""
        return f"board {self.number}, {_short(self.length)}: {'; '.join(said)}{rest}"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """The cut list of a house, boards in cutting order."""

    boards: tuple[BoardCuts, ...]

    def for_room(self, room: str) -> tuple[BoardCuts, ...]:
        """Return the boards of which a piece hangs in a room."""
        return tuple(board for board in self.boards if any(cut.room == room for cut in board.cuts))

    def for_day(self, day: int) -> tuple[BoardCuts, ...]:
        """Return the boards of which a piece hangs on a day."""
        return tuple(board for board in self.boards if any(cut.day == day for cut in board.cuts))

    @property
    def rooms(self) -> tuple[str, ...]:
        """The rooms in the order of their first piece."""
        return tuple(dict.fromkeys(cut.room for board in self.boards for cut in board.cuts))

    @property
    def days(self) -> tuple[int, ...]:
        """The hanging days."""
        return tuple(sorted({cut.day for board in self.boards for cut in board.cuts}))


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewShare:
    """What one crew hangs on one day: whole rooms, so that crews do not stand in each other's way."""

    day: int
    crew: int
    rooms: tuple[str, ...]
    area_sqft: float
    boards: tuple[BoardCuts, ...]


def cut_list(laid: LaidOut) -> CutList:
    """Return the cut list of a verified layout."""
    cuts: dict[int, list[Cut]] = {}
    for number, piece in enumerate(laid.layout.pieces):
        cuts.setdefault(piece.board, []).append(_cut(number, piece, laid))
    return CutList(boards=tuple(_board(number, tuple(own), laid) for number, own in sorted(cuts.items())))


def share_among_crews(listed: CutList, *, crews: int) -> tuple[CrewShare, ...]:
    """Share the rooms of each day among crews, the largest room first to the crew with least to do.

    Parameters
    ----------
    listed : CutList
    crews : int
        At least 1.
    """
    if crews < 1:
        raise ValueError("at least one crew hangs boards")
    shares = []
    for day in listed.days:
        areas: dict[str, float] = {}
        for cut in (cut for board in listed.boards for cut in board.cuts if cut.day == day):
            piece_area = cut.length.sixtyfourths * cut.width.sixtyfourths / _SQFT
            areas[cut.room] = areas.get(cut.room, 0.0) + piece_area
        load = [0.0] * crews
        rooms: list[list[str]] = [[] for _ in range(crews)]
        for room in sorted(areas, key=lambda r: (-areas[r], r)):
            crew = load.index(min(load))
            load[crew] += areas[room]
            rooms[crew].append(room)
        shares += [
            CrewShare(
                day=day, crew=n + 1, rooms=tuple(rooms[n]), area_sqft=load[n],
                boards=tuple(b for b in listed.for_day(day) if b.room in rooms[n] and b.day == day),
            )
            for n in range(crews)
            if rooms[n]
        ]  # fmt: skip
    return tuple(shares)


def _board(number: int, cuts: tuple[Cut, ...], laid: LaidOut) -> BoardCuts:
    pieces = [laid.layout.pieces[cut.piece] for cut in cuts]
    board: Board = laid.board_of(pieces[0])
    used = max(board_box(piece, laid.rows_of(piece))[2] for piece in pieces)
    return BoardCuts(
        number=number,
        key=board.key,
        length=Length(board.length),
        width=Length(board.width),
        cuts=cuts,
        left_over=Length(board.length - used),
        room=cuts[0].room,
        day=cuts[0].day,
    )


def _cut(number: int, piece: Piece, laid: LaidOut) -> Cut:
    surface, rows = laid.surfaces[piece.surface], laid.rows_of(piece)
    length = length_along(piece, rows)
    width = piece.h if rows is Rows.ALONG else piece.w
    inside = any(_cut_out(piece, v.x, v.y, v.x + v.w, v.y + v.h) for v in surface.voids)
    return Cut(
        piece=number,
        surface=surface.id,
        label=surface.label,
        room=surface.room,
        row=_row_words(surface, rows, piece.row, len(laid.divided[surface.id].edges) - 1),
        length=Length(length),
        width=Length(width),
        shaped=bool(piece.outline) or inside,
        day=surface.day,
    )


def _cut_out(piece: Piece, left: int, bottom: int, right: int, top: int) -> bool:
    """Return whether an opening is cut out of the middle of a piece."""
    across = left < piece.x + piece.w and piece.x < right
    return across and bottom < piece.y + piece.h and piece.y < top


def _row_words(surface: Surface, rows: Rows, row: int, count: int) -> str:
    if count == 1:
        return ""
    if rows is Rows.ACROSS:
        return f"upright board {row + 1} of {count} from the left"
    if surface.kind is SurfaceKind.CEILING:
        return f"row {row + 1} of {count}"
    if row == count - 1:
        return "upper row"
    return "lower row" if row == 0 else f"row {row + 1} of {count} from the floor"


def _say(cut: Cut, board: BoardCuts, *, first: bool) -> str:
    ripped = "" if cut.width == board.width else f" ({write_feet_inches(cut.width)} wide)"
    shaped = ", cut out" if cut.shaped else ""
    lead = "" if first else "from the rest "
    return f"{lead}{write_feet_inches(cut.length)}{ripped} to {cut.place}{shaped}"


def _short(length: Length) -> str:
    """Write a board's length as it is called: "12 ft"."""
    return f"{length.feet:g} ft"
