"""The class problem: who does which task in which period, until set day."""

from setday.timetable.classwork.aims import Tally, tally
from setday.timetable.classwork.given import Fixed, Near, Pin, carried_on, unkept
from setday.timetable.classwork.problem import ClassProblem, Period, Place, Student, Task, Wait
from setday.timetable.classwork.solving import ClassTimetable, solve
from setday.timetable.classwork.verify import idle, verify

__all__ = [
    "ClassProblem",
    "ClassTimetable",
    "Fixed",
    "Near",
    "Period",
    "Pin",
    "Place",
    "Student",
    "Tally",
    "Task",
    "Wait",
    "carried_on",
    "idle",
    "solve",
    "tally",
    "unkept",
    "verify",
]
