"""Which crew hangs pieces of another crew's boards, and so waits for its off-cuts."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards import CrewShare, CutList

__all__ = ["Awaited", "awaited"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Awaited:
    """Boards another crew cuts first: their off-cuts are hung by this one."""

    crew: int
    day: int
    same_day: bool
    boards: tuple[int, ...]


def awaited(listed: CutList, shares: Sequence[CrewShare]) -> list[tuple[CrewShare, tuple[Awaited, ...]]]:
    """Return each crew's share of a day with the boards whose off-cuts come from other crews.

    Who cuts a board first is who hangs its first piece; a crew needs nothing from itself on the same day
    or an earlier one.
    """
    hangs = {(share.day, room): share for share in shares for room in share.rooms}
    found: dict[tuple[int, int], dict[tuple[int, int], set[int]]] = {}
    for board in listed.boards:
        first = hangs.get((board.day, board.room))
        for cut in board.cuts:
            share = hangs.get((cut.day, cut.room))
            if first is None or share is None or share.crew == first.crew:
                continue
            own = found.setdefault((share.day, share.crew), {})
            own.setdefault((first.day, first.crew), set()).add(board.number)
    return [(share, _in_order(share, found.get((share.day, share.crew), {}))) for share in shares]


def _in_order(share: CrewShare, boards: dict[tuple[int, int], set[int]]) -> tuple[Awaited, ...]:
    return tuple(
        Awaited(crew=crew, day=day, same_day=day == share.day, boards=tuple(sorted(numbers)))
        for (day, crew), numbers in sorted(boards.items())
    )
