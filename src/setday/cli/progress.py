"""Long work shows its best answer so far and its proven bound."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from setday.boards import Progress

__all__ = ["following"]

_EVERY = 15.0


@contextmanager
def following(*, limit: float, quiet: bool = False) -> "Iterator[Callable[[Progress], bool]]":
    """Show a running solve; the function handed out returns False once the person stopped it.

    On a terminal a bar moves on standard error; in a pipe a line is written now and then.  Ctrl-C stops
    the search and keeps the best layout; a second Ctrl-C ends the command.

    Parameters
    ----------
    limit : float
        The time limit the bar runs to [s].
    quiet : bool
        Show nothing, still stop on Ctrl-C.
    """
    stopped = threading.Event()
    before = _stop_on_interrupt(stopped)
    shown = _silence() if quiet else (_bar(limit) if sys.stderr.isatty() else _lines())
    try:
        with shown as show:

            def follow(progress: "Progress") -> bool:
                show(progress)
                return not stopped.is_set()

            yield follow
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)


def _stop_on_interrupt(stopped: threading.Event) -> "Callable[..., object] | int | None":
    if threading.current_thread() is not threading.main_thread():
        return None
    before = signal.getsignal(signal.SIGINT)

    def stop(_number: int, _frame: object) -> None:
        if stopped.is_set():
            raise KeyboardInterrupt
        stopped.set()
        sys.stderr.write("\nStopping; the best layout so far is kept. Ctrl-C again ends at once.\n")

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
def _silence() -> "Iterator[Callable[[Progress], None]]":
    yield lambda _progress: None


@contextmanager
def _bar(limit: float) -> "Iterator[Callable[[Progress], None]]":
    from rich import progress as bars
    from rich.console import Console

    columns = (bars.BarColumn(bar_width=20), bars.TextColumn("{task.description}", markup=False))
    with bars.Progress(*columns, console=Console(stderr=True), transient=True) as board:
        task = board.add_task("", total=max(limit, 0.1))

        def show(progress: "Progress") -> None:
            board.update(task, completed=progress.seconds, description=_words(progress))

        yield show


@contextmanager
def _lines() -> "Iterator[Callable[[Progress], None]]":
    last_seconds = -_EVERY
    told_cost = False

    def show(progress: "Progress") -> None:
        nonlocal last_seconds, told_cost
        first = not told_cost and progress.cost_cents is not None
        if first or progress.seconds - last_seconds >= _EVERY:
            last_seconds, told_cost = progress.seconds, progress.cost_cents is not None
            sys.stderr.write(_words(progress) + "\n")

    yield show
