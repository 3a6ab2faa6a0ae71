"""Opening a class file: what the demo's says, and the plan in one that can be used."""

from datetime import date
from importlib.resources import files as package_files

from setday.errors import FileProblem
from setday.files import ClassFile, read_class
from setday.findings import Severity
from setday.roster import ClassPlan

__all__ = ["demo_class_text", "usable_plan"]


def demo_class_text() -> str:
    """Return the class file of the demo: two invented classes that build the wired demo house."""
    return (package_files("setday.demo") / "class.yaml").read_text(encoding="utf-8")


def usable_plan(data: bytes | str, *, name: str, today: date | None = None) -> tuple[ClassPlan, ClassFile]:
    """Return the plan of a class file, with the file as read.

    Raises
    ------
    FileProblem
        With every problem of the file in its message, and after them what is asked about it.
    """
    read = read_class(data, name=name, today=today)
    if read.plan is None or read.problems:
        asked = [each for each in read.findings if each.severity is Severity.ASK]
        listed = "\n".join([*(f"  {each}" for each in read.problems), *(f"  ask: {each}" for each in asked)])
        raise FileProblem(f"The class file cannot be used:\n{listed}", where=name)
    return read.plan, read
