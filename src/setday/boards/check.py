"""What can be said about the boards of a house before anything is laid out."""

from setday.boards.choices import BoardChoices
from setday.boards.problem import Board
from setday.boards.surfaces import board_problem
from setday.findings import Finding
from setday.house import House
from setday.rules import RuleBook

__all__ = ["check"]


def check(
    house: House, *, choices: BoardChoices, rules: RuleBook, boards: tuple[Board, ...]
) -> tuple[Finding, ...]:
    """Return every finding on choices, framing, price list and hanging days.

    Parameters
    ----------
    house : House
    choices : BoardChoices
    rules : RuleBook
        From `setday.boards.board_rules`.
    boards : tuple of Board
        The boards of the price list.
    """
    return board_problem(house, choices=choices, rules=rules, boards=boards).findings
