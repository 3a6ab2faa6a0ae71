"""What counts against a repair, in near places changed."""

from dataclasses import dataclass

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
    paused : int
        A task that begins when planned, but does not go on in the next period it could.
    """

    allowed: int
    late: int = 150
    soon: int = 8
    finish: int = 3
    moved: int = 8
    moved_near: int = 10
    place: int = 1
    paused: int = 4

    def of_finish(self, period: int) -> int:
        """Return what it counts that not all is done before `period`."""
        if period >= self.allowed:
            return self.late
        return self.soon if period >= self.allowed - 2 else self.finish

    def of_move(self, was: int | None, near: int) -> int:
        """Return what it counts that a task planned for period `was` begins in another."""
        return self.moved_near if was is not None and was < near else self.moved

    def of(self, *, finish: int, moves: list[int | None], near: int, places: int) -> int:
        """Return what a repair counts: its finish, when what moves was planned, near places changed."""
        whole = sum(self.of_finish(period) for period in range(finish))
        return whole + sum(self.of_move(was, near) for was in moves) + self.place * places
