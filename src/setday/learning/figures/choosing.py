"""All figures of a house, and one by its key."""

from setday.cable import CableFigure
from setday.errors import NoAnswer
from setday.house import House
from setday.learning.figures.cable import cable_figures
from setday.learning.figures.rooms import room_figures
from setday.learning.figures.walls import wall_figures
from setday.learning.tree import Figure
from setday.rules import RuleBook

__all__ = ["figure_of", "figures_of"]


def figures_of(
    house: House,
    *,
    board_rules: RuleBook,
    cable: CableFigure | None = None,
    cable_rules: RuleBook | None = None,
) -> tuple[Figure, ...]:
    """Return every figure of a house that students can try.

    Parameters
    ----------
    house : House
    board_rules : RuleBook
    cable : CableFigure or None
        None leaves the figures of cable out.
    cable_rules : RuleBook or None
    """
    found = [*room_figures(house, board_rules), *wall_figures(house)]
    if cable is not None and cable_rules is not None:
        found += cable_figures(cable, cable_rules)
    return tuple(found)


def figure_of(figures: tuple[Figure, ...], key: str) -> Figure:
    """Return the figure of that key.

    Parameters
    ----------
    figures : tuple of Figure
    key : str

    Raises
    ------
    NoAnswer
        Where the house has no such figure any more.
    """
    for figure in figures:
        if figure.key == key:
            return figure
    raise NoAnswer(f"This house has no figure '{key}'.", do="Choose one of its list.")
