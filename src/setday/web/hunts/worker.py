"""Long work of hunts, one after another, in a thread of the site itself.

Two kinds: what the shortest hunts of a plan take, and the search of a real house for two faults at once.
The records hold everything a page shows, so that a page reloaded and a second browser see the same.
"""

import logging
import threading
import time
from collections.abc import Callable
from dataclasses import asdict
from queue import SimpleQueue
from typing import Any

from django.db import close_old_connections, connection
from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.web.hunts.sources import ground_of, hookup_in
from setday.web.keeping.models import FaultSearch, Hunt, RunState

__all__ = ["ask_to_stop", "begin_best", "begin_two", "mark_interrupted", "work_on_best", "work_on_two"]

_log = logging.getLogger("setday.web")
_SAVE_EVERY = 0.4

_waiting: SimpleQueue[tuple[str, int]] = SimpleQueue()
_stops: dict[int, threading.Event] = {}
_lock = threading.Lock()
_threads: list[threading.Thread] = []


def begin_best(hunt: Hunt) -> None:
    """Put in line what the shortest hunts of a plan take."""
    _put("best", hunt.pk)


def begin_two(search: FaultSearch) -> None:
    """Put the search for two faults in line."""
    with _lock:
        _stops[search.pk] = threading.Event()
    _put("two", search.pk)


def _put(kind: str, number: int) -> None:
    with _lock:
        if not any(thread.is_alive() for thread in _threads):
            worker = threading.Thread(target=_work, name="setday-hunts", daemon=True)
            _threads[:] = [worker]
            worker.start()
    _waiting.put((kind, number))


def ask_to_stop(search: FaultSearch) -> None:
    """Ask a search to end and keep what it found; one still waiting ends at once."""
    FaultSearch.objects.filter(pk=search.pk).update(stop_asked=True)
    stop = _stops.get(search.pk)
    if stop is not None:
        stop.set()
    FaultSearch.objects.filter(pk=search.pk, state=RunState.WAITING).update(
        state=RunState.STOPPED, message=_("Stopped before it began.")
    )


def mark_interrupted() -> None:
    """Mark the searches that a stopped site left behind, and work out what its hunts still lack."""
    words = _("The site was stopped while this search was at work. Start it again.")
    behind = FaultSearch.objects.filter(state__in=[RunState.WAITING, RunState.RUNNING])
    behind.update(state=RunState.INTERRUPTED, message=words)
    for hunt in Hunt.objects.filter(best__isnull=True, closed=False):
        begin_best(hunt)


def _work() -> None:
    while True:
        kind, number = _waiting.get()
        close_old_connections()
        try:
            if kind == "best":
                work_on_best(number)
            else:
                work_on_two(number, stopped=_stops[number].is_set)
        except Exception:  # noqa: BLE001  what is next in line must not wait for ever because this one failed
            _log.exception("%s %s of hunts", kind, number)
        finally:
            if kind == "two":
                _stops.pop(number, None)
            connection.close()


def work_on_best(number: int) -> None:
    """Work out what the shortest hunts of a plan take, and write it down."""
    from setday.actions.switching.hunts import best_hunt

    hunt = Hunt.objects.filter(pk=number).first()
    if hunt is None:
        return
    best = best_hunt(ground_of(hunt.text, hunt.file_name, hunt.likely))
    Hunt.objects.filter(pk=number).update(best=asdict(best))


def work_on_two(number: int, *, stopped: Callable[[], bool]) -> None:
    """Search for two faults at once, writing down how far it is, until it ends."""
    from setday.actions.switching.faults import search

    waiting = FaultSearch.objects.filter(pk=number, state=RunState.WAITING)
    if not waiting.update(state=RunState.RUNNING):
        return
    found = FaultSearch.objects.get(pk=number)
    try:
        told = search(
            hookup_in(found.text, found.file_name),
            found.lines,
            faults=2,
            likely=found.likely,
            progress=_Watch(number, stopped=stopped).take,
        )
    except SetdayError as error:
        _end(number, RunState.FAILED, message=str(error))
    except Exception:
        _end(number, RunState.FAILED, message=_("This is a fault in Setday; it is written in its log."))
        raise
    else:
        state = RunState.STOPPED if told.stopped else RunState.DONE
        _end(number, state, pairs=told.record(), share=1.0)


def _end(number: int, state: Any, **facts: object) -> None:
    FaultSearch.objects.filter(pk=number).update(state=state, **facts)


class _Watch:
    """Writes down how far a search is, not more often than a page asks."""

    def __init__(self, number: int, *, stopped: Callable[[], bool]) -> None:
        self._number = number
        self._stopped = stopped
        self._saved_at = 0.0

    def take(self, done: int, of: int) -> bool:
        """Note how many first faults are done; return whether the search may go on."""
        if time.monotonic() - self._saved_at >= _SAVE_EVERY:
            self._saved_at = time.monotonic()
            share = (done / of) ** 2 if of else 1.0  # each is put together with all before it
            FaultSearch.objects.filter(pk=self._number).update(share=share)
        return not self._stopped()
