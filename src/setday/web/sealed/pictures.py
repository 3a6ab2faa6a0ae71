"""Pictures of an opened figure: the wall or the plan it is about, and the class's answers as dots."""

from typing import TYPE_CHECKING, Any

from setday.drawing import dot_plot, dot_table, surface_elevation, wall_elevation
from setday.web.houses.drawings import Drawings, both, plan_of
from setday.web.houses.sheet import HouseSheet

if TYPE_CHECKING:
    from setday.learning import Diagnoser, Figure

__all__ = ["figure_pictures", "spread_pictures"]


def figure_pictures(sheet: HouseSheet, figure: "Figure") -> Drawings | None:
    """Draw what a figure is about: one surface, a wall, or the plan; nothing for a box."""
    built = sheet.built
    if len(figure.surfaces) == 1:
        surface = built.surface(figure.surfaces[0])
        return both(lambda paper, key: surface_elevation(surface, paper=paper, key=key), key="about")
    if figure.wall:
        return both(
            lambda paper, key: wall_elevation(built.wall(figure.wall), paper=paper, key=key), key="about"
        )
    return plan_of(sheet, studs=False)


def spread_pictures(
    figure: "Figure", diagnoser: "Diagnoser", shown: list[dict[str, Any]]
) -> dict[str, Any] | None:
    """Draw the last answer of everybody on one line, with the right one; None where nobody answered."""
    last = {each["entry"].member_id: each for each in shown}
    if not last:
        return None
    from setday.web.sealed.entering import matched_lines

    answers = [
        (each["entry"].member.shown_as, matched_lines(figure, each["entry"])[-1].written.value)
        for each in last.values()
    ]
    right = diagnoser.right[figure.last.key]
    plot = both(
        lambda paper, key: dot_plot(answers, right=right, unit=figure.unit, paper=paper, key=key),
        key="spread",
    )
    return {"drawings": plot, "table": dot_table(answers, right=right, unit=figure.unit)}
