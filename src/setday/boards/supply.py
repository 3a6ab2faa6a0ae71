"""Whether the price list has boards for every surface, and how long they may be."""

from fractions import Fraction

from setday.boards.choices import BoardChoices
from setday.boards.problem import Board
from setday.boards.problem import Surface as BoardSurface
from setday.findings import Finding, Severity, Where
from setday.house import House
from setday.measure import Length, write_inches
from setday.rules import load_table

__all__ = ["longest_carried", "supply_findings"]


def longest_carried(room: str, kind: str, choices: BoardChoices, boards: tuple[Board, ...]) -> int:
    """Return the longest board of a kind that can be carried into a room [1/64 in]."""
    on_list = max((b.length for b in boards if b.kind == kind), default=0)
    limits = [c.longest.sixtyfourths for c in choices.carry_in if c.room in ("", room)]
    return min([on_list, *limits])


def supply_findings(
    surfaces: tuple[BoardSurface, ...], boards: tuple[Board, ...], choices: BoardChoices, house: House
) -> tuple[Finding, ...]:
    """Find kinds that the price list lacks, rooms no board gets into, and rooms that do not exist."""
    findings = [*_lacking(surfaces, boards), *_unknown_rooms(choices, house), *_odd_sizes(boards)]
    known = {b.kind for b in boards}
    for room in dict.fromkeys(s.room for s in surfaces):
        for kind in dict.fromkeys(s.board_kind for s in surfaces if s.room == room):
            longest = min(s.longest for s in surfaces if s.room == room and s.board_kind == kind)
            if kind in known and not any(b.kind == kind and b.length <= longest for b in boards):
                findings.append(_too_long(room, kind, longest, boards, choices))
    return tuple(findings)


def _lacking(surfaces: tuple[BoardSurface, ...], boards: tuple[Board, ...]) -> list[Finding]:
    known = {b.kind for b in boards}
    findings = []
    for kind in sorted({s.board_kind for s in surfaces} - known):
        labels = [s.label for s in surfaces if s.board_kind == kind]
        more = f" and {len(labels) - 3} more" if len(labels) > 3 else ""
        findings.append(
            Finding(
                rule="boards.kind-not-on-price-list",
                about=f"board of kind {kind!r}",
                found=f"{', '.join(labels[:3])}{more} take it, and the price list has none.",
                expected=f"one of: {', '.join(sorted(known)) or 'a price list with boards'}.",
                do="Add the board to the price list, or choose another kind for these surfaces.",
            )
        )
    return findings


def _unknown_rooms(choices: BoardChoices, house: House) -> list[Finding]:
    rooms = [room.name for room in house.rooms]
    return [
        Finding(
            rule="boards.no-such-room",
            about="longest board carried in",
            found=f"there is no room {carry.room!r}.",
            expected=f"one of: {', '.join(rooms)}.",
            do="Correct the room's name.",
            where=carry.where,
        )
        for carry in choices.carry_in
        if carry.room and carry.room not in rooms
    ]


def _odd_sizes(boards: tuple[Board, ...]) -> list[Finding]:
    table = load_table("setday.boards", "stock")
    sizes = {
        (row["dimension"], Length.of(inches=Fraction(row["value_in"])).sixtyfourths) for row in table.rows
    }
    return [
        Finding(
            rule="boards.unusual-size",
            about=f"board {board.key} on the price list",
            found=f"it is {write_inches(Length(board.width))} wide and {Length(board.length)} long.",
            expected="a size that is made: 48 or 54 in wide, 8, 9, 10, 12, 14 or 16 ft long.",
            do="Check width and length on the price list; the layout takes them as written.",
            severity=Severity.ASK,
            source=table.source_of(table.rows[0]),
        )
        for board in boards
        if ("width", board.width) not in sizes or ("length", board.length) not in sizes
    ]


def _too_long(
    room: str, kind: str, longest: int, boards: tuple[Board, ...], choices: BoardChoices
) -> Finding:
    shortest = min(b.length for b in boards if b.kind == kind)
    where = next((c.where for c in choices.carry_in if c.room in ("", room)), Where())
    return Finding(
        rule="boards.no-board-short-enough",
        about=f"{room}, board of kind {kind!r}",
        found=f"boards up to {Length(longest)} can be carried in, and the shortest on the price list "
        f"is {Length(shortest)}.",
        expected="at least one board that can be carried in.",
        do="Add a shorter board to the price list, or find a longer way in.",
        where=where,
    )
