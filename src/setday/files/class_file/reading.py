"""A class file, read: classes, students, calendar and tasks, and everything found on the way."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from pydantic import ValidationError

from setday.files.class_file.describing import People, describe_calendar
from setday.files.class_file.describing_tasks import (
    describe_limits,
    describe_pins,
    describe_rates,
    describe_tasks,
)
from setday.files.class_file.placing import placed
from setday.files.class_file.shape import CLASS_FILE, ClassPart
from setday.files.written.complaints import complain
from setday.files.written.notebook import Notebook
from setday.files.written.opening import few_enough, is_of, open_written
from setday.files.written.tree import Mapping, Path, to_plain
from setday.findings import Finding, Severity
from setday.roster import ClassPlan, check_plan

__all__ = ["ClassFile", "read_class"]

_ROUNDS = 4
_LISTS = {"signoffs", "pins"}
_RESTS_ON = {
    "calendar.empty-class": {"students", "classes"},
    "calendar.no-class": {"classes"},
    "calendar.no-period": {"classes"},
    "plan.after": {"tasks"},
    "plan.guest": {"calendar"},
    "plan.nobody": {"students", "signoffs", "classes", "limits set aside"},
    "plan.rate": {"rates"},
}
"""Rules that may only seem broken because an entry of these sections had a fault and was passed over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFile:
    """A class file as read.

    Parameters
    ----------
    name : str
        File name, as in the findings.
    text : str
        As it arrived.
    plan : ClassPlan or None
        None where any finding is a problem.
    readable : ClassPlan or None
        What could be read around the problems, for showing only.
    findings : tuple of Finding
        Everything found, in the order of the file.
    """

    name: str
    text: str
    plan: ClassPlan | None
    readable: ClassPlan | None
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right first."""
        return tuple(each for each in self.findings if each.severity is Severity.PROBLEM)


def read_class(data: bytes | str, *, name: str, today: date | None = None) -> ClassFile:
    """Read a class file; whatever arrives, nothing is raised and all that is wrong with it is listed.

    Parameters
    ----------
    data : bytes or str
        The file as it arrived.
    name : str
        Its name, for the findings.
    today : date or None
        Given, set day must lie after it.
    """
    opened = open_written(data, name=name, kind=CLASS_FILE)
    found = list(opened.findings)
    readable: ClassPlan | None = None
    if opened.root is not None:
        notebook = Notebook(file=name, root=opened.root, kind=CLASS_FILE)
        readable = _Reading(notebook, whole=opened.whole, today=today).read(opened.root)
        found += notebook.findings
    findings = few_enough(found, name=name, kind=CLASS_FILE)
    sound = not any(each.severity is Severity.PROBLEM for each in findings)
    plan = readable if sound else None
    return ClassFile(name=name, text=opened.text, plan=plan, readable=readable, findings=findings)


class _Reading:
    """From the tree of one file to what the roster takes."""

    def __init__(self, notebook: Notebook, *, whole: bool, today: date | None) -> None:
        self.notebook, self.whole, self.today = notebook, whole, today

    def read(self, root: Mapping) -> ClassPlan | None:
        written = to_plain(root)
        assert isinstance(written, dict)
        ours = is_of(CLASS_FILE, written, self.notebook)
        if not ours and CLASS_FILE.mark not in written and "calendar" not in written:
            return None
        students = written.get("students")
        names = tuple(students) if isinstance(students, dict) else ()
        sections = tuple(written)
        part = self._shaped(written)
        if part is None:
            return None
        plan = self._described(part, names)
        faulty = self._faulty(sections)
        self.notebook.findings += [
            placed(each, plan, self.notebook)
            for each in check_plan(plan, today=self.today)
            if each.rule not in _RESTS_ON or (self.whole and not faulty & _RESTS_ON[each.rule])
        ]
        return plan

    def _faulty(self, sections: Iterable[str]) -> set[str]:
        """Return the sections in which something was found so far."""
        begins = {section: self.notebook.where((section,), at_key=True).line for section in sections}
        lines = (each.where.line for each in self.notebook.findings)
        inside = ([each for each, first in begins.items() if first <= line] for line in lines)
        return {max(before, key=begins.__getitem__) for before in inside if before}

    def _shaped(self, written: dict[str, Any]) -> ClassPart | None:
        """Return the file's sections; entries with complaints are noted and left out."""
        noted = False
        for _ in range(_ROUNDS):
            try:
                return ClassPart.model_validate(written)
            except ValidationError as error:
                before = len(self.notebook.findings)
                paths = complain(error, self.notebook)
                if noted:
                    del self.notebook.findings[before:]
                noted = True
                for path in sorted(set(paths), key=_last_first):
                    _leave_out(written, path)
        return None

    def _described(self, part: ClassPart, students: tuple[str, ...]) -> ClassPlan:
        notebook = self.notebook
        people = People(part, notebook, written=students)
        return ClassPlan(
            school=part.school,
            house=part.house or "",
            classes=people.classes(),
            calendar=describe_calendar(part.calendar, people, notebook),
            places=tuple((part.places or {}).items()),
            rates=describe_rates(part),
            factors=tuple((part.class_factors or {}).items()),
            tasks=describe_tasks(part, notebook),
            pins=describe_pins(part, people, notebook),
            limits=describe_limits(part, notebook),
            idle_allowed=bool(part.idle_allowed),
        )


def _last_first(path: Path) -> tuple[str, int]:
    """Sort key by which later entries of a list come before earlier ones."""
    number = path[1] if len(path) > 1 and isinstance(path[1], int) else 0
    return str(path[:1]), -number


def _leave_out(written: dict[str, Any], path: Path) -> None:
    """Take the entry out that a complaint is about, so that the rest can be checked."""
    section = str(path[0]) if path else ""
    inner = written.get(section)
    if section in ("setday class", "school"):
        written[section] = inner if isinstance(inner, str) else "?"
    elif section not in written:
        return
    elif section in _LISTS and isinstance(inner, list) and len(path) > 1 and isinstance(path[1], int):
        if path[1] < len(inner):
            del inner[path[1]]
    elif isinstance(inner, dict) and len(path) > 1:
        inner.pop(path[1], None)
    else:
        del written[section]
