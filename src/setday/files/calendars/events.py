"""What an iCalendar file says (RFC 5545): its events day by day, those that come again expanded."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta, tzinfo
from itertools import islice, takewhile
from typing import Any
from zoneinfo import ZoneInfo

from setday.files.zones import known_zone
from setday.findings import Finding, Severity, Where
from setday.roster import Stretch

__all__ = ["LARGEST_BYTES", "CalendarEvent", "EventsFile", "read_events"]

LARGEST_BYTES = 5_000_000
"""A school's calendar of ten years takes a tenth of it."""
MOST_EVENTS = 20_000
MOST_TIMES = 1_500
"""One event comes again so often at most within the days that are asked for."""
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """One event on one day or over several, in the school's own time.

    Parameters
    ----------
    uid : str
        The file's identity of the event; the same for all its times.
    summary : str
    days : Stretch
    begin, end : time or None
        None for an event of whole days.
    recurring : bool
    """

    uid: str
    summary: str
    days: Stretch
    begin: time | None = None
    end: time | None = None
    recurring: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class EventsFile:
    """An iCalendar file as read.

    Parameters
    ----------
    events : tuple of CalendarEvent
        In order of day and time.
    findings : tuple of Finding
    """

    events: tuple[CalendarEvent, ...]
    findings: tuple[Finding, ...]


def read_events(data: bytes | str, *, name: str, within: Stretch, zone: str = "") -> EventsFile:
    """Read the events of an iCalendar file that touch some days.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings.
    within : Stretch
        Events before and after it are passed over.
    zone : str
        The school's time zone, for times of other zones; "" takes clock times as they stand.

    Returns
    -------
    EventsFile
        Never raises for any content; what cannot be read is a finding.
    """
    reader = _Reader(name, within, ZoneInfo(zone) if zone and known_zone(zone) else None)
    events = tuple(reader.read(data))
    ordered = sorted(events, key=lambda e: (e.days.first, e.begin or time.min, e.summary, e.uid))
    return EventsFile(events=tuple(ordered), findings=tuple(reader.findings))


class _Reader:
    """Reads one file; keeps what it found."""

    def __init__(self, name: str, within: Stretch, zone: ZoneInfo | None) -> None:
        self.name, self.within, self.zone = name, within, zone
        self.findings: list[Finding] = []

    def read(self, data: bytes | str) -> Iterator[CalendarEvent]:
        text = self._text(data)
        calendars = self._parsed(text) if text else []
        events = [each for calendar in calendars for each in calendar.walk("VEVENT")]
        if calendars and not events:
            self._find(
                "calendar-file.empty", "there is no event in it.", do="Export it again, with its events."
            )
        if len(events) > MOST_EVENTS:
            found = f"it holds {len(events):,} events; the first {MOST_EVENTS:,} are read."
            self._find("calendar-file.size", found, do="Export fewer years.", severity=Severity.ASK)
        moved = self._moved(events[:MOST_EVENTS])
        for event in events[:MOST_EVENTS]:
            try:
                yield from self._times(event, moved)
            except (ValueError, TypeError, AttributeError, KeyError, OverflowError) as error:
                self._unread(event, error)

    def _text(self, data: bytes | str) -> str:
        if len(data) > LARGEST_BYTES:
            found = f"it has {len(data):,} bytes, more than {LARGEST_BYTES:,}."
            self._find("calendar-file.size", found, do="Export fewer years.")
            return ""
        text = data if isinstance(data, str) else _decoded(data)
        if not re.search(r"^\ufeff?BEGIN:VCALENDAR\s*$", text, re.MULTILINE | re.IGNORECASE):
            self._find(
                "calendar-file.kind",
                "it is no calendar file.",
                expected="an iCalendar file (.ics), which begins with BEGIN:VCALENDAR.",
                do="Export the school calendar as .ics and give that file.",
            )
            return ""
        return text.removeprefix("\ufeff").replace("\0", "")

    def _parsed(self, text: str) -> list[Any]:
        from icalendar import Calendar

        try:
            calendars = list(Calendar.from_ical(text, multiple=True))
            if not calendars:
                raise ValueError("its end is missing")
            return calendars
        except (ValueError, IndexError, KeyError, TypeError, AttributeError) as error:
            found = f"it cannot be read: {str(error)[:120]}"
            self._find("calendar-file.broken", found, do="Export it again; a part of it may be missing.")
            return []

    def _moved(self, events: list[Any]) -> set[tuple[str, str]]:
        """Return which times of recurring events another event stands for."""
        return {
            (str(event.get("UID", "")), _stamp(event["RECURRENCE-ID"].dt))
            for event in events
            if hasattr(event.get("RECURRENCE-ID"), "dt")
        }

    def _times(self, event: Any, moved: set[tuple[str, str]]) -> Iterator[CalendarEvent]:
        if str(event.get("STATUS", "")).upper() == "CANCELLED":
            return
        if event.errors:
            said = "; ".join(f"{name}: {problem}" for name, problem in event.errors)[:160]
            self._find("calendar-file.property", said, about=_title(event), severity=Severity.NOTE)
        start = event["DTSTART"].dt
        length = _length(event, start)
        recurring = "RRULE" in event or "RDATE" in event
        uid = str(event.get("UID", ""))
        for begin in self._begins(event, start) if recurring else [start]:
            if recurring and (uid, _stamp(begin)) in moved:
                continue
            made = self._one(event, begin, length)
            if made.days.last >= self.within.first and made.days.first <= self.within.last:
                yield replace(made, recurring=recurring)

    def _begins(self, event: Any, start: date) -> Iterator[date]:
        """Yield the beginnings of an event that comes again, by its own clock, near the days asked for."""
        from dateutil.rrule import rruleset

        zone = start.tzinfo if isinstance(start, datetime) else None
        last = datetime.combine(self.within.last, time.max) + _DAY
        times = rruleset()
        for at in _ruled(event, _naive(start, zone), zone, last):
            times.rdate(at)
        for key, put in (("RDATE", times.rdate), ("EXDATE", times.exdate)):
            for stamp in (stamp for each in _several(event.get(key)) for stamp in each.dts):
                put(_naive(stamp.dt, zone))
        since = datetime.combine(self.within.first, time.min) - timedelta(days=400)
        for at in islice(times.between(since, last, inc=True), MOST_TIMES):
            yield at.replace(tzinfo=zone) if isinstance(start, datetime) else at.date()

    def _one(self, event: Any, start: date, length: timedelta) -> CalendarEvent:
        uid, summary = str(event.get("UID", "")), " ".join(str(event.get("SUMMARY", "")).split())[:200]
        if not isinstance(start, datetime):
            last = start + max(length, _DAY) - _DAY
            return CalendarEvent(uid=uid, summary=summary, days=Stretch(first=start, last=last))
        begin = self._here(start)
        end = self._here(start + length)
        whole = begin.time() == end.time() == time.min and end > begin
        last = (end - _DAY if whole else end).date()
        days = Stretch(first=begin.date(), last=max(last, begin.date()))
        if whole:
            return CalendarEvent(uid=uid, summary=summary, days=days)
        return CalendarEvent(uid=uid, summary=summary, days=days, begin=begin.time(), end=end.time())

    def _here(self, moment: datetime) -> datetime:
        """Return a moment by the school's own clock."""
        if moment.tzinfo is None or self.zone is None:
            return moment.replace(tzinfo=None)
        return moment.astimezone(self.zone).replace(tzinfo=None)

    def _unread(self, event: Any, error: Exception) -> None:
        found = "its day or the way it comes again cannot be read"
        found += " (it has no DTSTART)." if isinstance(error, KeyError) else f": {str(error)[:100]}."
        self._find(
            "calendar-file.event", found, about=_title(event), do="Type it by hand.", severity=Severity.ASK
        )

    def _find(
        self,
        rule: str,
        found: str,
        *,
        about: str = "the calendar file",
        expected: str = "",
        do: str = "",
        severity: Severity = Severity.PROBLEM,
    ) -> None:
        where = Where(file=self.name)
        self.findings.append(
            Finding(
                rule=rule, about=about, found=found, expected=expected, do=do, where=where, severity=severity
            )
        )


def _ruled(event: Any, first: datetime, zone: tzinfo | None, last: datetime) -> Iterator[datetime]:
    """Yield the first time and those that the rules of an event give, up to a last."""
    from dateutil.rrule import rrulestr

    yield first
    for rule in _several(event.get("RRULE")):
        text, until = _without_until(rule.to_ical().decode())
        if re.search(r"FREQ=(?:SECOND|MINUTE|HOUR)LY", text, re.IGNORECASE):
            raise ValueError("it comes again several times a day")
        end = min(last, _naive(until, zone, end=True)) if until else last
        yield from islice(takewhile(end.__ge__, rrulestr(text, dtstart=first)), MOST_TIMES * 20)


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _title(event: Any) -> str:
    return f"event '{str(event.get('SUMMARY', 'without a title'))[:60]}'"


def _length(event: Any, start: date) -> timedelta:
    if "DTEND" in event:
        end = event["DTEND"].dt
        if isinstance(end, datetime) != isinstance(start, datetime):
            raise ValueError("it begins with a day and ends with a time, or the other way round")
        return timedelta(seconds=max(0, (end - start).total_seconds()))
    if "DURATION" in event:
        return timedelta(seconds=max(0, event["DURATION"].dt.total_seconds()))
    return timedelta(0) if isinstance(start, datetime) else _DAY


def _several(value: Any) -> list[Any]:
    if value is None:
        return []
    return list(value) if isinstance(value, list) else [value]


def _naive(moment: date, zone: tzinfo | None, *, end: bool = False) -> datetime:
    """Return a moment by the event's own clock; a day stands for its beginning, or its end."""
    if not isinstance(moment, datetime):
        return datetime.combine(moment, time.max if end else time.min)
    if moment.tzinfo is not None and zone is not None:
        moment = moment.astimezone(zone)
    return moment.replace(tzinfo=None)


def _stamp(moment: date) -> str:
    """Return a moment so that the same one reads the same in every zone."""
    if isinstance(moment, datetime) and moment.tzinfo is not None:
        return moment.astimezone(ZoneInfo("UTC")).isoformat()
    return moment.isoformat()


def _without_until(rule: str) -> tuple[str, date | None]:
    """Part a rule from its end, which may stand in another zone than its beginning."""
    found = re.search(r";?UNTIL=(\d{8})(?:T(\d{6})(Z?))?", rule, re.IGNORECASE)
    if not found:
        return rule, None
    rest = (rule[: found.start()] + rule[found.end() :]).lstrip(";")
    day = datetime.strptime(found[1], "%Y%m%d")  # noqa: DTZ007
    if not found[2]:
        return rest, day.date()
    moment = datetime.strptime(found[1] + found[2], "%Y%m%d%H%M%S")  # noqa: DTZ007
    return rest, moment.replace(tzinfo=ZoneInfo("UTC")) if found[3] else moment
