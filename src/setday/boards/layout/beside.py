"""Work in a process of its own, spoken to through a pipe; whatever is lost on the way is lost quietly."""

import multiprocessing
import signal
from collections.abc import Callable, Sequence
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

__all__ = ["LOST", "Beside"]

LOST = (OSError, EOFError)
"""What is raised where the other end of the pipe is gone."""


class Beside:
    """A process that works beside this one.

    Parameters
    ----------
    work : callable
        What it does, given its end of the pipe and the parts; a function of a module.
    parts : sequence
        What it works on.

    Raises
    ------
    OSError
        When no process can be started.
    """

    def __init__(self, work: Callable[[Connection, list[Any]], None], parts: Sequence[Any]) -> None:
        context = multiprocessing.get_context("spawn")
        self._pipe, far = context.Pipe()
        self._process: BaseProcess = context.Process(
            target=_begin, args=(work, far, list(parts)), daemon=True
        )
        self._process.start()
        far.close()

    def close(self) -> None:
        """End the process; nothing more is heard of it."""
        self._process.terminate()
        self._process.join()
        self._pipe.close()


def _begin(work: Callable[[Connection, list[Any]], None], pipe: Connection, parts: list[Any]) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the one who started it decides when it ends
    work(pipe, parts)
