"""The log file: what was done period by period, as YAML."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field, ValidationError

from setday.files.class_file.placing import in_our_words
from setday.files.class_file.scalars import ClockText, DayText, OneOrMore, ShareText
from setday.files.house.arriving import arrive
from setday.files.house.complaints import complain
from setday.files.house.notebook import Notebook
from setday.files.house.part import Part, says
from setday.files.house.scalars import Name
from setday.files.house.tree import Mapping, to_plain
from setday.files.house.yaml_text import read_tree
from setday.findings import Finding, Severity, Where, in_order
from setday.timetable.tasks import PeriodLog, Worked

__all__ = ["LogFile", "read_log"]

FORM = "1"


@dataclass(frozen=True, slots=True, kw_only=True)
class LogFile:
    """A log as read: its periods in the order of the file, and everything found."""

    name: str
    periods: tuple[PeriodLog, ...]
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right first."""
        return tuple(each for each in self.findings if each.severity is Severity.PROBLEM)


class _WorkedPart(Part):
    """One task that was worked on."""

    task: Name = Field(description="Key of the task.", examples=["shingles"])
    students: Annotated[list[Name], OneOrMore] | None = says(
        "Who was on it; those planned where not written."
    )
    done: ShareText | None = says("How much of the whole task is done now; from the minutes if not.", "60 %")


class _PeriodPart(Part):
    """One period."""

    date: DayText = Field(description="The day.", examples=["2027-01-11"])
    begin: ClockText | None = says("Its bell time, where the class meets more than once that day.", "8:05")
    school_class: Name | None = Field(
        default=None, alias="class", description="Which class; may be left out where one meets that day."
    )
    absent: Annotated[list[Name], OneOrMore] | None = says("Who was away.")
    worked: list[_WorkedPart] | None = says("What was worked on; everything as planned where not written.")


class _LogPart(Part):
    """A log file."""

    form: Name = Field(alias="setday log", description="The form of the file.", examples=["1"])
    periods: list[_PeriodPart] = Field(description="Every period that is over, in order.")


def read_log(data: bytes | str, *, name: str) -> LogFile:
    """Read a log file; whatever arrives, nothing is raised and all that is wrong with it is listed.

    Parameters
    ----------
    data : bytes or str
    name : str
        Its name, for the findings.
    """
    arrived = arrive(data, name=name)
    found = list(arrived.findings)
    periods: tuple[PeriodLog, ...] = ()
    if arrived.readable is not None:
        tree = read_tree(arrived.readable, name=name)
        found += tree.findings
        if isinstance(tree.root, Mapping):
            notebook = Notebook(file=name, root=tree.root, shape=_LogPart)
            periods = _shaped(notebook, to_plain(tree.root))
            found += notebook.findings
        elif not found:
            found.append(_not_ours(name))
    findings = in_order(in_our_words(each) for each in found)
    return LogFile(name=name, periods=periods, findings=findings)


def _shaped(notebook: Notebook, written: object) -> tuple[PeriodLog, ...]:
    try:
        part = _LogPart.model_validate(written)
    except ValidationError as error:
        complain(error, notebook)
        return ()
    if part.form != FORM:
        notebook.find(
            ("setday log",),
            rule="file.form",
            found=f"its form is {part.form!r}.",
            expected=f"setday log: {FORM}",
            do="Write setday log: 1.",
        )
        return ()
    return tuple(_periods(part, notebook))


def _periods(part: _LogPart, notebook: Notebook) -> Iterator[PeriodLog]:
    for number, period in enumerate(part.periods):
        worked = None
        if period.worked is not None:
            worked = tuple(
                Worked(
                    task=each.task,
                    students=tuple(each.students or ()),
                    done=each.done,
                    where=notebook.where(("periods", number, "worked", at)),
                )
                for at, each in enumerate(period.worked)
            )
        yield PeriodLog(
            date=period.date,
            begin=period.begin,
            school_class=period.school_class or "",
            absent=tuple(period.absent or ()),
            worked=worked,
            where=notebook.where(("periods", number)),
        )


def _not_ours(name: str) -> Finding:
    return Finding(
        rule="file.kind",
        about="the file",
        found="it is no log of periods.",
        expected="a file whose first line is: setday log: 1",
        do="Follow the example in docs/timetable.md.",
        where=Where(file=name, line=1, column=1),
    )
