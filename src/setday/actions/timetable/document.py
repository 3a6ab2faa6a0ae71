"""A timetable as one document of plain data: what `--json` prints and a saved timetable holds.

The fields are told in docs/timetable.md.
"""

from collections.abc import Iterator
from datetime import date
from typing import Any

from setday.actions.timetable.solving import Timetable, spans
from setday.findings import Finding
from setday.roster import Meeting
from setday.timetable.tasks import Work

__all__ = ["FORM", "finding_record", "timetable_document"]

FORM = 1
"""The form of saved timetables this program writes and reads."""


def timetable_document(timetable: Timetable) -> dict[str, Any]:
    """Return a timetable as plain data, in a stable order; minutes and dates in ISO 8601."""
    day = timetable.day
    return {
        "setday timetable": FORM,
        "house": day.work.house,
        "school": day.plan.school,
        "first_day": _iso(day.plan.calendar.first_day),
        "set_day": _iso(day.plan.calendar.set_day),
        "status": timetable.status,
        "in_time": timetable.in_time,
        "ready": _iso(timetable.ready),
        "margin_days": timetable.margin_days,
        "finish_periods": timetable.finish,
        "bound_periods": timetable.bound,
        "earliest": _iso(day.ready_on(timetable.bound)),
        "plain_list_periods": timetable.plain,
        "set_period": timetable.day.set_period,
        "periods_over": timetable.since,
        "idle": timetable.idle,
        "minutes_short": timetable.tally.short,
        "crew_changes": timetable.tally.leaves,
        "crews_without_one_who_knows": timetable.tally.alone,
        "minutes_uneven": timetable.tally.uneven,
        "to_book": list(timetable.to_book),
        "left_undone": list(timetable.undone),
        "seconds": round(timetable.seconds, 2),
        "places": [{"place": place, "holds": many} for place, many in day.work.places],
        "tasks": [_task(work, periods, timetable) for work, periods in spans(timetable)],
        "students": list(_students(timetable)),
        "periods": [_period(meeting, timetable) for meeting in _used(timetable)],
        "findings": [finding_record(finding) for finding in day.findings],
    }


def finding_record(finding: Finding) -> dict[str, Any]:
    """Return a finding as plain data."""
    return {
        "severity": finding.severity.value,
        "rule": finding.rule,
        "file": finding.where.file,
        "line": finding.where.line,
        "about": finding.about,
        "found": finding.found,
        "expected": finding.expected,
        "do": finding.do,
        "source": str(finding.source) if finding.source else "",
    }


def _used(timetable: Timetable) -> tuple[Meeting, ...]:
    return timetable.day.meetings[: len(timetable.rows)]


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day is not None else None


def _task(work: Work, periods: tuple[int, ...], timetable: Timetable) -> dict[str, Any]:
    day = timetable.day
    return {
        "key": work.key,
        "label": work.label,
        "trade": work.trade,
        "kind": work.kind,
        "place": work.place,
        "quantity": work.quantity,
        "unit": work.unit,
        "student_minutes": work.minutes,
        "done": round(work.done, 4),
        "minutes_from": work.said_by,
        "crew": [work.crew_least, work.crew_most],
        "after": [{"task": each.key, "days": each.days, "why": each.why} for each in work.after],
        "signoffs": list(work.signoffs),
        "exposures": list(work.exposures),
        "attention_tenths": work.attention,
        "dry": work.dry,
        "not_before": _iso(work.due),
        "guest": work.guest,
        "parts": list(work.parts),
        "begins": _iso(day.date_of(periods[0])) if periods else None,
        "ends": _iso(day.date_of(periods[-1])) if periods else None,
        "periods": list(periods),
    }


def _students(timetable: Timetable) -> Iterator[dict[str, Any]]:
    minutes = timetable.minutes_by_trade()
    for student in timetable.day.problem.students:
        yield {
            "key": student.key,
            "name": timetable.day.names[student.key],
            "minutes": dict(sorted(minutes[student.key].items())),
            "wanted": dict(student.targets),
        }


def _period(meeting: Meeting, timetable: Timetable) -> dict[str, Any]:
    period = timetable.day.problem.periods[meeting.number]
    crews = timetable.crews[meeting.number]
    works = timetable.day.works
    busy = {key for crew in crews for key in crew.students}
    return {
        "number": meeting.number,
        "date": meeting.date.isoformat(),
        "begin": f"{meeting.begin:%H:%M}",
        "minutes": meeting.minutes,
        "class": meeting.school_class,
        "attention_tenths": meeting.attention,
        "attention_used_tenths": sum(works[c.work].attention for c in crews if c.work in works),
        "dry": meeting.dry,
        "guests": list(meeting.guests),
        "absent": sorted(meeting.absent),
        "idle": sorted(period.present - busy),
        "crews": [
            {
                "crew": crew.number,
                "task": crew.work,
                "students": list(crew.students),
            }
            for crew in crews
        ],
    }
