"""Calendar files (iCalendar, RFC 5545): the class's meetings written, a school's calendar read."""

from setday.files.calendars.events import CalendarEvent, EventsFile, read_events
from setday.files.calendars.proposals import Proposal, ProposalKind, SchoolCalendarFile, read_school_calendar
from setday.files.calendars.writing import write_calendar

__all__ = [
    "CalendarEvent",
    "EventsFile",
    "Proposal",
    "ProposalKind",
    "SchoolCalendarFile",
    "read_events",
    "read_school_calendar",
    "write_calendar",
]
