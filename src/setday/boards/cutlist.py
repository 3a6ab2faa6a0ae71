"""The cut list: for every board its cuts in words, by room, by day, by crew."""

from dataclasses import dataclass

from setday.boards.cutouts import cuts_in_words
from setday.boards.cutting import board_box
from setday.boards.laidout import LaidOut, length_along
from setday.boards.marks import board_words, marks_in_order
from setday.boards.problem import Board, Rows, Surface, SurfaceKind
from setday.measure import Length

__all__ = ["BoardCuts", "CrewShare", "Cut", "CutList", "cut_list", "share_among_crews"]

_SQFT = (12 * 64) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece of a board: how long and wide it is and where it goes.

    Parameters
    ----------
    piece : int
        Its place in the layout's pieces, from 0.
    mark : str
        What is written on it: "17", or "17a" and "17b" where board 17 gives several pieces.
    surface, label, room : str
        Where it hangs.
    row : str
        Which row, in words.
    length, width : Length
        Along and across its board.
    shape : tuple of str
        What is cut out of it and where it slopes, in words; empty for a rectangle.
    day : int
    """

    piece: int
    mark: str
    surface: str
    label: str
    room: str
    row: str
    length: Length
    width: Length
    shape: tuple[str, ...]
    day: int

    @property
    def size(self) -> str:
        """Its size: length along the row, then height."""
        return f"{self.length} x {self.width}"

    @property
    def shaped(self) -> bool:
        """True when it is more than a rectangle."""
        return bool(self.shape)

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
    def size(self) -> str:
        """Its size as it is sold: "4 x 12 ft"."""
        return board_words(self.width, self.length)

    @property
    def sentence(self) -> str:
        """The cuts in one sentence, as called out at the saw horses."""
        said = [_say(cut, self, first=n == 0) for n, cut in enumerate(self.cuts)]
        rest = f"; {self.left_over} left over" if self.left_over else ""
        return f"board {self.number}, {self.size}: {'; '.join(said)}{rest}"


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
    marks = marks_in_order(laid.layout)
    for number, piece in enumerate(laid.layout.pieces):
        cuts.setdefault(piece.board, []).append(_cut(number, marks[number], laid))
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


def _cut(number: int, mark: str, laid: LaidOut) -> Cut:
    piece = laid.layout.pieces[number]
    surface, rows = laid.surfaces[piece.surface], laid.rows_of(piece)
    width = piece.h if rows is Rows.ALONG else piece.w
    return Cut(
        piece=number,
        mark=mark,
        surface=surface.id,
        label=surface.label,
        room=surface.room,
        row=_row_words(surface, rows, piece.row, len(laid.divided[surface.id].edges) - 1),
        length=Length(length_along(piece, rows)),
        width=Length(width),
        shape=cuts_in_words(piece, surface),
        day=surface.day,
    )


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
    lead = "" if first else "from the rest "
    mark = f"{cut.mark}, " if len(board.cuts) > 1 else ""
    shape = f" ({'; '.join(cut.shape)})" if cut.shape else ""
    return f"{lead}{mark}{cut.size}, to {cut.place}{shape}"
