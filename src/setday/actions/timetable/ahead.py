"""What is ahead: what has to be ordered, delivered and booked by when, so that the timetable can run."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from setday.actions.timetable.ahead_goods import MATERIAL, Goods, HouseMaterial, goods_of
from setday.actions.timetable.problem import guest_there
from setday.actions.timetable.solving import Timetable, spans
from setday.roster import Meeting
from setday.rules import LocalRules
from setday.sheets import Ahead
from setday.timetable.tasks import Work, kinds_of_work, timetable_rules

__all__ = ["AheadItem", "LookAhead", "ahead_of", "ahead_rows"]

_DUE = "material is due"
_ORDER = "order "


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
    goods : str
        What is ordered, in a word, where sold units of it are listed: "boards and screws".
    item, sold : str
        Key and words of the sold unit; empty where no quantity is known.
    count : int
        Sold units.
    needed : date or None
        The day on which the first task takes it.
    """

    by: date
    what: str
    task: str
    label: str
    why: str
    goods: str = ""
    item: str = ""
    sold: str = ""
    count: int = 0
    needed: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAhead:
    """What falls due, and what there is to know about it.

    Parameters
    ----------
    items : tuple of AheadItem
        In the order of the days.
    notes : tuple of str
        What has no quantity or no day, and what lies in the yard already, in words.
    """

    items: tuple[AheadItem, ...]
    notes: tuple[str, ...] = ()


def ahead_of(
    timetable: Timetable,
    *,
    since: date,
    until: date,
    local: LocalRules | None = None,
    material: HouseMaterial | None = None,
) -> LookAhead:
    """Return what falls due within some days, in the order of the days.

    What was due before, for a task that has not begun, is listed too: it is late.

    Parameters
    ----------
    timetable : Timetable
    since, until : date
        Both counted; tasks that begin before `since` are taken for begun.
    local : LocalRules or None
        Lead times set for this house.
    material : HouseMaterial or None
        What the trades of the house need; without it, and for what no trade figures, no quantity is known.
    """
    rules = timetable_rules(local)
    leads = _Leads(
        order=timedelta(days=rules.number("timetable.order_lead_days")),
        in_yard=timedelta(days=rules.number("timetable.in_yard_days")),
        notice=timedelta(days=rules.number("timetable.guest_notice_days")),
    )
    goods = goods_of(timetable, material, since=since) if material is not None else ()
    figured = {each.kind for each in goods}
    items = [*_items(timetable, leads, since, figured), *_ordered(goods, leads)]
    due = [item for item in items if item.by <= until]
    notes = (*_without_quantity(due), *_known(goods))
    return LookAhead(
        items=tuple(sorted(due, key=lambda item: (item.by, item.goods, item.label, item.what))),
        notes=tuple(dict.fromkeys(notes)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Leads:
    """How long before something has to be done."""

    order: timedelta
    in_yard: timedelta
    notice: timedelta


def _items(timetable: Timetable, leads: _Leads, since: date, figured: set[str]) -> Iterator[AheadItem]:
    """Yield what is known of each task without quantities: house material once, for its first task."""
    ordered = set(figured)
    for work, periods in spans(timetable):
        begins = timetable.day.meetings[periods[0]].date if periods else None
        goods = MATERIAL.get(work.kind, "")
        late = begins is None or begins < since
        if not late and (work.due_why == _DUE or goods not in ordered):
            yield from _material(work, begins, leads)
        ordered.add(goods)
        if not late:
            yield from _guest(work, timetable.day.meetings[periods[0]], leads.notice)


def _material(work: Work, begins: date | None, leads: _Leads) -> Iterator[AheadItem]:
    goods = "its material" if work.due_why == _DUE else MATERIAL.get(work.kind, "")
    if not goods or begins is None:
        return
    due = work.due if work.due and work.due_why == _DUE else begins - leads.in_yard
    facts: dict[str, Any] = {
        "task": work.key,
        "label": work.label,
        "why": f"it begins {begins:%a %-d %b}",
        "needed": begins,
    }
    typed = work.due_why == _DUE and work.quantity
    much = f" (for {work.quantity:,.0f} {work.unit})" if typed else ""
    yield AheadItem(by=_weekday(due - leads.order), what=f"order {goods}{much}, no quantity", **facts)
    yield AheadItem(by=_weekday(due), what=f"{goods} in the yard", **facts)


def _ordered(goods: tuple[Goods, ...], leads: _Leads) -> Iterator[AheadItem]:
    """Yield what the figured goods ask for: an order of sold units, and the day they are in the yard."""
    for each in goods:
        if each.needed is None or not each.count:
            continue
        due = each.needed - leads.in_yard
        first = each.tasks[0]
        facts: dict[str, Any] = {
            "task": first.key,
            "label": first.label,
            "why": f"it begins {each.needed:%a %-d %b}",
            "goods": each.kind,
            "item": each.item,
            "sold": each.label,
            "count": each.count,
            "needed": each.needed,
        }
        yield AheadItem(by=_weekday(due - leads.order), what=f"order {each.kind}", **facts)
        yield AheadItem(by=_weekday(due), what=f"{each.kind} in the yard", **facts)


def _without_quantity(items: list[AheadItem]) -> Iterator[str]:
    """Yield one sentence on what is to be ordered and has no quantity."""
    told = dict.fromkeys(item.label for item in items if item.what.endswith("no quantity"))
    if told:
        yield (
            f"No quantity is known for {'; '.join(told)}: what you typed yourself is yours to count; boards "
            "have one once a layout of the house is kept, wiring once its file names the devices."
        )


def _known(goods: tuple[Goods, ...]) -> Iterator[str]:
    """Yield what lies in the yard, what the price list does not sell, what no task of the timetable takes."""
    held = [f"{each.label}: {each.in_stock}" for each in goods if each.in_stock]
    if held:
        yield f"Taken off by the count of the yard: {'; '.join(held)}."
    unserved = dict.fromkeys(each.label for each in goods if not each.count and not each.in_stock)
    if unserved:
        yield f"Not on the price list, so without sold units: {'; '.join(unserved)}."
    undated = dict.fromkeys(each.label for each in goods if each.needed is None and each.count)
    if undated:
        yield f"Needed, but no planned task takes it: {'; '.join(undated)}."


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


def ahead_rows(ahead: LookAhead, *, since: date, until: date) -> Ahead:
    """Return the items as the rows of a sheet; what is late is said so, what comes together is one row."""
    joined: dict[tuple[str, str], list[AheadItem]] = {}
    for item in ahead.items:
        joined.setdefault((_by(item, since), item.what), []).append(item)
    rows = tuple(
        (by, _with_kinds(what, items), _tasks(items), items[0].why) for (by, what), items in joined.items()
    )
    orders = tuple(
        (_by(item, since), f"{item.count:,}", item.sold, f"{item.needed:%a %-d %b}", item.label)
        for item in ahead.items
        if item.sold and item.needed and item.what.startswith(_ORDER)
    )
    return Ahead(until=f"{until:%A %-d %B %Y}", rows=rows, orders=orders, notes=ahead.notes)


def _by(item: AheadItem, since: date) -> str:
    return f"{'LATE: ' if item.by < since else ''}{item.by:%a %-d %b %Y}"


def _tasks(items: list[AheadItem]) -> str:
    return "; ".join(dict.fromkeys(item.label for item in items))


def _with_kinds(what: str, items: list[AheadItem]) -> str:
    """Return what is to be done, with how many kinds of sold units are in it."""
    kinds = len({item.sold for item in items if item.sold})
    if not kinds:
        return what
    listed = "listed below" if what.startswith(_ORDER) else "as ordered"
    return f"{what}: {kinds} kind{'s' if kinds > 1 else ''}, {listed}"
