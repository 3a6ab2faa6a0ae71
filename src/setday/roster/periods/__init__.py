"""A period as it was: who was here, which crews stood at what, and for how long."""

from setday.roster.periods.crews import Crew, CrewTask, check_crews
from setday.roster.periods.log import Log, Progress, TaskState, log_of
from setday.roster.periods.marks import EntryRefusal, Mark, MarkKind, admit
from setday.roster.periods.spells import Spell, spells

__all__ = [
    "Crew",
    "CrewTask",
    "EntryRefusal",
    "Log",
    "Mark",
    "MarkKind",
    "Progress",
    "Spell",
    "TaskState",
    "admit",
    "check_crews",
    "log_of",
    "spells",
]
