"""The inspections before anything is covered, as work: one of the class goes round with the inspector."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from setday.actions.houses import OpenHouse
from setday.actions.tasks.gates import Gates
from setday.actions.tasks.typed import with_kind
from setday.boards import gate_items
from setday.closein import gate_rules, inspections, items_of_trades
from setday.findings import Finding, Severity
from setday.needs import GateItem
from setday.roster import ClassPlan, plain
from setday.rules import RuleBook
from setday.timetable.tasks import After, Work, kinds_of_work

__all__ = ["INSPECTION", "INSPECTIONS", "inspection_by", "inspection_work"]

INSPECTION = "inspect/rough electrical"
INSPECTIONS: Mapping[str, str] = {
    INSPECTION: "inspection/electrical",
    "inspect/rough plumbing": "inspection/plumbing",
    "inspect/framing": "inspection/framing",
    "inspect/insulation": "inspection/insulation",
}
"""Each inspection as work, and the key under which the gates ask for it."""


def inspection_work(
    opened: OpenHouse,
    plan: ClassPlan,
    *,
    behind: Iterable[GateItem],
    gates: Gates,
    rules: RuleBook,
) -> tuple[tuple[Work, ...], tuple[Finding, ...]]:
    """Return the inspections that the gates ask for besides that of the wiring, with what was found.

    The framing inspection comes after the rough ones and before what waits for the wiring; that of the
    insulation after everything that opens `close-in`.

    Parameters
    ----------
    opened : OpenHouse
    plan : ClassPlan
        Its guests say who comes when.
    behind : iterable of GateItem
        What other trades than boards have behind the boards.
    gates : Gates
        Told what each opens and needs.
    rules : RuleBook
        From `setday.timetable.tasks.timetable_rules`.
    """
    house = opened.built()
    items = items_of_trades((*gate_items(house), *behind))
    asked = {each.key for each in inspections(house, items, rules=gate_rules(opened.local))}
    works: list[Work] = []
    findings: list[Finding] = []
    for key, name in INSPECTIONS.items():
        if key == INSPECTION or name not in asked:
            continue
        work, told = inspection_by(key, (), plan=plan, rules=rules)
        works.append(work)
        findings += told
        _gates(work, gates)
    return tuple(works), tuple(findings)


def _gates(work: Work, gates: Gates) -> None:
    if work.key == "inspect/insulation":
        gates.needs(work.key, "close-in")
        gates.opens("insulation inspected", work.key)
    elif work.key == "inspect/framing":
        for earlier in filter(lambda key: key.startswith("inspect/rough"), INSPECTIONS):
            gates.opens("rough inspected", earlier)
        gates.needs(work.key, "framing", "rough inspected")
        gates.opens("wired", work.key)
    else:
        gates.opens("wired", work.key)


def inspection_by(
    key: str, after: tuple[After, ...], *, plan: ClassPlan, rules: RuleBook
) -> tuple[Work, tuple[Finding, ...]]:
    """Return one inspection as work, on the days its guest comes, with what was found.

    Parameters
    ----------
    key : str
        One of `INSPECTIONS`.
    after : tuple of After
    plan : ClassPlan
    rules : RuleBook
    """
    name = key.partition("/")[2]
    word = INSPECTIONS[key].partition("/")[2]
    guest = next((each.who for each in plan.calendar.guests if word in plain(each.who)), "")
    kind = kinds_of_work()["inspect"]
    work = Work(
        key=key,
        label=f"{name.capitalize()} inspection",
        trade="inspection",
        kind="inspect",
        place="house",
        minutes=round(rules.number("timetable.inspection_minutes")),
        quantity=1,
        unit="inspection",
        crew_least=kind.crew_least,
        crew_most=kind.crew_most,
        after=after,
        guest=guest,
        said_by=str(rules["timetable.inspection_minutes"].source),
    )
    eyes = round(rules.number("timetable.inspection_attention"))
    shown = replace(with_kind(work, kind), attention=eyes)
    return shown, () if guest else (_unbooked(name, word),)


def _unbooked(name: str, word: str) -> Finding:
    return Finding(
        rule="timetable.inspection",
        about=f"the {name} inspection",
        found=f"no {word} inspector is among the guests: it is planned as soon as what it waits for is done.",
        do="Book the inspector and write the days under guests.",
        severity=Severity.NOTE,
    )
