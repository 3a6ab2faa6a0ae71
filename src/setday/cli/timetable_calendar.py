"""``setday timetable calendar``: the meetings as a calendar file, and a school's looked through."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.reading import bytes_of, write_bytes
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import AsJson, ClassAt, plan_at, timetable

if TYPE_CHECKING:
    from setday.files import SchoolCalendarFile
    from setday.roster import Meeting

__all__ = ["calendar"]

Out = Annotated[
    Path | None, typer.Option("--write", help="Write meetings, days off, guests and set day as .ics.")
]
School = Annotated[
    Path | None, typer.Option("--school", help="A school's .ics: list what it would mean for the class.")
]


@timetable.command(
    "calendar",
    short_help="The class meetings, as a calendar file too.",
    epilog="Example:  setday timetable calendar class.yaml --write class.ics",
)
def calendar(class_file: ClassAt, out: Out = None, school: School = None, as_json: AsJson = False) -> int:
    """List the class meetings, write them as a calendar file, and look through a school's calendar file.

    What a school's calendar would mean is only listed; the class file is never changed by this.
    """
    from setday.files import read_school_calendar, write_calendar
    from setday.roster import Stretch, meetings

    plan = plan_at(class_file)
    listed = meetings(plan.calendar, plan.classes)
    if out is not None:
        write_bytes(out, write_calendar(plan, listed, stamp=datetime.now().astimezone()))
    read = None
    if school is not None:
        within = Stretch(first=plan.calendar.first_day, last=plan.calendar.set_day)
        data = bytes_of(school, what="a calendar file")
        read = read_school_calendar(data, name=str(school), within=within, zone=plan.calendar.zone)
    if as_json:
        say_json({"meetings": [_meeting(each) for each in listed], **(_school(read) if read else {})})
        return 0
    names = {group.key: group.name for group in plan.classes}
    heading(f"{len(listed)} periods before set day, {plan.calendar.set_day.isoformat()}")
    _tell_meetings(listed, names)
    if read is not None:
        _tell_school(read)
    return 0


def _tell_meetings(listed: "tuple[Meeting, ...]", names: dict[str, str]) -> None:
    rows = [
        (
            each.number + 1,
            f"{each.date:%a} {each.date.isoformat()}",
            f"{each.begin:%H:%M}",
            each.minutes,
            names[each.school_class],
            "; ".join([*each.guests, *(f"{name} away" for name in sorted(each.absent))]),
        )
        for each in listed
    ]
    table(("period", "day", "begins", "minutes", "class", "guests and absences"), rows, right=(0, 3))


def _tell_school(read: "SchoolCalendarFile") -> None:
    heading("What the school's calendar would mean")
    from setday.files import ProposalKind

    meant = [each for each in read.proposals if each.kind is not ProposalKind.OTHER]
    rows = [
        (
            each.kind.value if each.likely else f"{each.kind.value}?",
            each.summary,
            ", ".join(_days(days.first.isoformat(), days.last.isoformat()) for days in each.days),
            f"{each.at:%H:%M}" if each.at else "",
            each.why,
        )
        for each in meant
    ]
    table(("meaning", "event", "days", "at", "because"), rows)
    others = len(read.proposals) - len(meant)
    if others:
        events = "1 other event means" if others == 1 else f"{others} other events mean"
        say(f"{events} nothing for the class; --json lists everything.")
    for finding in read.findings:
        say(str(finding))


def _days(first: str, last: str) -> str:
    return first if first == last else f"{first} to {last}"


def _meeting(meeting: "Meeting") -> dict[str, Any]:
    return {
        "period": meeting.number + 1,
        "class": meeting.school_class,
        "date": meeting.date.isoformat(),
        "begin": f"{meeting.begin:%H:%M}",
        "minutes": meeting.minutes,
        "attention": meeting.attention,
        "dry": meeting.dry,
        "absent": sorted(meeting.absent),
        "guests": list(meeting.guests),
    }


def _school(read: "SchoolCalendarFile") -> dict[str, Any]:
    return {
        "proposals": [
            {
                "meaning": each.kind.value,
                "event": each.summary,
                "days": [[days.first.isoformat(), days.last.isoformat()] for days in each.days],
                "at": f"{each.at:%H:%M}" if each.at else None,
                "minutes": each.minutes,
                "likely": each.likely,
                "because": each.why,
            }
            for each in read.proposals
        ],
        "findings": [str(each) for each in read.findings],
    }
