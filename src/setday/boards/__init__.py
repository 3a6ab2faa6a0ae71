"""Boards: gypsum board on walls and ceilings, laid out board by board.

The house becomes a problem (`board_problem`), a solver lays it out, and `verify` checks the layout
without a line of the solver before anything is shown.
"""

from setday.boards.choices import BoardChoice, BoardChoices, CarryIn, HangDay
from setday.boards.outcome import (
    BoughtBoard,
    Bound,
    Layout,
    Limits,
    Outcome,
    Piece,
    Progress,
    Status,
    SurfaceRows,
)
from setday.boards.problem import (
    Board,
    BoardProblem,
    BoardRules,
    Joist,
    OffcutUse,
    Rows,
    Surface,
    SurfaceKind,
    Void,
)
from setday.boards.rulebook import board_rules
from setday.boards.specified import Cover, nominal
from setday.boards.surfaces import Prepared, SurfaceNote, board_problem
from setday.boards.verify import Totals, totals, verify, verify_outcome

__all__ = [
    "Board",
    "BoardChoice",
    "BoardChoices",
    "BoardProblem",
    "BoardRules",
    "BoughtBoard",
    "Bound",
    "CarryIn",
    "Cover",
    "HangDay",
    "Joist",
    "Layout",
    "Limits",
    "OffcutUse",
    "Outcome",
    "Piece",
    "Prepared",
    "Progress",
    "Rows",
    "Status",
    "Surface",
    "SurfaceKind",
    "SurfaceNote",
    "SurfaceRows",
    "Totals",
    "Void",
    "board_problem",
    "board_rules",
    "nominal",
    "totals",
    "verify",
    "verify_outcome",
]
