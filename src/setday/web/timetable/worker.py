"""Searches for timetables, one after another, in a thread of the site itself.

The records hold everything a page shows, so that a page reloaded, a second browser and a site started
anew all see the same.
"""

import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.web.keeping.models import House, RunState, TimetableKind, TimetableRun
from setday.web.line import Line
from setday.web.timetable.searching import explain, play_odds, repair, search

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Progress

__all__ = ["ask_to_stop", "begin", "mark_interrupted", "new_run", "work_on"]

_SAVE_EVERY = 0.5

_WORK = {
    TimetableKind.SOLVED: search,
    TimetableKind.REPAIRED: repair,
    TimetableKind.ODDS: play_odds,
    TimetableKind.REASONS: explain,
}


@transaction.atomic
def new_run(house: House, **facts: Any) -> TimetableRun:
    """Write down a search, a repair or a change of a house, under the next number."""
    House.objects.select_for_update().get(pk=house.pk)
    last = TimetableRun.objects.filter(house=house).order_by("-number").first()
    number = last.number + 1 if last else 1
    made: TimetableRun = TimetableRun.objects.create(house=house, number=number, **facts)
    return made


def work_on(key: int, *, stopped: Callable[[], bool]) -> None:
    """Do one run from its record, writing down how far it is, until it ends."""
    taken = TimetableRun.objects.filter(pk=key, state=RunState.WAITING).update(state=RunState.RUNNING)
    if not taken:
        return
    run = TimetableRun.objects.select_related("house__school", "version", "class_file", "before").get(pk=key)
    try:
        facts = _WORK[TimetableKind(run.kind)](run, _Watch(key, stopped=stopped))
    except SetdayError as error:
        _end(key, RunState.FAILED, message=str(error))
    except Exception:
        _end(key, RunState.FAILED, message=_("This is a fault in Setday; it is written in its log."))
        raise
    else:
        _end(key, RunState.STOPPED if stopped() else RunState.DONE, **facts)


def _end(key: int, state: Any, **facts: object) -> None:
    TimetableRun.objects.filter(pk=key).update(state=state, ended_at=timezone.now(), **facts)


class _Watch:
    """Writes down what a search tells, not more often than a page asks."""

    def __init__(self, key: int, *, stopped: Callable[[], bool]) -> None:
        self._key, self._stopped = key, stopped
        self._saved_at = 0.0

    def take(self, progress: "Progress") -> bool:
        """Note how far a search is; return whether it may go on."""
        if time.monotonic() - self._saved_at >= _SAVE_EVERY:
            self._saved_at = time.monotonic()
            TimetableRun.objects.filter(pk=self._key).update(
                finish=progress.finish,
                bound=progress.bound or None,
                ready=progress.ready,
                earliest=progress.earliest,
                seconds=progress.seconds,
            )
        return not self._stopped()

    def share(self, share: float) -> bool:
        """Note how much is done; return whether it may go on."""
        if time.monotonic() - self._saved_at >= _SAVE_EVERY:
            self._saved_at = time.monotonic()
            TimetableRun.objects.filter(pk=self._key).update(share=share)
        return not self._stopped()

    def keep(self, facts: dict[str, Any]) -> None:
        """Keep a timetable that is to be bettered yet."""
        TimetableRun.objects.filter(pk=self._key).update(**facts)


def _interrupted() -> str:
    return _("The site was stopped while this search was at work. Start it again.")


_line = Line(
    "timetable",
    record=TimetableRun,
    work_on=lambda key, stopped: work_on(key, stopped=stopped),
    interrupted=_interrupted,
)
begin = _line.put
ask_to_stop = _line.ask_to_stop
mark_interrupted = _line.mark_interrupted
