"""The wiring of a house as work: boxes, holes, circuits, joints, hookups tried, the inspection, devices."""

from collections.abc import Callable
from dataclasses import dataclass

from setday.actions.cable.figured import HouseCable, figure_cable
from setday.actions.cable.handing import gate_items_of_wiring, work_of_wiring
from setday.actions.houses import OpenHouse
from setday.actions.tasks.gates import Gates
from setday.actions.tasks.inspections import INSPECTION, inspection_by
from setday.actions.tasks.typed import place_named, with_kind
from setday.cable import cable_rules
from setday.findings import Finding, Severity
from setday.needs import GateItem, WorkItem
from setday.roster import ClassPlan
from setday.rules import RuleBook
from setday.timetable.tasks import After, Work, Zone, kinds_of_work

__all__ = ["WiringWork", "wiring_work"]

_KINDS = {
    "cable/boxes": "set-boxes",
    "cable/bore": "bore",
    "cable/pull": "pull",
    "cable/make-up": "make-up",
    "cable/trim": "set-devices",
    "switching/try": "try",
}
_FIRST, _ROUGH, _LAST = ("set-boxes",), ("make-up", "try"), "set-devices"


@dataclass(frozen=True, slots=True, kw_only=True)
class WiringWork:
    """The work of the wiring, and what of it will be behind each surface."""

    works: tuple[Work, ...] = ()
    behind: tuple[GateItem, ...] = ()
    findings: tuple[Finding, ...] = ()


def wiring_work(
    opened: OpenHouse,
    plan: ClassPlan,
    *,
    zones: tuple[Zone, ...],
    gates: Gates,
    rules: RuleBook,
    clock: Callable[[], float],
) -> WiringWork:
    """Return the work of the wiring, with what was found; nothing for a house without a panel.

    Parameters
    ----------
    opened : OpenHouse
    plan : ClassPlan
    zones : tuple of Zone
    gates : Gates
        Told what the wiring opens and needs.
    rules : RuleBook
        From `setday.timetable.tasks.timetable_rules`.
    clock : callable
        Returns seconds.
    """
    house = opened.built()
    if house.wiring.panel is None:
        return WiringWork(findings=(_no_panel(opened),))
    wired = figure_cable(opened, clock=clock)
    boxes = _rooms_of_hookups(wired)
    works = [
        _work(item, boxes, opened=opened, plan=plan, zones=zones, house=house.name)
        for item in work_of_wiring(wired, opened)
    ]
    before = tuple(After(key=work.key) for work in works if work.kind in _ROUGH)
    inspection, told = inspection_by(INSPECTION, before, plan=plan, rules=rules)
    works.insert(next((n for n, w in enumerate(works) if w.kind == _LAST), len(works)), inspection)
    for work in works:
        _gates(work, zones, gates)
    return WiringWork(works=tuple(works), behind=gate_items_of_wiring(wired), findings=told)


def _work(
    item: WorkItem,
    boxes: dict[str, set[str]],
    *,
    opened: OpenHouse,
    plan: ClassPlan,
    zones: tuple[Zone, ...],
    house: str,
) -> Work:
    kind = kinds_of_work()[_KINDS["/".join(item.key.split("/")[:2])]]
    usual = cable_rules(opened.local).number("cable.class_factor") if item.trade == "cable" else 1.0
    factor = dict(plan.factors).get(item.trade, usual) / usual
    rooms = sorted(boxes.get(item.key, ()))
    after = (*item.after, *(f"cable/make-up/{room}" for room in rooms))
    work = Work(
        key=item.key,
        label=item.label.replace(f"{house}: ", ""),
        trade=item.trade,
        kind=kind.key,
        place=place_named(item.place, zones),
        minutes=max(1, round(item.student_hours * factor * 60)),
        quantity=item.quantity,
        unit=item.unit,
        crew_least=item.crew_least,
        crew_most=item.crew_most,
        after=tuple(After(key=key) for key in after),
        said_by=_said(item),
        working=item.working,
    )
    return with_kind(work, kind)


def _said(item: WorkItem) -> str:
    sources = item.working.sources if item.working else ()
    return "; ".join(str(source) for source in sources)


def _rooms_of_hookups(wired: HouseCable) -> dict[str, set[str]]:
    """Return for each trial of a hookup the rooms whose boxes it needs made up."""
    rooms = {device.box: device.room or "outdoors" for device in wired.figure.house.devices}
    return {
        f"switching/try/{each.hookup.name}": {
            rooms[box.name] for box in each.hookup.boxes if box.name in rooms
        }
        for each in wired.hookups
    }


def _gates(work: Work, zones: tuple[Zone, ...], gates: Gates) -> None:
    """Note what a work of the wiring waits for and opens, in its rooms."""
    rooms = next((zone.rooms for zone in zones if zone.name == work.place), ())
    if work.kind in _FIRST:
        gates.needs(work.key, "rough-in", *(f"rough-in {room}" for room in rooms))
    if work.key == INSPECTION:
        gates.opens("wired", work.key)
    if work.kind == _LAST:
        gates.needs(work.key, "trim", *(f"trim {room}" for room in rooms), *(f"finished {r}" for r in rooms))
        for name in (work.place, *rooms):
            gates.opens(f"devices {name}", work.key)


def _no_panel(opened: OpenHouse) -> Finding:
    return Finding(
        rule="timetable.wiring",
        about="the wiring",
        found="the house file does not say where the panel will be, so no wiring is in the timetable.",
        do=f"Write the panel into {opened.name}, or type the work.",
        severity=Severity.NOTE,
    )
