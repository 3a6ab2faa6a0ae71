"""The compiled search in a process of its own, while the first process reports and listens.

The process is given jobs (a group, how many rounds, how hot) and answers each with the best layout it
has, when that is new.  Nothing is shared: until it answers for the first time (compiling takes some
seconds when nothing is kept from an earlier run), or when it is lost, the plain search goes on.
"""

import contextlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.beside import LOST, Beside
from setday.boards.layout.hanging import Snapshot
from setday.boards.layout.network import Network
from setday.boards.problem import Board

__all__ = ["Answer", "Job", "Part", "Searcher"]

Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Part:
    """What one group's search begins from."""

    network: Network
    boards: tuple[Board, ...]
    trim: int
    values: Values
    start: Snapshot
    seed: int


@dataclass(frozen=True, slots=True)
class Job:
    """Some rounds for one group: hot (1) or cold (0), from new item values or a new layout if given.

    `joint_price` is what a joint counts for; `finishing` when money may no longer rise.
    """

    group: int
    rounds: int
    heat: float
    joint_price: float
    finishing: bool
    values: Values | None = None
    start: Snapshot | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """The rounds done for one group, and the best layout when it is better than the last one told."""

    group: int
    rounds: int
    best: Snapshot | None


class Searcher(Beside):
    """Searches in a process of its own.

    Parameters
    ----------
    parts : sequence of Part
        One for each group.

    Raises
    ------
    OSError
        When no process can be started.
    """

    def __init__(self, parts: Sequence[Part]) -> None:
        super().__init__(_serve, parts)
        self.waiting = 0
        self.answered = False

    def give(self, job: Job) -> None:
        """Hand in a job."""
        with contextlib.suppress(*LOST):
            self._pipe.send(job)
        self.waiting += 1

    def answers(self, seconds: float) -> Iterator[Answer]:
        """Yield what has come in, after waiting at most so long for the first."""
        try:
            while self._pipe.poll(seconds):
                answer: Answer = self._pipe.recv()
                self.waiting -= 1
                self.answered = True
                seconds = 0.0
                yield answer
        except LOST:
            self.answered = False


def _serve(pipe: Connection, parts: list[Part]) -> None:
    try:
        from setday.boards.layout.searched import Searched  # compiles, or reads what was compiled before
    except ImportError:
        return  # nothing is compiled on this machine: the plain search goes on
    groups = [Searched(p) for p in parts]
    with contextlib.suppress(*LOST):
        while True:
            job: Job = pipe.recv()
            pipe.send(Answer(job.group, job.rounds, groups[job.group].run(job)))
