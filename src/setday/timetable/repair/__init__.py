"""Repair of a timetable after a period was logged, as little changed as can be; what moved and why."""

from setday.timetable.repair.moves import Move
from setday.timetable.repair.outcome import Repair
from setday.timetable.repair.repairing import repair, repair_at_once

__all__ = ["Move", "Repair", "repair", "repair_at_once"]
