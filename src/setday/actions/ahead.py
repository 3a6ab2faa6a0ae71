"""What is ahead: what has to be ordered, delivered and booked by when, so that the timetable can run."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from setday.actions.timetable import Timetable, spans
from setday.actions.timetable_problem import guest_there
from setday.roster import Meeting
from setday.rules import LocalRules, RuleBook
from setday.sheets import Ahead
from setday.timetable.tasks import Work, kinds_of_work, timetable_rules

__all__ = ["AheadItem", "ahead_of", "ahead_rows"]

_DUE = "material is due"
_MATERIAL = {
    "set-boxes": "boxes",
    "pull": "cable, staples and plates",
    "make-up": "connectors",
    "set-devices": "devices and plates",
    "hang-ceilings": "boards and screws",
    "hang-walls": "boards and screws",
    "tape": "tape, bead and compound",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class AheadItem:
    """One thing to do before a task can begin.

    Parameters
    ----------
    by : date
        The last day for it.
    what : str
    task : str
        Key of the work.
    label, why : str
    """

    by: date
    what: str
    task: str
    label: str
    why: str


def ahead_of(
    timetable: Timetable, *, since: date, until: date, local: LocalRules | None = None
) -> tuple[AheadItem, ...]:
    """Return what falls due within some days, in the order of the days.

    What was due before, for a task that has not begun, is listed too: it is late.  House material is ordered
    once, for the first of the tasks that take it.

    Parameters
    ----------
    timetable : Timetable
    since, until : date
        Both counted; tasks that begin before `since` are taken for begun.
    local : LocalRules or None
        Lead times set for this house.
    """
    rules = timetable_rules(local)
    items = [item for item in _items(timetable, rules, since) if item.by <= until]
    return tuple(sorted(items, key=lambda item: (item.by, item.label, item.what)))


def _items(timetable: Timetable, rules: RuleBook, since: date) -> Iterator[AheadItem]:
    lead = timedelta(days=rules.number("timetable.order_lead_days"))
    before = timedelta(days=rules.number("timetable.in_yard_days"))
    notice = timedelta(days=rules.number("timetable.guest_notice_days"))
    ordered: set[str] = set()
    for work, periods in spans(timetable):
        begins = timetable.day.meetings[periods[0]].date if periods else None
        goods = _MATERIAL.get(work.kind, "")
        if begins is None or begins < since or (work.due_why != _DUE and goods in ordered):
            ordered.add(goods)
            if begins is None or begins < since:
                continue
        else:
            ordered.add(goods)
            yield from _material(work, begins, lead=lead, before=before)
        yield from _guest(work, timetable.day.meetings[periods[0]], notice)


def _material(work: Work, begins: date, *, lead: timedelta, before: timedelta) -> Iterator[AheadItem]:
    goods = "its material" if work.due_why == _DUE else _MATERIAL.get(work.kind, "")
    if not goods:
        return
    due = work.due if work.due and work.due_why == _DUE else begins - before
    why = f"it begins {begins:%a %-d %b}"
    yield AheadItem(by=_weekday(due - lead), what=f"order {goods}", task=work.key, label=work.label, why=why)
    yield AheadItem(by=_weekday(due), what=f"{goods} in the yard", task=work.key, label=work.label, why=why)


def _weekday(day: date) -> date:
    """Return the day, or the Friday before it: nobody delivers or answers on a weekend."""
    return day - timedelta(days=max(0, day.weekday() - 4))


def _guest(work: Work, meeting: Meeting, notice: timedelta) -> Iterator[AheadItem]:
    if not work.guest and work.kind != "inspect":
        return
    who = work.guest or "the inspector"
    word = "confirm" if work.guest and guest_there(work, meeting) else "book"
    begins = meeting.date
    yield AheadItem(
        by=_weekday(begins - notice),
        what=f"{word} {who} for {begins:%a %-d %b}",
        task=work.key,
        label=work.label,
        why=kinds_of_work()[work.kind].signs,
    )


def ahead_rows(items: tuple[AheadItem, ...], *, since: date, until: date) -> Ahead:
    """Return the items as the rows of a sheet; what is late is said so."""
    joined: dict[tuple[str, str], list[str]] = {}
    whys: dict[tuple[str, str], str] = {}
    for item in items:
        late = "LATE: " if item.by < since else ""
        row = (f"{late}{item.by:%a %-d %b %Y}", item.what)
        joined.setdefault(row, []).append(item.label)
        whys.setdefault(row, item.why)
    rows = tuple((by, what, "; ".join(labels), whys[by, what]) for (by, what), labels in joined.items())
    return Ahead(until=f"{until:%A %-d %B %Y}", rows=rows)
