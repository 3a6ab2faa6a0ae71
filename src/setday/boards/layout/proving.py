"""The proof of the bound in a process of its own, so that search and proof each have a processor.

The process is told of good ways to cut boards, and tells what it has proven after every step.  Nothing
is shared: what cannot be started or is lost leaves the bound where it stands.
"""

import contextlib
from collections.abc import Iterator, Sequence
from multiprocessing.connection import Connection

from setday.boards.layout.beside import LOST, Beside
from setday.boards.layout.bound import Bounder, Proof
from setday.boards.layout.network import Network
from setday.boards.layout.patterns import Pattern
from setday.boards.layout.pricing import Pricer
from setday.boards.problem import Board

__all__ = ["Part", "Prover"]

Part = tuple[Network, tuple[Board, ...], int]
"""What one group's bound is proven from: its network, its boards, the loss of a cut [1/64 in]."""
_LONGEST_STEP = 3600.0


class Prover(Beside):
    """Raises the bounds of some groups in a process of its own.

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
        super().__init__(_prove, parts)

    def news(self) -> Iterator[tuple[int, Proof]]:
        """Yield what was proven since the last time: the number of the group, and its proof."""
        with contextlib.suppress(*LOST):
            while self._pipe.poll():
                yield self._pipe.recv()

    def offer(self, group: int, patterns: list[Pattern] | None) -> None:
        """Hand good patterns to the next step of a group; None ends its proof."""
        with contextlib.suppress(*LOST):
            self._pipe.send((group, patterns))


def _prove(pipe: Connection, parts: list[Part]) -> None:
    pricing = _pricing()
    bounders = [Bounder(network, boards, trim, pricing=pricing) for network, boards, trim in parts]
    ended: set[int] = set()
    with contextlib.suppress(*LOST):
        while True:
            _listen(pipe, bounders, ended)
            open_ = [i for i, b in enumerate(bounders) if i not in ended and not b.done]
            if not open_:
                pipe.recv()  # until it is closed
            for i in open_:
                bounders[i].step(_LONGEST_STEP)
                pipe.send((i, bounders[i].report()))
                _listen(pipe, bounders, ended)


def _pricing() -> type[Pricer]:
    """Return the compiled pricing (which compiles, or reads what was compiled before), else the plain one."""
    try:
        from setday.boards.layout.quick import QuickPricer
    except ImportError:
        return Pricer
    return QuickPricer


def _listen(pipe: Connection, bounders: list[Bounder], ended: set[int]) -> None:
    while pipe.poll():
        group, patterns = pipe.recv()
        if patterns is None:
            ended.add(group)
        else:
            bounders[group].offer(patterns)
