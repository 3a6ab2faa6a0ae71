"""The class problem: who does which task in which period, until set day."""

from setday.timetable.classwork.problem import ClassProblem, Period, Place, Student, Task, Wait
from setday.timetable.classwork.solving import ClassTimetable, solve
from setday.timetable.classwork.verify import idle, verify

__all__ = [
    "ClassProblem",
    "ClassTimetable",
    "Period",
    "Place",
    "Student",
    "Task",
    "Wait",
    "idle",
    "solve",
    "verify",
]
