"""A school's calendar file, read as proposals: nothing changes until the instructor says yes."""

import re
from dataclasses import dataclass
from datetime import time
from enum import StrEnum

from setday.files.calendars.events import CalendarEvent, read_events
from setday.findings import Finding, Severity, Where
from setday.roster import DayOff, EarlyDismissal, Guest, Stretch

__all__ = ["Proposal", "ProposalKind", "SchoolCalendarFile", "read_school_calendar"]


class ProposalKind(StrEnum):
    """What an event of a school's calendar may mean for the class."""

    DAY_OFF = "day off"
    EARLY = "early dismissal"
    GUEST = "guest"
    OTHER = "nothing"
    """Kept in the list, so that the person sees that it was read."""


_NO_SCHOOL = re.compile(
    r"\bno (?:school|class(?:es)?|students?)\b|\bholidays?\b"
    r"|\b(?:break|recess|vacation|closed|closure|closing)\b"
    r"|\bin-?service\b|\b(?:staff|teacher|professional)\s+(?:development|work\s?day|day|training)\b"
    r"|\b(?:no|sin) clases?\b|\bthanksgiving\b|\bmemorial day\b|\blabor day\b|\bpresidents'? day\b"
    r"|\bmartin luther king\b|\bmlk\b|\bveterans'? day\b|\bcomp(?:ensation)? day\b",
    re.IGNORECASE,
)
_EARLY = re.compile(
    r"\bearly\s*(?:dismissal|release|out|closing)\b|\bhalf[\s-]day\b|\bminimum day\b|\bnoon dismissal\b"
    r"|\bshort(?:ened)? (?:day|schedule|periods)\b|\bperiods of \d+ minutes\b",
    re.IGNORECASE,
)
_GUEST = re.compile(
    r"\b(?:inspect(?:or|ion)s?|engineers?|visit(?:or|ors|s)?|guest|rigger|crane|carrier|walk-?through"
    r"|building official)\b",
    re.IGNORECASE,
)
_STILL_SCHOOL = re.compile(
    r"\b(?:begins?|starts?|resumes?|back to school|first day|ends? of|last day)\b", re.IGNORECASE
)
_CLOCK = re.compile(
    r"\b(\d{1,2}):(\d{2})\s*([ap])?\.?m?\b|\b(\d{1,2})\s*([ap])\.?m\b|\bnoon\b", re.IGNORECASE
)
_MINUTES = re.compile(r"\bperiods of (\d{1,3}) minutes\b", re.IGNORECASE)
_LEADS = re.compile(r"^(?:no school|visit|guest|early dismissal)\s*[:\-–]\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """What one event of a school's calendar may mean.

    Parameters
    ----------
    kind : ProposalKind
    summary : str
        As the file says it.
    days : tuple of Stretch
        All its times; more than one for what comes again under the same title.
    at : time or None
        When a guest comes, or when an early day ends; None where the file does not say.
    minutes : int
        Length of each period on a shortened day [min]; 0 where it is not said.
    likely : bool
        True where the words say so; False where it is only that whole days are marked.
    why : str
        What it was read from, in words.
    """

    kind: ProposalKind
    summary: str
    days: tuple[Stretch, ...]
    at: time | None = None
    minutes: int = 0
    likely: bool = True
    why: str = ""

    @property
    def reason(self) -> str:
        """The summary without what says its kind."""
        return _LEADS.sub("", self.summary) or self.summary

    def days_off(self) -> tuple[DayOff, ...]:
        """Return it as days off."""
        return tuple(DayOff(days=days, why=self.reason) for days in self.days)

    def early(self, *, ends: time | None = None) -> tuple[EarlyDismissal, ...]:
        """Return it as early dismissals; without a time or a length there are none.

        Parameters
        ----------
        ends : time or None
            When the day ends, where the file does not say.
        """
        ends = ends or self.at
        if ends is None and not self.minutes:
            return ()
        minutes = 0 if ends else self.minutes
        return tuple(
            EarlyDismissal(day=days.first, ends=ends, minutes=minutes, why=self.reason) for days in self.days
        )

    def guest(self) -> Guest:
        """Return it as a guest."""
        who = re.sub(r"\s*\([^()]*\)$", "", self.reason)
        why = re.search(r"\(([^()]*)\)$", self.reason)
        days = tuple(days.first for days in self.days)
        return Guest(who=who, days=days, at=self.at, why=why[1] if why else "")


@dataclass(frozen=True, slots=True, kw_only=True)
class SchoolCalendarFile:
    """A school's calendar file as read.

    Parameters
    ----------
    proposals : tuple of Proposal
        In order of their first day.
    findings : tuple of Finding
    """

    proposals: tuple[Proposal, ...]
    findings: tuple[Finding, ...]


def read_school_calendar(
    data: bytes | str, *, name: str, within: Stretch, zone: str = ""
) -> SchoolCalendarFile:
    """Read a school's calendar file as proposals to confirm.

    Events of whole days are proposed as days off; timed events as guests or early dismissals where their
    words say so; everything else is listed as meaning nothing.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings.
    within : Stretch
        From the first day of work to set day.
    zone : str
        The school's time zone in the IANA list; "" takes clock times as they stand.
    """
    read = read_events(data, name=name, within=within, zone=zone)
    gathered: dict[tuple[ProposalKind, str, time | None], list[CalendarEvent]] = {}
    for event in read.events:
        kind, _, _ = _kind(event)
        gathered.setdefault((kind, event.summary, event.begin), []).append(event)
    proposals = tuple(_proposal(events) for events in gathered.values())
    findings = list(read.findings)
    if not read.events and not any(each.severity is Severity.PROBLEM for each in findings):
        found = f"none of its events lies from {within.first} to {within.last}."
        where = Where(file=name)
        findings.append(
            Finding(
                rule="calendar-file.outside",
                about="the calendar file",
                found=found,
                do="Export the school year.",
                where=where,
                severity=Severity.ASK,
            )
        )
    return SchoolCalendarFile(proposals=proposals, findings=tuple(findings))


def _kind(event: CalendarEvent) -> tuple[ProposalKind, bool, str]:
    """Return what an event may mean, whether its words say so, and why."""
    said = event.summary
    if _EARLY.search(said):
        return ProposalKind.EARLY, True, "its words speak of a short day"
    if _NO_SCHOOL.search(said) and not _STILL_SCHOOL.search(said):
        if event.begin is None:
            return ProposalKind.DAY_OFF, True, "whole days, and its words say so"
        return ProposalKind.DAY_OFF, False, "its words say so, but it has a time of day"
    if _GUEST.search(said):
        return ProposalKind.GUEST, True, "its words speak of a visit"
    if event.begin is None and not said.lower().startswith("set day"):
        return ProposalKind.DAY_OFF, False, "whole days are marked; its words do not say that school is out"
    return ProposalKind.OTHER, True, "nothing in its words concerns the class"


def _proposal(events: list[CalendarEvent]) -> Proposal:
    event = events[0]
    kind, likely, why = _kind(event)
    at = event.begin
    minutes = 0
    if kind is ProposalKind.EARLY:
        at = event.begin or _clock_in(event.summary)
        found = _MINUTES.search(event.summary)
        minutes = int(found[1]) if found else 0
        if at is None and not minutes:
            why += "; when the day ends is not said"
    return Proposal(
        kind=kind,
        summary=event.summary or "(without a title)",
        days=tuple(each.days for each in events),
        at=at if kind in (ProposalKind.EARLY, ProposalKind.GUEST) else None,
        minutes=minutes,
        likely=likely,
        why=why,
    )


def _clock_in(said: str) -> time | None:
    """Return the time of day in a title: "dismissal at 11:30", "1 pm", "noon"."""
    found = _CLOCK.search(said)
    if not found:
        return None
    if found[0].lower() == "noon":
        return time(12)
    hour, minute, half = int(found[1] or found[4]), int(found[2] or 0), (found[3] or found[5] or "").lower()
    if hour > 23 or minute > 59 or (half and not 1 <= hour <= 12):
        return None
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    elif hour < 6:
        hour += 12
    return time(hour, minute)
