"""A period of the timetable changed by hand, and what that breaks."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from django.utils import timezone
from django.utils.translation import gettext as _

from setday.web.keeping.models import RunState, TimetableKind, TimetableRun
from setday.web.timetable.searching import facts_of, standing_of
from setday.web.timetable.worker import new_run

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Timetable

__all__ = ["Changed", "changed", "keep_changed", "standing_timetable"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A timetable with one period changed.

    Parameters
    ----------
    timetable : Timetable
    moved : tuple of str
        Who was moved from what to what, in words.
    breaks : tuple of str
        Hard rules it breaks that the timetable in force does not.
    kept_off : tuple of str
        Names of those it moves to a task that a sign-off or a limit for minors keeps them off: never kept.
    """

    timetable: "Timetable"
    moved: tuple[str, ...]
    breaks: tuple[str, ...]
    kept_off: tuple[str, ...]


def standing_timetable(kept: TimetableRun) -> "Timetable":
    """Return the timetable in force as it stands by the closed periods: what happened, then the plan.

    Raises
    ------
    NoAnswer
        When the closed periods say what cannot be.
    """
    from setday.actions.timetable.standing import timetable_at

    facts = {"version": kept.version, "class_file": kept.class_file, "before": kept}
    day, stand, _log = standing_of(TimetableRun(house=kept.house, **facts))
    found = timetable_at(replace(day, problem=stand.problem), stand)
    bound = kept.document["bound_periods"] if kept.document["periods_over"] == stand.since else 0
    return replace(found, finish=_finish(found), bound=bound)


def _finish(timetable: "Timetable") -> int:
    benches = {task.key for task in timetable.day.problem.tasks if task.filler}
    worked = (n for n, row in enumerate(timetable.rows) if any(key and key not in benches for key in row))
    return max(worked, default=-1) + 1


def changed(before: "Timetable", number: int, wanted: Mapping[str, str]) -> Changed:
    """Return a timetable with another row in one period.

    Parameters
    ----------
    before : Timetable
    number : int
        Of the period.
    wanted : mapping
        Key of each student that is asked about to the key of the task, "" for none.
    """
    day = before.day
    tasks = {task.key: task for task in day.problem.tasks}
    labels = {key: task.label for key, task in tasks.items()}
    row, moved, kept_off = [], [], []
    for student, was in zip(day.problem.students, before.rows[number], strict=True):
        now = wanted.get(student.key, was)
        row.append(now)
        if now != was:
            words = {"name": day.names[student.key], "was": labels.get(was, "–"), "now": labels.get(now, "–")}
            moved.append(_("%(name)s: %(now)s instead of %(was)s") % words)
            if now and not day.problem.may(student, tasks[now]):
                kept_off.append(day.names[student.key])
    rows = (*before.rows[:number], tuple(row), *before.rows[number + 1 :])
    after = replace(before, rows=rows)
    after = replace(after, finish=_finish(after), idle=_idle(after), status="by hand")
    known = set(before.broken())
    breaks = tuple(said for said in after.broken() if said not in known)
    return Changed(timetable=after, moved=tuple(moved), breaks=breaks, kept_off=tuple(kept_off))


def _idle(timetable: "Timetable") -> int:
    from setday.timetable.classwork import idle

    return idle(timetable.day.problem, timetable.rows)


def keep_changed(kept: TimetableRun, found: Changed) -> TimetableRun:
    """Keep a timetable that was changed by hand."""
    options: dict[str, Any] = {"pins": kept.options.get("pins", [])}
    return new_run(
        kept.house,
        version=kept.version,
        class_file=kept.class_file,
        before=kept,
        kind=TimetableKind.BY_HAND,
        state=RunState.DONE,
        ended_at=timezone.now(),
        options=options,
        **facts_of(found.timetable, said=list(found.moved)),
    )
