"""The log file: what was done period by period, as YAML."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from setday.files.class_file.scalars import ClockText, DayText, OneOrMore, ShareText
from setday.files.written.fields import Name
from setday.files.written.kind import FileKind
from setday.files.written.notebook import Notebook
from setday.files.written.opening import few_enough, open_written
from setday.files.written.part import Part, says
from setday.files.written.shaped import shaped
from setday.findings import Finding, Severity
from setday.timetable.tasks import PeriodLog, Worked

__all__ = ["LogFile", "read_log"]


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


_LOG_FILE = FileKind(
    name="log of periods",
    mark="setday log",
    form="1",
    guide="docs/timetable.md",
    shape=_LogPart,
    called={("periods",): "period {}"},
)
"""What Setday reads as a log."""


def read_log(data: bytes | str, *, name: str) -> LogFile:
    """Read a log file; whatever arrives, nothing is raised and all that is wrong with it is listed.

    Parameters
    ----------
    data : bytes or str
    name : str
        Its name, for the findings.
    """
    opened = open_written(data, name=name, kind=_LOG_FILE)
    found = list(opened.findings)
    periods: tuple[PeriodLog, ...] = ()
    if opened.root is not None:
        notebook = Notebook(file=name, root=opened.root, kind=_LOG_FILE)
        part = shaped(_LogPart, opened.root, notebook)
        periods = tuple(_periods(part, notebook)) if part is not None else ()
        found += notebook.findings
    return LogFile(name=name, periods=periods, findings=few_enough(found, name=name, kind=_LOG_FILE))


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
