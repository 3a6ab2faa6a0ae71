"""Where in a class file a finding of the roster belongs, and what the reading of text says in our words."""

from dataclasses import replace

from setday.files.house.notebook import Notebook
from setday.files.house.tree import Path
from setday.findings import Finding
from setday.roster import ClassPlan

__all__ = ["in_our_words", "placed"]

_SWAPS = (
    ("docs/house-file.md, or start from a copy of the practice shed", "docs/class-file.md"),
    ("docs/house-file.md", "docs/class-file.md"),
    ("setday house: 1", "setday class: 1"),
    ("house file", "class file"),
    ("another house", "another class file"),
    ("one house in one file", "one class file at a time"),
    ("a large house takes", "a large school takes"),
    ("than a house has", "than a class file has"),
    ("; a house takes far fewer", "; a class file takes far fewer"),
)


def in_our_words(finding: Finding) -> Finding:
    """Say of a class file what the reading of text says of a house file.

    Parameters
    ----------
    finding : Finding
    """
    if not finding.rule.startswith("file."):
        return finding
    found, expected, do = finding.found, finding.expected, finding.do
    for old, new in _SWAPS:
        found, expected, do = found.replace(old, new), expected.replace(old, new), do.replace(old, new)
    return replace(finding, found=found, expected=expected, do=do)


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
    if finding.rule == "calendar.set-day":
        return ("calendar", "set day")
    for guest in plan.calendar.guests:
        if finding.about == f"guest '{guest.who}'":
            return ("calendar", "guests", guest.who)
    for group in plan.classes:
        if finding.about == f"class '{group.name}'" or finding.about.startswith(f"{group.name} and "):
            return ("classes", group.key, "meets")
    return ("classes",)
