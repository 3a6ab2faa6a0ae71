"""Long work shows its best answer so far and its proven bound."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Protocol, TypeVar

if TYPE_CHECKING:
    from setday.boards import Progress

__all__ = ["following", "shown_while"]

_EVERY = 15.0
Told = TypeVar("Told", bound="Seconds")


class Seconds(Protocol):
    """A report that says how long a search has run."""

    @property
    def seconds(self) -> float:
        """Since it began [s]."""


@contextmanager
def following(*, limit: float) -> "Iterator[Callable[[Progress], bool]]":
    """Show a running layout search; the function handed out returns False once the person stopped it.

    Parameters
    ----------
    limit : float
        The time limit the bar runs to [s].
    """
    with shown_while(
        limit=limit, words=_words, kept="layout", found=lambda told: told.cost_cents is not None
    ) as follow:
        yield follow


@contextmanager
def shown_while(
    *,
    limit: float,
    words: Callable[[Told], str],
    kept: str,
    found: Callable[[Told], bool] = lambda _told: True,
) -> Iterator[Callable[[Told], bool]]:
    """Show a running search; the function handed out returns False once the person stopped it.

    On a terminal a bar moves on standard error; in a pipe a line is written now and then.  Ctrl-C stops
    the search and keeps the best answer; a second Ctrl-C ends the command.

    Parameters
    ----------
    limit : float
        The time limit the bar runs to [s].
    words : callable
        One line on a report.
    kept : str
        What is kept on Ctrl-C: "layout".
    found : callable
        Tells whether a report has an answer; the first one that has is shown at once.
    """
    stopped = threading.Event()
    before = _stop_on_interrupt(stopped, kept)
    shown = _bar(limit, words) if sys.stderr.isatty() else _lines(words, found)
    try:
        with shown as show:

            def follow(progress: Told) -> bool:
                show(progress)
                return not stopped.is_set()

            yield follow
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)


def _stop_on_interrupt(stopped: threading.Event, kept: str) -> "Callable[..., object] | int | None":
    if threading.current_thread() is not threading.main_thread():
        return None
    before = signal.getsignal(signal.SIGINT)

    def stop(_number: int, _frame: object) -> None:
        if stopped.is_set():
            raise KeyboardInterrupt
        stopped.set()
        sys.stderr.write(f"\nStopping; the best {kept} so far is kept. Ctrl-C again ends at once.\n")

    signal.signal(signal.SIGINT, stop)
    return before


def _words(progress: "Progress") -> str:
    if progress.cost_cents is None:
        return f"{progress.seconds:5.1f} s  {progress.stage}"
    gap = progress.cost_cents / progress.bound_cents - 1 if progress.bound_cents > 0 else None
    bound = f"proven bound ${progress.bound_cents / 100:,.2f}" if progress.bound_cents > 0 else "no bound yet"
    told = f", gap {gap:.2%}" if gap is not None else ""
    return (
        f"{progress.seconds:5.1f} s  best ${progress.cost_cents / 100:,.2f}, {bound}{told}  {progress.stage}"
    )


@contextmanager
def _bar(limit: float, words: Callable[[Told], str]) -> Iterator[Callable[[Told], None]]:
    from rich import progress as bars
    from rich.console import Console

    columns = (bars.BarColumn(bar_width=20), bars.TextColumn("{task.description}", markup=False))
    with bars.Progress(*columns, console=Console(stderr=True), transient=True) as board:
        task = board.add_task("getting ready", total=max(limit, 0.1))

        def show(progress: Told) -> None:
            board.update(task, completed=progress.seconds, description=words(progress))

        yield show


@contextmanager
def _lines(words: Callable[[Told], str], found: Callable[[Told], bool]) -> Iterator[Callable[[Told], None]]:
    last_seconds = -_EVERY
    told_answer = False

    def show(progress: Told) -> None:
        nonlocal last_seconds, told_answer
        first = not told_answer and found(progress)
        if first or progress.seconds - last_seconds >= _EVERY:
            last_seconds, told_answer = progress.seconds, told_answer or found(progress)
            sys.stderr.write(words(progress) + "\n")

    yield show
