"""What switching hands on: connectors, the work of trying, and the gate that every hookup was judged."""

from collections.abc import Mapping

from setday.needs import GateItem, Need, WorkItem
from setday.rules import RuleBook
from setday.switching.figure import SwitchingFigure
from setday.switching.hookup import Hookup, Join
from setday.working import Step, Working

__all__ = ["gate_items", "needs", "work_items"]

_HOUSE = "house"


def needs(figured: SwitchingFigure) -> tuple[Need, ...]:
    """Return the connectors of the joins; boxes, cables and devices are the cable trade's.

    A join of conductors alone takes one; so does one that reaches a terminal by a pigtail; a single
    conductor under its screw takes none.
    """
    count = sum(_spliced(each.hookup, join) for each in figured.hookups for join in each.hookup.joins)
    if not count:
        return ()
    return (
        Need(
            trade="switching",
            item="connector-twist",
            label="twist-on connector",
            quantity=float(count),
            unit="pieces",
            place=_HOUSE,
            phase="rough",
            waste_included=False,
        ),
    )


def _spliced(hookup: Hookup, join: Join) -> bool:
    cables = {cable.name for cable in hookup.all_cables}
    conductors = sum(point.holder in cables for point in join.points)
    terminals = len(join.points) - conductors
    return conductors > 1 or terminals > 1


def work_items(figured: SwitchingFigure, *, rules: RuleBook) -> tuple[WorkItem, ...]:
    """Return the trying of every hookup.

    Parameters
    ----------
    figured : SwitchingFigure
    rules : RuleBook
        From `setday.switching.switching_rules`.
    """
    return tuple(_tried(each.hookup, rules) for each in figured.hookups)


def _tried(hookup: Hookup, rules: RuleBook) -> WorkItem:
    hours = rules.number("switching.try_h")
    positions = 2 ** len(hookup.switches)
    key, label = f"switching/try/{hookup.name}", f"Try and judge: {hookup.name}"
    step = Step(
        label="hours of a crew",
        expression=f"{positions} positions, dead first",
        result=f"{hours:g} h",
        value=hours,
        unit="h",
        source=rules["switching.try_h"].source,
    )
    return WorkItem(
        key=key,
        label=label,
        trade="switching",
        skill="switching",
        place=_HOUSE,
        quantity=float(positions),
        unit="positions",
        student_hours=hours,
        crew_least=round(rules.number("switching.crew_least")),
        crew_most=round(rules.number("switching.crew_most")),
        working=Working(key=key, title=label, steps=(step,), result=f"{hours:g} h", value=hours, unit="h"),
    )


def gate_items(figured: SwitchingFigure, *, surfaces: Mapping[str, str]) -> tuple[GateItem, ...]:
    """Return, for every surface with a box of a hookup, that it must be tried and judged before.

    Parameters
    ----------
    figured : SwitchingFigure
    surfaces : mapping
        Box to the id of the surface it shows on; boxes that show on none are left out.
    """
    asked = {
        (surfaces[box.name], each.hookup.name): None
        for each in figured.hookups
        for box in each.hookup.boxes
        if surfaces.get(box.name)
    }
    return tuple(
        GateItem(
            surface=surface,
            trade="switching",
            key=f"switching/{surface}/{name}",
            label=f"hookup '{name}' tried in every position, dead, and judged",
        )
        for surface, name in asked
    )
