"""Projects: tasks that share resources, solved to the earliest finish with a proven bound."""

from setday.timetable.projects.bounds import lower_bound
from setday.timetable.projects.project import Link, Project, loop_of
from setday.timetable.projects.solving import Scheduled, solve
from setday.timetable.projects.verify import verify

__all__ = ["Link", "Project", "Scheduled", "loop_of", "lower_bound", "solve", "verify"]
