"""Boards: gypsum board on walls and ceilings, laid out board by board.

The house becomes a problem (`board_problem`), a solver lays it out, and `verify` checks the layout
without a line of the solver before anything is shown.
"""

from setday.boards.area import AreaCount, AreaGroup, AreaLine, AreaOrder, TakenOff, count_by_area
from setday.boards.check import check
from setday.boards.choices import BoardChoice, BoardChoices, CarryIn, HangDay
from setday.boards.comparison import Comparison
from setday.boards.cutlist import BoardCuts, CrewShare, Cut, CutList, share_among_crews
from setday.boards.cutouts import CutOut, Slope, cut_outs, cuts_in_words, is_shaped, slopes
from setday.boards.document import boards_document
from setday.boards.drying import Coats, DryingTime, coats_for_level, drying_time
from setday.boards.fasten import Fastener, SurfaceFasteners
from setday.boards.figure import BoardFigure, Solve, figure
from setday.boards.finish import BeadLength, FinishLengths, RuleOfThumb
from setday.boards.handing import gate_items, needs, work_items
from setday.boards.hardware import Hardware
from setday.boards.hours import hanging_hours, hanging_work
from setday.boards.joints import Joint, butt_joints, row_joints
from setday.boards.laidout import LaidOut
from setday.boards.marks import board_words, marks_in_order, piece_size
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
from setday.boards.verify import Totals, net_area, totals, verify, verify_outcome
from setday.boards.weight import RoomStack, board_weight
from setday.boards.whatif import Variant, WhatIf, only_lengths, usual_variants, what_if

__all__ = [
    "AreaCount",
    "AreaGroup",
    "AreaLine",
    "AreaOrder",
    "BeadLength",
    "Board",
    "BoardChoice",
    "BoardChoices",
    "BoardCuts",
    "BoardFigure",
    "BoardProblem",
    "BoardRules",
    "BoughtBoard",
    "Bound",
    "CarryIn",
    "Coats",
    "Comparison",
    "Cover",
    "CrewShare",
    "Cut",
    "CutList",
    "CutOut",
    "DryingTime",
    "Fastener",
    "FinishLengths",
    "HangDay",
    "Hardware",
    "Joint",
    "Joist",
    "LaidOut",
    "Layout",
    "Limits",
    "OffcutUse",
    "Outcome",
    "Piece",
    "Prepared",
    "Progress",
    "RoomStack",
    "Rows",
    "RuleOfThumb",
    "Slope",
    "Solve",
    "Status",
    "Surface",
    "SurfaceFasteners",
    "SurfaceKind",
    "SurfaceNote",
    "SurfaceRows",
    "TakenOff",
    "Totals",
    "Variant",
    "Void",
    "WhatIf",
    "board_problem",
    "board_rules",
    "board_weight",
    "board_words",
    "boards_document",
    "butt_joints",
    "check",
    "coats_for_level",
    "count_by_area",
    "cut_outs",
    "cuts_in_words",
    "drying_time",
    "figure",
    "gate_items",
    "hanging_hours",
    "hanging_work",
    "is_shaped",
    "marks_in_order",
    "needs",
    "net_area",
    "nominal",
    "only_lengths",
    "piece_size",
    "row_joints",
    "share_among_crews",
    "slopes",
    "totals",
    "usual_variants",
    "verify",
    "verify_outcome",
    "what_if",
    "work_items",
]
