"""Hanging hours, from the one published rate, times the factor of this class."""

from setday.boards.problem import BoardProblem, SurfaceKind
from setday.boards.verify import net_area
from setday.needs import WorkItem
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["CAUTION", "hanging_hours", "hanging_work"]

_SQFT = (12 * 64) ** 2
CAUTION = (
    "The rate is for trained crews and covers hanging only; it is never a target for a class.",
    "Taping and finishing have no published rate here: the instructor enters hours of the class's own.",
)


def hanging_hours(area_sqft: float, *, class_factor: float, rules: RuleBook, key: str, title: str) -> Working:
    """Work out the hours to hang an area of board.

    Parameters
    ----------
    area_sqft : float
        Board hung, openings taken off [ft2].
    class_factor : float
        Hours of this class for one hour of the published crew.
    rules : RuleBook
    key, title : str
        Of the working.

    Returns
    -------
    Working
        In hours of one person, to a tenth of an hour from the area to a tenth of a square foot, so that
        every page says the same and the parts add up to the whole.

    References
    ----------
    NAVEDTRA 14045, chapter 2, quoting NAVFAC P-405: 33 man-hours for 1,000 ft2.
    """
    rate = rules.number("boards.hang_per_1000")
    shown = round(area_sqft, 1)
    trained = shown * rate / 1000
    hours = round(trained * class_factor, 1)
    return Working(
        key=key,
        title=title,
        steps=(
            Step(
                label="hours of a trained crew",
                expression=f"{shown:,.1f} ft2 x {rate:g} h / 1,000 ft2",
                result=f"{trained:,.2f} h",
                value=trained,
                unit="h",
                source=rules["boards.hang_per_1000"].source,
            ),
            Step(
                label="hours of this class",
                expression=f"{trained:,.2f} h x {class_factor:g}",
                result=f"{hours:,.1f} h",
                value=hours,
                unit="h",
            ),
        ),
        result=f"{hours:,.1f} h",
        value=hours,
        unit="h",
        assumptions=CAUTION,
    )


def hanging_work(problem: BoardProblem, *, class_factor: float, rules: RuleBook) -> tuple[WorkItem, ...]:
    """Return one piece of work for the ceilings of each room and one for its walls, in hanging order.

    It follows from the surfaces alone, so that no layout has to be looked for first.
    """
    areas: dict[tuple[str, SurfaceKind], float] = {}
    for surface in sorted(problem.surfaces, key=lambda s: s.sequence):
        part = (surface.room, surface.kind)
        areas[part] = areas.get(part, 0.0) + net_area(surface) / _SQFT
    items = []
    for (room, kind), area in areas.items():
        key = _key(room, kind)
        ceiling = _key(room, SurfaceKind.CEILING)
        below = kind is SurfaceKind.WALL and (room, SurfaceKind.CEILING) in areas
        label = f"Hang boards: {room}, {kind.value}s"
        working = hanging_hours(area, class_factor=class_factor, rules=rules, key=key, title=label)
        items.append(
            WorkItem(
                key=key,
                label=label,
                trade="boards",
                skill="boards",
                place=room,
                quantity=area,
                unit="ft2",
                student_hours=working.value,
                crew_least=round(rules.number("boards.crew_least")),
                crew_most=round(rules.number("boards.crew_most")),
                after=(ceiling,) if below else (),
                working=working,
            )
        )
    return tuple(items)


def _key(room: str, kind: SurfaceKind) -> str:
    return f"boards/hang/{room}/{kind.value}s"
