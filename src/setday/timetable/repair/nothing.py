"""A timetable sought from nothing beside a repair: what finish is possible, and one that has it."""

from collections.abc import Sequence
from dataclasses import replace
from threading import Thread

from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Fixed, Pin, solve

__all__ = ["SHARE", "FromNothing"]

SHARE = 0.25
"""Share of a repair's time in which a timetable is sought from nothing."""


class FromNothing(Thread):
    """Seeks beside the caller; `finish` is the best so far, `rows` the timetable in the end, if it is whole.

    Parameters
    ----------
    rest : ClassProblem
        What is left, periods counted from the first that is left.
    since : int
        How many periods are over.
    pins : sequence of Pin
        By the periods of the whole calendar.
    limits : Limits
        Of the whole repair.
    """

    def __init__(self, rest: ClassProblem, since: int, pins: Sequence[Pin], limits: Limits) -> None:
        super().__init__(daemon=True)
        self.rest, self.limits, self.stopped = rest, limits, False
        self.pins = tuple(replace(pin, period=pin.period - since) for pin in pins)
        self.finish = len(rest.periods)
        self.rows: tuple[tuple[str, ...], ...] = ()

    def run(self) -> None:
        """Search until the share of the time is over; names are given afterwards by the repair."""
        deadline = replace(self.limits, seconds=SHARE * self.limits.seconds).start()

        def follow(finish: int, _bound: int) -> bool:
            self.finish = min(self.finish, finish)
            return not (self.stopped or deadline.expired)

        limits = replace(self.limits, workers=1)
        found = solve(self.rest, limits=limits, fixed=Fixed(pins=self.pins), on_progress=follow)
        if not found.broken:
            self.finish, self.rows = min(self.finish, found.finish), found.rows
