"""Tasks: pieces of a house's work as a class does them, their kinds, their rates, and where they happen."""

from setday.timetable.tasks.bundles import bundled
from setday.timetable.tasks.kinds import KindOfWork, kinds_of_work
from setday.timetable.tasks.labor import (
    capability,
    delay_factor,
    duration_days,
    man_days,
)
from setday.timetable.tasks.logged import PeriodLog, Worked
from setday.timetable.tasks.rulebook import timetable_rules
from setday.timetable.tasks.work import After, Work
from setday.timetable.tasks.zones import Zone, zones_of

__all__ = [
    "After",
    "KindOfWork",
    "PeriodLog",
    "Work",
    "Worked",
    "Zone",
    "bundled",
    "capability",
    "delay_factor",
    "duration_days",
    "kinds_of_work",
    "man_days",
    "timetable_rules",
    "zones_of",
]
