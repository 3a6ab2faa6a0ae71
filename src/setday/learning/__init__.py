"""Learning: figures that students try first, and the slips that explain a wrong one.

A `Figure` is the correct working as lines that can be worked out again with one step done wrong; a
`Diagnoser` does every known slip to it and finds those that agree with what a student wrote.
"""

from setday.learning.agreement import Written
from setday.learning.diagnosing import Candidate, Diagnoser, Diagnosis, diagnose
from setday.learning.figures import figure_of, figures_of
from setday.learning.kinds import HINTS, SENTENCES, SlipKind
from setday.learning.laying import CannotLay, LaidBoard, LaidWall, WallToLay, lay, wall_to_lay
from setday.learning.matching import MatchedLine, StudentLine, read_lines
from setday.learning.odds import UNKNOWN, KindOdds, Odds
from setday.learning.reading import Reading, WrongUnit, read_answer, read_number
from setday.learning.sealed import SealedFigure, SealedState, hints_for
from setday.learning.showing import as_working, number_words
from setday.learning.slips import Slip, slips_of
from setday.learning.tree import Figure, Line
from setday.learning.working_out import work_out

__all__ = [
    "HINTS",
    "SENTENCES",
    "UNKNOWN",
    "Candidate",
    "CannotLay",
    "Diagnoser",
    "Diagnosis",
    "Figure",
    "KindOdds",
    "LaidBoard",
    "LaidWall",
    "Line",
    "MatchedLine",
    "Odds",
    "Reading",
    "SealedFigure",
    "SealedState",
    "Slip",
    "SlipKind",
    "StudentLine",
    "WallToLay",
    "Written",
    "WrongUnit",
    "as_working",
    "diagnose",
    "figure_of",
    "figures_of",
    "hints_for",
    "lay",
    "number_words",
    "read_answer",
    "read_lines",
    "read_number",
    "slips_of",
    "wall_to_lay",
    "work_out",
]
