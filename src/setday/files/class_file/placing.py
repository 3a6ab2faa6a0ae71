"""Where in a class file a finding of the roster belongs."""

from dataclasses import replace

from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.findings import Finding
from setday.roster import ClassPlan

__all__ = ["placed"]


def placed(finding: Finding, plan: ClassPlan, notebook: Notebook) -> Finding:
    """Return a finding of the roster with the line it is about.

    Parameters
    ----------
    finding : Finding
    plan : ClassPlan
    notebook : Notebook
    """
    if finding.where.line:
        return finding
    path = _path(finding, plan)
    return replace(finding, where=notebook.where(path, at_key=len(path) > 2 or path[0] != "calendar"))


def _path(finding: Finding, plan: ClassPlan) -> Path:
    if finding.rule in ("calendar.set-day", "calendar.set-day-over"):
        return ("calendar", "set day")
    for guest in plan.calendar.guests:
        if finding.about == f"guest '{guest.who}'":
            return ("calendar", "guests", guest.who)
    for group in plan.classes:
        if finding.about == f"class '{group.name}'" or finding.about in _periods_of(group.name, plan):
            return ("classes", group.key, "meets")
    return ("classes",)


def _periods_of(name: str, plan: ClassPlan) -> tuple[str, ...]:
    """Return what two periods that overlap are called, where one of them is of a class."""
    return (f"periods of {name}", *(f"{name} and {other.name}" for other in plan.classes))
