"""What counts against a repair, in near places changed."""

from dataclasses import dataclass
from typing import ClassVar

__all__ = ["Prices"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What counts against a repair, in near places changed.

    Parameters
    ----------
    allowed : int
        The latest finish that is not late.
    late : int
        A period of finish beyond it.
    soon : int
        A period of finish among the last ones allowed: a little earlier than need be, if little moves.
    finish : int
        A period of finish before those.
    moved, moved_near : int
        A task that begins in another period than planned.
    place : int
        A near place changed.
    waiting : int
        A period in which a task that has begun could go on and does not.
    paused : int
        A task that begins when planned, but does not go on in the next period it could.
    """

    WAITING: ClassVar[int] = 1
    LATE: ClassVar[int] = 150
    MISSED: ClassVar[int] = 1500

    allowed: int
    late: int = LATE
    soon: int = 8
    finish: int = 3
    moved: int = 8
    moved_near: int = 10
    place: int = 1
    waiting: int = WAITING
    paused: int = 4

    def of_finish(self, period: int) -> int:
        """Return what it counts that not all is done before `period`."""
        if period >= self.allowed:
            return self.late
        return self.soon if period >= self.allowed - 2 else self.finish

    def of_move(self, was: int | None, near: int) -> int:
        """Return what it counts that a task planned for period `was` begins in another."""
        return self.moved_near if was is not None and was < near else self.moved

    def of(self, *, finish: int, moves: list[int | None], near: int, places: int, waiting: int) -> int:
        """Return what a repair counts.

        Parameters
        ----------
        finish : int
            Its finish.
        moves : list of int or None
            When the tasks that move were planned.
        near : int
            How many periods are near.
        places : int
            Near places changed.
        waiting : int
            Periods in which tasks that have begun could go on and do not, all together.
        """
        whole = sum(self.of_finish(period) for period in range(finish))
        whole += sum(self.of_move(was, near) for was in moves)
        return whole + self.place * places + self.waiting * waiting
