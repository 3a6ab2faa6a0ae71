"""Board runs, one after another, in a thread of the site itself.

The records hold everything a page shows, so that a page reloaded, a second browser and a site started
anew all see the same.
"""

import logging
import threading
import time
from collections.abc import Callable
from queue import SimpleQueue

from django.db import close_old_connections, connection
from django.utils import timezone
from django.utils.translation import gettext as _

from setday.boards import Outcome, Progress
from setday.errors import SetdayError
from setday.web.boards.figuring import lay_out
from setday.web.boards.kept import to_record
from setday.web.keeping.models import BoardRun, RunState

__all__ = ["ask_to_stop", "begin", "mark_interrupted", "work_on"]

_log = logging.getLogger("setday.web")
_SAVE_EVERY = 0.5
_MOST_REPORTS = 400

_waiting: SimpleQueue[int] = SimpleQueue()
_stops: dict[int, threading.Event] = {}
_lock = threading.Lock()
_threads: list[threading.Thread] = []


def begin(run: BoardRun) -> None:
    """Put a run in line; the worker is started with the first one."""
    with _lock:
        _stops[run.pk] = threading.Event()
        if not any(thread.is_alive() for thread in _threads):
            worker = threading.Thread(target=_work, name="setday-boards", daemon=True)
            _threads[:] = [worker]
            worker.start()
    _waiting.put(run.pk)


def ask_to_stop(run: BoardRun) -> None:
    """Ask a run to end and keep its best layout; one still waiting ends at once."""
    BoardRun.objects.filter(pk=run.pk).update(stop_asked=True)
    stop = _stops.get(run.pk)
    if stop is not None:
        stop.set()
    BoardRun.objects.filter(pk=run.pk, state=RunState.WAITING).update(
        state=RunState.STOPPED, ended_at=timezone.now(), message=_("Stopped before it began.")
    )


def mark_interrupted() -> int:
    """Mark the runs that a stopped site left behind; return how many."""
    words = _("The site was stopped while this run was at work. Start it again.")
    behind = BoardRun.objects.filter(state__in=[RunState.WAITING, RunState.RUNNING])
    count: int = behind.update(state=RunState.INTERRUPTED, ended_at=timezone.now(), message=words)
    return count


def _work() -> None:
    while True:
        key = _waiting.get()
        close_old_connections()
        try:
            work_on(key, stopped=_stops[key].is_set)
        except Exception:
            _log.exception("board run %s", key)
        finally:
            _stops.pop(key, None)
            connection.close()


def work_on(key: int, *, stopped: Callable[[], bool]) -> None:
    """Do one run from its record, writing down how far it is, until it ends."""
    taken = BoardRun.objects.filter(pk=key, state=RunState.WAITING).update(state=RunState.RUNNING)
    if not taken:
        return
    run = BoardRun.objects.select_related("version__house", "prices").get(pk=key)
    watch = _Watch(key, stopped=stopped)
    try:
        outcome = lay_out(run, on_progress=watch.take)
    except SetdayError as error:
        _end(key, RunState.FAILED, message=str(error))
    except Exception:
        _end(key, RunState.FAILED, message=_("This is a fault in Setday; it is written in its log."))
        raise
    else:
        watch.save(force=True)
        _keep(key, outcome, stopped=stopped())


def _keep(key: int, outcome: Outcome, *, stopped: bool) -> None:
    if outcome.layout is None:
        _end(key, RunState.FAILED, message=" ".join(outcome.why_none))
        return
    _end(
        key,
        RunState.STOPPED if stopped else RunState.DONE,
        outcome=to_record(outcome),
        cost_cents=outcome.cost_cents,
        bound_cents=outcome.bound.cost_cents,
        seconds=outcome.seconds,
    )


def _end(key: int, state: RunState, **facts: object) -> None:
    BoardRun.objects.filter(pk=key).update(state=state, ended_at=timezone.now(), stage="", **facts)


class _Watch:
    """Writes down what a solve tells, not more often than a page asks."""

    def __init__(self, key: int, *, stopped: Callable[[], bool]) -> None:
        self._key = key
        self._stopped = stopped
        self._reports: list[dict[str, object]] = []
        self._saved_at = 0.0
        self._last: Progress | None = None

    def take(self, progress: Progress) -> bool:
        """Note a report; return whether the solve may go on."""
        self._last = progress
        self.save(force=False)
        return not self._stopped()

    def save(self, *, force: bool) -> None:
        """Write the last report into the records, unless one was written a moment ago."""
        now, last = time.monotonic(), self._last
        if last is None or (not force and now - self._saved_at < _SAVE_EVERY):
            return
        self._saved_at = now
        self._reports.append(
            {
                "cost_cents": last.cost_cents,
                "bound_cents": last.bound_cents,
                "seconds": last.seconds,
                "stage": last.stage,
            }
        )
        if len(self._reports) > _MOST_REPORTS:
            self._reports = self._reports[::2]
        BoardRun.objects.filter(pk=self._key).update(
            cost_cents=last.cost_cents,
            bound_cents=last.bound_cents or None,
            seconds=last.seconds,
            stage=last.stage[:200],
            reports=self._reports,
        )
