"""Keeping what a crew enters: marks of its tasks, fixes, notes; each once and only once."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import IntegrityError
from django.utils import timezone

from setday.roster import barring, refusals
from setday.roster.periods import EntryRefusal, Mark, MarkKind, TaskState, admit
from setday.web.clock import on_site
from setday.web.keeping.models import (
    ClassPeriod,
    HouseTask,
    Member,
    PeriodCrew,
    PeriodFix,
    PeriodMark,
    PeriodNote,
)
from setday.web.keeping.turns import in_turn
from setday.web.period.figured import log_of_tasks, marks_of, student_of, task_of
from setday.web.period.gates import gate_finding, shut_gates
from setday.web.period.limits import limits_of
from setday.web.photos.keeping import keep_photo, photo_key
from setday.web.photos.reading import PhotoRead

_COVERS = {MarkKind.START, MarkKind.PARTLY, MarkKind.DONE}
"""What may not be said of boards before the gates of their surfaces are open."""

__all__ = ["keep_fix", "keep_mark", "keep_note", "still_open"]


def still_open(period: ClassPeriod) -> None:
    """Refuse what is entered into a closed period.

    Raises
    ------
    EntryRefusal
        The period is closed.
    """
    if period.closed:
        raise EntryRefusal(
            "This period is closed.", do="Tell the instructor, who can open it again for a correction."
        )


def keep_mark(
    crew: PeriodCrew,
    task: HouseTask,
    *,
    entry: UUID,
    kind: MarkKind,
    members: tuple[str, ...],
    at: datetime,
    quantity: float | None = None,
    why: str = "",
    by: str = "",
    device: str = "",
) -> PeriodMark:
    """Keep what a crew says of its task; what is kept already is returned as it is.

    Raises
    ------
    EntryRefusal
        When it cannot be true.
    """
    known = PeriodMark.objects.filter(entry=entry).first()
    if known is not None:
        return known
    period = crew.period
    still_open(period)
    if kind in _COVERS:
        _gates_open(period, task)
    said: dict[str, Any] = {"kind": kind, "members": members, "quantity": quantity, "why": why, "by": by}
    mark = Mark(entry=str(entry), crew=f"{period.pk}/{crew.number}", task=task.key, at=on_site(at), **said)
    kept = {**said, "kind": kind.value, "members": list(members), "why": why[:300], "by": by[:200]}
    with in_turn():
        PeriodCrew.objects.select_for_update().get(pk=crew.pk)  # two tablets of one crew speak in turn
        known = PeriodMark.objects.filter(entry=entry).first()  # sent twice at the same time
        if known is not None:
            return known
        _admit(mark, crew, task)
        return _once(PeriodMark, entry, period=period, crew=crew, task=task, at=at, device=device, **kept)


def _gates_open(period: ClassPeriod, task: HouseTask) -> None:
    """Refuse to cover a surface whose gate is not open."""
    for surfaces in shut_gates(period.house, [task]).values():
        finding = gate_finding(task, surfaces)
        raise EntryRefusal(f"{finding.about}: {finding.found}", do=finding.do)


def _admit(mark: Mark, crew: PeriodCrew, task: HouseTask) -> None:
    """Refuse a mark that cannot be true beside what the crew said before."""
    period = crew.period
    admit(
        mark,
        marks_of(period, crew=crew),
        begins=on_site(period.begins),
        ends=on_site(period.ends),
        now=on_site(timezone.now()),
        done=log_of_tasks([task]).of(task.key).state is TaskState.DONE,
    )
    if mark.kind is MarkKind.START and _barred(period, task, mark.members):
        raise EntryRefusal(
            "Somebody of the crew may not do this task: a sign-off or a limit for minors.",
            do="Ask the instructor, who sees why on the period's sheet.",
        )


def _barred(period: ClassPeriod, task: HouseTask, members: tuple[str, ...]) -> bool:
    """Return whether anything keeps one of the members off a task today; the crews may be older than that."""
    rows = Member.objects.of(period.school).filter(key__in=members).prefetch_related("signoffs")
    work, on = task_of(task).work, on_site(period.begins).date()
    rules = limits_of(period.house)
    return any(barring(refusals(student_of(each), work, on=on, rules=rules)) for each in rows)


def keep_fix(period: ClassPeriod, *, entry: UUID, at: datetime, by: str, **facts: Any) -> PeriodFix:
    """Keep a mistake that was put right.

    Raises
    ------
    EntryRefusal
        The period is closed.
    """
    known = PeriodFix.objects.filter(entry=entry).first()
    if known is None:
        still_open(period)
        known = _once(PeriodFix, entry, period=period, at=at, by=by[:200], **facts)
    return known


def keep_note(
    period: ClassPeriod,
    *,
    entry: UUID,
    at: datetime,
    by: str,
    text: str,
    crew: PeriodCrew | None,
    photo: PhotoRead | None = None,
    device: str = "",
) -> PeriodNote:
    """Keep a note, with its photo in the house's folder.

    Raises
    ------
    EntryRefusal
        The period is closed.
    """
    known = PeriodNote.objects.filter(entry=entry).first()
    if known is not None:
        return known
    still_open(period)
    with in_turn():
        key = photo_key(period.house, str(entry))
        taken = keep_photo(period.house, photo, key=key, by=by) if photo else None
        facts = {"text": text, "crew": crew, "photo": taken, "device": device}
        return _once(PeriodNote, entry, period=period, at=at, by=by[:200], **facts)


def _once(record: Any, entry: UUID, /, **facts: Any) -> Any:
    """Write a row, or return the one that another request with the same entry wrote meanwhile."""
    try:
        with in_turn():
            return record.objects.create(entry=entry, **facts)
    except IntegrityError:
        return record.objects.get(entry=entry)
