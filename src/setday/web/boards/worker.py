"""Board runs, one after another, in a thread of the site itself.

The records hold everything a page shows, so that a page reloaded, a second browser and a site started
anew all see the same.
"""

import time
from collections.abc import Callable
from typing import Any

from django.db.models import F
from django.utils import timezone
from django.utils.translation import gettext as _

from setday.boards import Layout, Outcome, Progress
from setday.errors import SetdayError
from setday.files import to_record
from setday.web.boards.figuring import lay_out
from setday.web.boards.kept import so_far
from setday.web.keeping.models import BoardRun, RunState
from setday.web.line import Line

__all__ = ["ask_to_stop", "begin", "mark_interrupted", "work_on"]

_SAVE_EVERY = 0.5
_KEEP_LAYOUT_EVERY = 3.0
_MOST_REPORTS = 400


def work_on(key: int, *, stopped: Callable[[], bool]) -> None:
    """Do one run from its record, writing down how far it is, until it ends."""
    taken = BoardRun.objects.filter(pk=key, state=RunState.WAITING).update(state=RunState.RUNNING)
    if not taken:
        return
    run = BoardRun.objects.select_related("version__house", "prices").get(pk=key)
    watch = _Watch(key, stopped=stopped)
    try:
        figure = lay_out(run, on_progress=watch.take)
    except SetdayError as error:
        _end(key, RunState.FAILED, message=str(error))
    except Exception:
        _end(key, RunState.FAILED, message=_("This is a fault in Setday; it is written in its log."))
        raise
    else:
        watch.save()
        _keep(key, figure.outcome, stopped=stopped())


def _keep(key: int, outcome: Outcome, *, stopped: bool) -> None:
    if outcome.layout is None:
        _end(key, RunState.FAILED, message="\n".join(outcome.why_none), outcome=None)
        return
    _end(
        key,
        RunState.STOPPED if stopped else RunState.DONE,
        outcome=to_record(outcome),
        kept_layouts=F("kept_layouts") + 1,
        cost_cents=outcome.cost_cents,
        bound_cents=outcome.bound.cost_cents,
        seconds=outcome.seconds,
    )


def _end(key: int, state: Any, **facts: object) -> None:
    BoardRun.objects.filter(pk=key).update(state=state, ended_at=timezone.now(), stage="", **facts)


class _Watch:
    """Writes down what a solve tells, not more often than a page asks."""

    def __init__(self, key: int, *, stopped: Callable[[], bool]) -> None:
        self._key = key
        self._stopped = stopped
        self._reports: list[dict[str, object]] = []
        self._saved_at = self._kept_at = 0.0
        self._last: Progress | None = None
        self._best: Layout | None = None

    def take(self, progress: Progress) -> bool:
        """Note a report; return whether the solve may go on."""
        self._last = progress
        self._best = progress.layout or self._best
        if time.monotonic() - self._saved_at >= _SAVE_EVERY:
            self.save()
        return not self._stopped()

    def save(self) -> None:
        """Write the last report into the records."""
        last = self._last
        if last is None:
            return
        self._saved_at = time.monotonic()
        self._note(last)
        BoardRun.objects.filter(pk=self._key).update(
            cost_cents=last.cost_cents,
            bound_cents=last.bound_cents or None,
            seconds=last.seconds,
            stage=last.stage[:200],
            reports=self._reports,
            **self._layout_to_keep(last),
        )

    def _note(self, last: Progress) -> None:
        facts = {"cost_cents": last.cost_cents, "bound_cents": last.bound_cents}
        if self._reports and all(self._reports[-1][name] == value for name, value in facts.items()):
            return
        self._reports.append({**facts, "seconds": last.seconds, "stage": last.stage})
        if len(self._reports) > _MOST_REPORTS:
            self._reports = self._reports[::2]

    def _layout_to_keep(self, last: Progress) -> dict[str, object]:
        """Return the best layout when it is new and the one kept is not fresh: a stop must not lose it."""
        if self._best is None or self._saved_at - self._kept_at < _KEEP_LAYOUT_EVERY:
            return {}
        best, self._best, self._kept_at = self._best, None, self._saved_at
        return {
            "outcome": so_far(best, bound_cents=last.bound_cents),
            "kept_layouts": F("kept_layouts") + 1,
        }


def _interrupted() -> str:
    return _("The site was stopped while this run was at work. Start it again.")


_line = Line(
    "boards",
    record=BoardRun,
    work_on=lambda key, stopped: work_on(key, stopped=stopped),
    interrupted=_interrupted,
)
begin = _line.put
ask_to_stop = _line.ask_to_stop
mark_interrupted = _line.mark_interrupted
