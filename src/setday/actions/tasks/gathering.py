"""The tasks of a house: what the trades hand on and what the instructor typed, gates and waits joined."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from setday.actions.houses import OpenHouse
from setday.actions.tasks.boards import board_work
from setday.actions.tasks.gates import Gates, close_gates
from setday.actions.tasks.inspections import INSPECTIONS, inspection_work
from setday.actions.tasks.typed import typed_work
from setday.actions.tasks.wiring import wiring_work
from setday.errors import FileProblem
from setday.findings import Finding, Severity, in_order
from setday.roster import ClassPlan, plain
from setday.timetable.tasks import Work, Zone, bundled, timetable_rules, zones_of

__all__ = ["HouseWork", "house_work"]

_EVERYONE = ("house", "yard", "shop")
"""Places that hold everybody unless the instructor says otherwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseWork:
    """All the work of a house, ready to be put into periods.

    Parameters
    ----------
    house : str
    works : tuple of Work
        In the order in which they would be done; small work is together.
    zones : tuple of Zone
    places : tuple of (str, int)
        Every place of a work, and how many people it holds.
    findings : tuple of Finding
    """

    house: str
    works: tuple[Work, ...]
    zones: tuple[Zone, ...]
    places: tuple[tuple[str, int], ...]
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """What must be put right before a timetable can be made."""
        return tuple(each for each in self.findings if each.severity is Severity.PROBLEM)

    def work(self, key: str) -> Work:
        """Return the work of a key, or the bundle it is in."""
        return next(work for work in self.works if key in (work.key, *work.parts))


def house_work(opened: OpenHouse, plan: ClassPlan, *, clock: Callable[[], float]) -> HouseWork:
    """Gather the work of a house and its class.

    Parameters
    ----------
    opened : OpenHouse
    plan : ClassPlan
        Tasks, rates, factors and places of the instructor.
    clock : callable
        Returns seconds; limits the search for the order of boxes on long circuits.

    Raises
    ------
    FileProblem
        When the house cannot be built.
    """
    house = opened.built()
    rules = timetable_rules(opened.local)
    zones = zones_of(house, rules=rules)
    gates = Gates(plan.tasks)
    wiring = wiring_work(opened, plan, zones=zones, gates=gates, rules=rules, clock=clock)
    seen, told_seen = inspection_work(opened, plan, behind=wiring.behind, gates=gates, rules=rules)
    boards, told_boards = board_work(
        opened, plan, zones=zones, gates=gates, rules=rules, behind=wiring.behind
    )
    typed = typed_work(plan, zones=zones, gates=gates)
    closed, told_gates = close_gates((*typed, *wiring.works, *seen, *boards), gates)
    period = _shortest(plan, rules.number("timetable.usual_period_min"))
    least = rules.number("timetable.least_crew_periods") * period
    alone = frozenset((*INSPECTIONS, *(task.key for task in plan.tasks)))
    works = bundled(closed, least_minutes=least, alone=alone)
    if all(work.filler or work.key in INSPECTIONS for work in works):
        raise FileProblem(
            "There is no work: the house has no boards and no wiring, and the class file has no task.",
            do="Write tasks into the class file.",
            where=opened.name,
        )
    return HouseWork(
        house=house.name,
        works=works,
        zones=zones,
        places=_places(works, zones, plan),
        findings=in_order((*wiring.findings, *told_seen, *told_boards, *told_gates)),
    )


def _shortest(plan: ClassPlan, usual: float) -> float:
    """Return the length of the shortest period the classes have [min]."""
    bells = [bell.minutes for group in plan.classes for bell in group.meetings]
    return float(min(bells, default=usual))


def _places(works: Iterable[Work], zones: tuple[Zone, ...], plan: ClassPlan) -> tuple[tuple[str, int], ...]:
    everyone = max(1, len(plan.students))
    holds = {zone.name: zone.holds for zone in zones} | dict.fromkeys(_EVERYONE, everyone)
    rooms = {plain(room): zone.name for zone in zones for room in zone.rooms}
    names = {plain(name): name for name in holds}
    for place, many in plan.places:
        at = names.get(plain(place)) or rooms.get(plain(place)) or place
        holds[at] = many
    used = {work.place for work in works}
    return tuple((place, holds.get(place, everyone)) for place in sorted(used))
