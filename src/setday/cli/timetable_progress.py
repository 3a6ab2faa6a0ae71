"""The search for a timetable shows its best finish so far and the earliest that is not disproved."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from setday.cli.progress import shown_while

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Progress

__all__ = ["following_dates", "progress_words"]


def progress_words(progress: "Progress") -> str:
    """Return one line on how a search gets on."""
    ready = f"ready {progress.ready:%a %d %b %Y}" if progress.ready else "not done within the calendar"
    if not progress.bound:
        return f"{progress.seconds:5.1f} s  {ready}"
    earliest = f"{progress.earliest:%a %d %b %Y}" if progress.earliest else "after the calendar"
    gap = progress.finish - progress.bound
    between = "proven" if gap <= 0 else f"{gap} period{'s' if gap != 1 else ''} between"
    return f"{progress.seconds:5.1f} s  {ready}, never before {earliest}, {between}"


@contextmanager
def following_dates(*, limit: float) -> "Iterator[Callable[[Progress], bool]]":
    """Show a running search; the function handed out returns False once the person stopped it."""
    with shown_while(limit=limit, words=progress_words, kept="timetable") as follow:
        yield follow
