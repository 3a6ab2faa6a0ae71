"""How long and how a solve may run, and the time that is left of it."""

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Deadline", "Limits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Deadline:
    """The moment at which a running solve must end.

    Parameters
    ----------
    started, until : float
        By `clock` [s].
    clock : callable
        Returns seconds from any fixed start.

    Examples
    --------
    >>> ticks = iter([10.0, 11.5, 15.0])
    >>> deadline = Limits(seconds=4.0, clock=lambda: next(ticks)).start()
    >>> deadline.left, deadline.expired
    (2.5, True)
    """

    started: float
    until: float
    clock: Callable[[], float]

    @property
    def spent(self) -> float:
        """Time since the start [s]."""
        return self.clock() - self.started

    @property
    def left(self) -> float:
        """Time until the end, never below nothing [s]."""
        return max(self.until - self.clock(), 0.0)

    @property
    def expired(self) -> bool:
        """Whether nothing is left."""
        return self.left <= 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long and how a solve may run.

    Parameters
    ----------
    seconds : float
        Time limit [s].
    clock : callable
        Returns seconds from any fixed start; handed in by the edge, since the core reads no clock.
    seed : int
    workers : int
        Threads the solvers may use.
    """

    seconds: float
    clock: Callable[[], float]
    seed: int = 1
    workers: int = 2

    def start(self) -> Deadline:
        """Return the deadline of a solve that begins now."""
        now = self.clock()
        return Deadline(started=now, until=now + self.seconds, clock=self.clock)
