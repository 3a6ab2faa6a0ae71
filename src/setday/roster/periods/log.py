"""How far each task is, from all that was said of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from setday.roster.periods.marks import Mark, MarkKind

__all__ = ["Log", "Progress", "TaskState", "log_of"]


class TaskState(StrEnum):
    """Where a task stands."""

    NOT_BEGUN = "not begun"
    RUNNING = "running"
    BEGUN = "begun"
    """Somebody was at it; nobody is now."""
    BLOCKED = "blocked"
    DONE = "done"


_AFTER = {
    MarkKind.START: TaskState.RUNNING,
    MarkKind.STOP: TaskState.BEGUN,
    MarkKind.PARTLY: TaskState.BEGUN,
    MarkKind.BLOCKED: TaskState.BLOCKED,
    MarkKind.DONE: TaskState.DONE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far one task is.

    Parameters
    ----------
    state : TaskState
    quantity : float
        Done so far, in its unit, as far as anybody counted.
    why : str
        What blocks it, while it is blocked.
    crew : str
        The crew that spoke last.
    """

    state: TaskState = TaskState.NOT_BEGUN
    quantity: float = 0.0
    why: str = ""
    crew: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """How far every task is that was spoken of."""

    tasks: tuple[tuple[str, Progress], ...]

    def of(self, task: str) -> Progress:
        """Return how far a task is."""
        return dict(self.tasks).get(task, Progress())

    def ready(self, after: Iterable[str]) -> bool:
        """Return whether everything a task waits for is done."""
        return all(self.of(each).state is TaskState.DONE for each in after)


def log_of(marks: Iterable[Mark]) -> Log:
    """Return how far the tasks are.

    Parameters
    ----------
    marks : iterable of Mark
        Of all periods; the order of their times counts, not the order in which they came in.

    Examples
    --------
    >>> from datetime import datetime
    >>> said = Mark(
    ...     entry="1",
    ...     kind=MarkKind.DONE,
    ...     crew="1",
    ...     task="felt",
    ...     members=("a",),
    ...     at=datetime(2026, 9, 7, 9),
    ...     quantity=4,
    ... )
    >>> log_of([said]).of("felt").state.value
    'done'
    """
    found: dict[str, Progress] = {}
    for mark in sorted(marks, key=lambda each: (each.at, each.entry)):
        before = found.get(mark.task, Progress())
        finished = before.state is TaskState.DONE
        found[mark.task] = Progress(
            state=TaskState.DONE if finished else _AFTER[mark.kind],
            quantity=before.quantity + (mark.quantity or 0.0),
            why=mark.why if mark.kind is MarkKind.BLOCKED and not finished else "",
            crew=mark.crew,
        )
    return Log(tasks=tuple(sorted(found.items())))
