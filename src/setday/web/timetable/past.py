"""A set day that has passed: nothing is planned by it, and its class file may still be kept and read."""

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from setday.web.keeping.models import ClassFileVersion
from setday.web.timetable.figured import plan_of

if TYPE_CHECKING:
    from setday.files import ClassFile
    from setday.findings import Finding

__all__ = ["nothing_to_plan", "passed", "today"]


def today() -> date:
    """Return the day at the school."""
    day: date = timezone.localdate()
    return day


def passed(read: "ClassFile") -> "tuple[Finding, ...]":
    """Return what is asked about a class file whose set day has passed; nothing for one to come.

    Parameters
    ----------
    read : ClassFile
    """
    from setday.files import read_class
    from setday.findings import Severity

    if read.readable is None or read.readable.calendar.set_day > today():
        return ()
    told = read_class(read.text, name=read.name, today=today()).findings
    over = (each for each in told if each.rule == "calendar.set-day-over")
    return tuple(replace(each, severity=Severity.ASK) for each in over)


def nothing_to_plan(kept: ClassFileVersion) -> str:
    """Return why nothing can be planned by a class file: its set day has passed; empty where it can.

    Raises
    ------
    FileProblem
        When it cannot be used any more.
    """
    set_day = plan_of(kept).calendar.set_day
    if set_day > today():
        return ""
    said = _("Set day, %(day)s, has passed. Write another set day into the class file, then plan.")
    return str(said % {"day": date_format(set_day)})
