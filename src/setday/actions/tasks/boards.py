"""The boards of a house as work: looking behind them, hanging, coats with their drying, sanding."""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from setday.actions.buying import demo_prices
from setday.actions.houses import OpenHouse
from setday.actions.tasks.gates import Gates
from setday.actions.tasks.typed import with_kind
from setday.boards import board_problem, board_rules, coats_for_level, drying_time, gate_items, hanging_work
from setday.findings import Finding, Severity
from setday.materials import boards_offered
from setday.needs import GateItem, WorkItem
from setday.roster import ClassPlan, Rate, plain
from setday.rules import RuleBook
from setday.timetable.tasks import After, Work, Zone, kinds_of_work

__all__ = ["FINISHING", "board_work"]

FINISHING = ("tape", "second-coat", "third-coat", "skim-coat", "sand")
_PER_SQFT = "ft2"


def board_work(
    opened: OpenHouse,
    plan: ClassPlan,
    *,
    zones: tuple[Zone, ...],
    gates: Gates,
    rules: RuleBook,
    behind: tuple[GateItem, ...] = (),
) -> tuple[tuple[Work, ...], tuple[Finding, ...]]:
    """Return the work of boards, zone by zone, with what was found.

    The hours of hanging are those of the published rate times the class factor; those of looking, coats
    and sanding are the instructor's.

    Parameters
    ----------
    opened : OpenHouse
    plan : ClassPlan
        Its rates hold what finishing takes.
    zones : tuple of Zone
    gates : Gates
        Told what boards open and need.
    rules : RuleBook
        From `setday.timetable.tasks.timetable_rules`.
    behind : tuple of GateItem
        What other trades have behind the boards.
    """
    house, book = opened.built(), board_rules(opened.local)
    prices = demo_prices().prices
    offered = boards_offered(prices) if prices else ()
    prepared = board_problem(house, choices=opened.boards, rules=book, boards=offered)
    factor = dict(plan.factors).get("boards", prepared.class_factor)
    hanging = hanging_work(prepared.problem, class_factor=factor, rules=book)
    if not hanging:
        return (), ()
    coats, told = _coats(plan, book, rules)
    counts: dict[str, int] = {}
    rooms = {surface.id: surface.room for surface in house.surfaces}
    for item in (*gate_items(house), *behind):
        counts[rooms[item.surface]] = counts.get(rooms[item.surface], 0) + 1
    works: list[Work] = []
    for zone in zones:
        items = [item for item in hanging if item.place in zone.rooms]
        if items:
            seen = sum(counts.get(room, 0) for room in zone.rooms)
            works += _of_zone(zone, items, coats, gates=gates, rules=rules, seen=seen)
    return tuple(works), tuple(told)


Coat = tuple[str, float, str, int]
"""Kind, student-minutes for a square foot, who says so, days until the next may follow."""


def _of_zone(
    zone: Zone,
    items: list[WorkItem],
    coats: tuple[Coat, ...],
    *,
    gates: Gates,
    rules: RuleBook,
    seen: int,
) -> Iterator[Work]:
    look = _look(zone, seen, rules)
    rooms = (f"close-in {room}" for room in zone.rooms)
    gates.needs(look.key, "wired", "insulation inspected", "close-in", *rooms)
    for room in (zone.name, *zone.rooms):
        gates.opens(f"looked {room}", look.key)
    yield look
    hung = list(_hanging(zone, items, look))
    for work in hung:
        for room in zone.rooms:
            gates.opens(f"hung {room}", work.key)
    yield from hung
    area = sum(item.quantity for item in items)
    before: tuple[After, ...] = tuple(After(key=work.key) for work in hung)
    for kind, minutes, said, days in coats:
        work = _coat(zone, kind, area, minutes, said, before)
        if kind == "tape":
            gates.needs(work.key, "finishing", *(f"finishing {room}" for room in zone.rooms))
        before = (After(key=work.key, days=days, why="the coat dries" if days else ""),)
        yield work
    if coats:
        for room in zone.rooms:
            gates.opens(f"finished {room}", before[0].key)


def _look(zone: Zone, seen: int, rules: RuleBook) -> Work:
    minutes = rules.number("timetable.look_minutes_per_item") * seen
    kind = kinds_of_work()["look"]
    return with_kind(
        Work(
            key=f"look/{zone.name}",
            label=f"Look behind the boards: {zone.name}",
            trade=kind.trade,
            kind=kind.key,
            place=zone.name,
            minutes=max(1, round(minutes)),
            quantity=seen,
            unit="things to see",
            crew_least=min(kind.crew_least, zone.holds),
            crew_most=kind.crew_most,
            said_by=str(rules["timetable.look_minutes_per_item"].source),
        ),
        kind,
    )


def _hanging(zone: Zone, items: list[WorkItem], look: Work) -> Iterator[Work]:
    """Yield the ceilings of a zone, then its walls."""
    before: Work = look
    for part in ("ceilings", "walls"):
        mine = [item for item in items if item.key.endswith(part)]
        if not mine:
            continue
        kind = kinds_of_work()[f"hang-{part}"]
        first = mine[0]
        work = Work(
            key=f"boards/hang/{zone.name}/{part}",
            label=f"Hang boards: {zone.name}, {part}",
            trade="boards",
            kind=kind.key,
            place=zone.name,
            minutes=max(1, round(sum(item.student_hours for item in mine) * 60)),
            quantity=round(sum(item.quantity for item in mine), 1),
            unit=first.unit,
            crew_least=min(first.crew_least, zone.holds),
            crew_most=max(min(first.crew_most, zone.holds), min(first.crew_least, zone.holds)),
            after=(After(key=before.key),),
            parts=tuple(item.key for item in mine),
            said_by="; ".join(str(source) for source in (first.working.sources if first.working else ())),
            working=first.working if len(mine) == 1 else None,
        )
        before = with_kind(work, kind)
        yield before


def _coat(
    zone: Zone, kind_key: str, area: float, minutes: float, said: str, before: tuple[After, ...]
) -> Work:
    kind = kinds_of_work()[kind_key]
    work = Work(
        key=f"{kind_key}/{zone.name}",
        label=f"{kind.label}: {zone.name}",
        trade=kind.trade,
        kind=kind.key,
        place=zone.name,
        minutes=max(1, round(area * minutes)),
        quantity=round(area, 1),
        unit=_PER_SQFT,
        crew_least=min(kind.crew_least, zone.holds),
        crew_most=max(1, min(kind.crew_most, zone.holds)),
        after=before,
        said_by=said,
    )
    return replace(with_kind(work, kind), parts=(work.key,))


def _coats(plan: ClassPlan, book: RuleBook, rules: RuleBook) -> tuple[tuple[Coat, ...], list[Finding]]:
    """Return the coats of the finish level asked for, and every rate that is missing."""
    level = round(book.number("boards.finish_level"))
    if level == 0:
        return (), []
    asked = coats_for_level(level, book)
    kinds = ["tape", *FINISHING[1 : 1 + min(asked.flat, 2)], *(["skim-coat"] if asked.skim else []), "sand"]
    dry = drying_time(
        rules.number("timetable.drying_temperature_f"),
        rules.number("timetable.drying_humidity_percent"),
        book,
    )
    days = ceil(dry.hours / 24)
    told, coats = [], []
    for kind in kinds:
        rate = _rate(plan, kind)
        if rate is None:
            told.append(_no_rate(kind))
            continue
        said = f"{rate.hours:g} h a {rate.unit}, {rate.said_by or 'the instructor'}"
        coats.append((kind, rate.hours * 60 * _factor(plan, kind), said, 0 if kind == "sand" else days))
    return tuple(coats), told


def _rate(plan: ClassPlan, kind_key: str) -> Rate | None:
    kind = kinds_of_work()[kind_key]
    words = {plain(kind.label), kind.key, kind.key.replace("-", " ")}
    return next((r for r in plan.rates if plain(r.work) in words and plain(r.unit) == _PER_SQFT), None)


def _factor(plan: ClassPlan, kind_key: str) -> float:
    return dict(plan.factors).get(kinds_of_work()[kind_key].trade, 1.0)


def _no_rate(kind_key: str) -> Finding:
    kind = kinds_of_work()[kind_key]
    return Finding(
        rule="timetable.rate",
        about=f"rate of '{kind.label.lower()}'",
        found="no published rate is known for it, and the class file sets none.",
        expected=f"student-hours of this class for one ft2 of board, under the trade '{kind.trade}'.",
        do=f"Write it under rates with work '{kind.label.lower()}' and unit ft2, or set finish_level to 0.",
        severity=Severity.PROBLEM,
    )
