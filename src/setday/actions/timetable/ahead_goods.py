"""The material of the house's own tasks: how much of what, for the first day on which a task takes it."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property

from setday.actions.timetable.solving import Timetable, spans
from setday.materials import BuyingLine, BuyingList, Delivery, PriceList, StockItem, buying_list, loaded
from setday.needs import Need
from setday.timetable.tasks import Work

__all__ = ["MATERIAL", "Goods", "HouseMaterial", "goods_of"]

MATERIAL = {
    "set-boxes": "boxes",
    "pull": "cable, staples and plates",
    "make-up": "connectors",
    "set-devices": "devices and plates",
    "hang-ceilings": "boards and screws",
    "hang-walls": "boards and screws",
    "tape": "tape, bead and compound",
}
"""What each kind of the house's own work takes, in words."""
_USED_BY = {
    ("boards", "hang"): ("hang-ceilings", "hang-walls"),
    ("boards", "finish"): ("tape",),
    ("cable", "rough"): ("pull",),
    ("cable", "trim"): ("set-devices",),
    ("switching", "rough"): ("make-up",),
}
"""Trade and phase of a need to the kinds of work that take it; boxes are set before cable is pulled."""
_BOX = "box-"
_ANYWHERE = "house"


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseMaterial:
    """What the trades of a house need, with the list it is bought by and what lies in the yard.

    Parameters
    ----------
    needs : tuple of Need
        As they are bought: what is sold in lengths or coils is counted in these.
    prices : PriceList
    stock : tuple of StockItem
    """

    needs: tuple[Need, ...]
    prices: PriceList
    stock: tuple[StockItem, ...] = ()

    @classmethod
    def bought(
        cls, buying: BuyingList, *, prices: PriceList, stock: Iterable[StockItem] = ()
    ) -> "HouseMaterial":
        """Return the material of a buying list.

        Parameters
        ----------
        buying : BuyingList
        prices : PriceList
            By which it was made.
        stock : iterable of StockItem
        """
        needs = tuple(need for line in buying.lines for need in line.needs)
        return cls(needs=needs, prices=prices, stock=tuple(stock))


@dataclass(frozen=True, slots=True, kw_only=True)
class Goods:
    """So many sold units of one item, for the tasks that begin in one week.

    Parameters
    ----------
    kind : str
        "boards and screws" ...
    item, label : str
        Of the sold unit.
    count : int
        Sold units to order; 0 where the stock covers it.
    in_stock : str
        What of it lies in the yard, in words; empty for nothing.
    needed : date or None
        The first day on which a task takes any goods of this kind that week; None where none has a day.
    tasks : tuple of Work
        That take it, the first one first.
    """

    kind: str
    item: str
    label: str
    count: int
    in_stock: str
    needed: date | None
    tasks: tuple[Work, ...]


def goods_of(timetable: Timetable, material: HouseMaterial, *, since: date) -> tuple[Goods, ...]:
    """Return what is still to be ordered for the house's own tasks, week by week.

    What a task takes that began before `since` is taken to be there.  Everything is rounded to sold units
    once, for all that is left; stock is used up by the first weeks.

    Parameters
    ----------
    timetable : Timetable
    material : HouseMaterial
    since : date
    """
    return tuple(_Uses(timetable, since).goods(material))


class _Uses:
    """When which task takes what."""

    def __init__(self, timetable: Timetable, since: date) -> None:
        self.day, self.since = timetable.day, since
        self.begins = {
            work.key: self.day.meetings[periods[0]].date for work, periods in spans(timetable) if periods
        }
        self.zones = {room: zone.name for zone in self.day.work.zones for room in zone.rooms}

    @cached_property
    def by_kind(self) -> Mapping[str, list[Work]]:
        """Works of each kind, by their first day; those without a day last."""
        found: dict[str, list[Work]] = {}
        for work in sorted(self.day.work.works, key=lambda w: (self.begins.get(w.key, date.max), w.key)):
            found.setdefault(work.kind, []).append(work)
        return found

    def takers(self, trade: str, phase: str, place: str, *, item: str) -> list[Work]:
        """Return the works that take something somewhere, by their first day."""
        kinds = _USED_BY.get((trade, phase), ())
        if item.startswith(_BOX) and phase == "rough":
            kinds = ("set-boxes",)
        works = [work for kind in kinds for work in self.by_kind.get(kind, ())]
        zone = self.zones.get(place, place)
        here = [work for work in works if work.place == zone]
        return sorted(here or works, key=lambda work: self.begins.get(work.key, date.max))

    def over(self, takers: list[Work]) -> bool:
        """Tell whether the first of some works has begun, or all are done."""
        if not takers:
            return False
        return self._began(takers[0]) or all(work.done >= 1 for work in takers)

    def _began(self, work: Work) -> bool:
        begins = self.begins.get(work.key)
        return begins is not None and begins < self.since

    def goods(self, material: HouseMaterial) -> Iterator[Goods]:
        taken = {}
        left = []
        for need in material.needs:
            takers = self.takers(need.trade, need.phase, need.place, item=need.item)
            takers = [work for work in takers if work.done < 1] or takers
            if not self.over(takers):
                left.append(need)
                taken[need.trade, need.phase, need.place, need.item] = takers
        bought = buying_list(left, material.prices, stock=material.stock)

        def takers_of(line: BuyingLine, trade: str, phase: str, place: str) -> list[Work]:
            return taken.get((trade, phase, place, line.item), [])

        yield from self._by_week(bought.lines, takers_of)

    def _by_week(
        self, lines: Sequence[BuyingLine], takers_of: Callable[[BuyingLine, str, str, str], list[Work]]
    ) -> Iterator[Goods]:
        staged, tasks = [], dict[tuple[str, str], dict[str, Work]]()
        first: dict[str, date] = {}
        for line in lines:
            shares = []
            for share in line.shares:
                takers = takers_of(line, share.trade, share.phase, share.place)
                stage = self._stage(takers, share.trade)
                on = self.begins.get(takers[0].key) if takers else None
                if on is not None:
                    first[stage] = min(on, first.get(stage, on))
                for work in takers[:1]:
                    tasks.setdefault((line.item, stage), {})[work.key] = work
                shares.append(replace(share, phase=stage))
            staged.append(replace(line, shares=tuple(shares)))
        stages = sorted({share.phase for line in staged for share in line.shares}, key=_in_order)
        deliveries = [Delivery(name=stage, phases=(stage,)) for stage in stages]
        yield from _told(loaded(deliveries, staged), staged, tasks, first)

    def _stage(self, takers: list[Work], trade: str) -> str:
        """Return the week of the first of some works, with what it takes."""
        if not takers:
            return f"-/{trade}"
        kind = MATERIAL[takers[0].kind]
        begins = self.begins.get(takers[0].key)
        week = begins - timedelta(days=begins.weekday()) if begins else None
        return f"{week.isoformat() if week else '-'}/{kind}"


def _in_order(stage: str) -> tuple[bool, str]:
    return stage.startswith("-"), stage


def _told(
    deliveries: Iterable[Delivery],
    lines: Iterable[BuyingLine],
    tasks: Mapping[tuple[str, str], Mapping[str, Work]],
    first: Mapping[str, date],
) -> Iterator[Goods]:
    known = {line.item: line for line in lines}
    brought: set[str] = set()
    for delivery in deliveries:
        kind = delivery.name.partition("/")[2]
        for drop in delivery.drops:
            line = known[drop.item]
            told = drop.item not in brought
            brought.add(drop.item)
            yield Goods(
                kind=kind,
                item=drop.package.key,
                label=drop.package.label,
                count=drop.count,
                in_stock=_stock_words(line) if told else "",
                needed=first.get(delivery.name),
                tasks=tuple(tasks.get((drop.item, delivery.name), {}).values()),
            )
    for line in known.values():
        if line.item not in brought and not (line.served and line.packages):
            yield from _without_an_order(line, tasks, first)


def _without_an_order(
    line: BuyingLine, tasks: Mapping[tuple[str, str], Mapping[str, Work]], first: Mapping[str, date]
) -> Iterator[Goods]:
    """Yield an item that the stock covers, or that the price list does not serve."""
    stage = min((share.phase for share in line.shares), key=_in_order)
    yield Goods(
        kind=stage.partition("/")[2],
        item=line.item,
        label=line.label,
        count=0,
        in_stock=_stock_words(line),
        needed=first.get(stage),
        tasks=tuple(tasks.get((line.item, stage), {}).values()),
    )


def _stock_words(line: BuyingLine) -> str:
    if not line.on_hand:
        return ""
    return f"{float(line.on_hand):,.0f} of {float(line.needed + line.waste):,.0f} {line.unit} in stock"
