"""Long work in line: runs one after another, in a thread of the site itself.

The records hold everything a page shows, so that a page reloaded, a second browser and a site started
anew all see the same.
"""

import logging
import threading
from collections.abc import Callable
from queue import SimpleQueue
from typing import Any

from django.db import close_old_connections, connection
from django.utils import timezone
from django.utils.translation import gettext as _

from setday.web.keeping.models import RunState

__all__ = ["Line"]

_log = logging.getLogger("setday.web")

WorkOn = Callable[[int, Callable[[], bool]], None]


class Line:
    """The runs of one kind, waiting for their turn.

    Parameters
    ----------
    name : str
        In the log, and of the thread.
    record : model
        With `state`, `stop_asked`, `ended_at` and `message`.
    work_on : callable
        Does the run of a primary key; asks its second argument whether it was stopped.
    interrupted : callable
        Returns what a run is told that a stopped site left behind.
    """

    def __init__(self, name: str, *, record: Any, work_on: WorkOn, interrupted: Callable[[], str]) -> None:
        self._name, self._record, self._work_on, self._interrupted = name, record, work_on, interrupted
        self._waiting: SimpleQueue[int] = SimpleQueue()
        self._stops: dict[int, threading.Event] = {}
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None

    def put(self, run: Any) -> None:
        """Put a run in line; the worker is started with the first one."""
        with self._lock:
            self._stops[run.pk] = threading.Event()
            if self._thread is None or not self._thread.is_alive():
                self._thread = threading.Thread(target=self._work, name=f"setday-{self._name}", daemon=True)
                self._thread.start()
        self._waiting.put(run.pk)

    def ask_to_stop(self, run: Any) -> None:
        """Ask a run to end and keep its best; one still waiting ends at once."""
        rows = self._record.objects.filter(pk=run.pk)
        rows.update(stop_asked=True)
        stop = self._stops.get(run.pk)
        if stop is not None:
            stop.set()
        rows.filter(state=RunState.WAITING).update(
            state=RunState.STOPPED, ended_at=timezone.now(), message=_("Stopped before it began.")
        )

    def mark_interrupted(self) -> int:
        """Mark the runs that a stopped site left behind; return how many."""
        behind = self._record.objects.filter(state__in=[RunState.WAITING, RunState.RUNNING])
        count: int = behind.update(
            state=RunState.INTERRUPTED, ended_at=timezone.now(), message=self._interrupted()
        )
        return count

    def _work(self) -> None:
        while True:
            key = self._waiting.get()
            close_old_connections()
            try:
                self._work_on(key, self._stops[key].is_set)
            except Exception:  # noqa: BLE001  the next run must not wait for ever because this one failed
                _log.exception("%s run %s", self._name, key)
            finally:
                self._stops.pop(key, None)
                connection.close()
