"""Meetings, days off, guests and set day as an iCalendar file (RFC 5545); no student is named in it."""

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from setday.errors import FileProblem
from setday.files.zones import known_zone
from setday.roster import ClassPlan, DayOff, EarlyDismissal, Guest, Meeting

if TYPE_CHECKING:
    from icalendar import Event

__all__ = ["write_calendar"]

_PRODUCT = "-//Setday//class calendar//EN"
_DOMAIN = "setday.invalid"
_GUEST_STAYS = timedelta(minutes=30)


def write_calendar(
    plan: ClassPlan,
    listed: Sequence[Meeting],
    *,
    stamp: datetime,
    notes: Mapping[int, str] | None = None,
) -> bytes:
    """Return an iCalendar file of a class plan.

    Identities stay the same from one writing to the next, so that a calendar program moves what changed
    instead of doubling it.

    Parameters
    ----------
    plan : ClassPlan
    listed : sequence of Meeting
        The meetings to write, from `roster.meetings`.
    stamp : datetime
        When it is written, with its time zone.
    notes : mapping of int to str, or None
        A description for each meeting, by its number.

    Raises
    ------
    FileProblem
        For a time zone that is not in the IANA list.
    ValueError
        For a stamp without a time zone.
    """
    if stamp.tzinfo is None:
        raise ValueError("the stamp of a calendar file needs a time zone")
    writer = _Writer(plan, stamp)
    events = [
        *writer.meetings(listed, notes or {}),
        *(writer.day_off(off) for off in plan.calendar.days_off),
        *(writer.early(early) for early in plan.calendar.early),
        *(event for guest in plan.calendar.guests for event in writer.guest(guest)),
        writer.set_day(),
    ]
    return writer.file(events)


class _Writer:
    """Events of one plan, with the plan's time zone."""

    def __init__(self, plan: ClassPlan, stamp: datetime) -> None:
        self.plan, self.stamp = plan, stamp
        self.zone = _zone(plan.calendar.zone)
        self.names = {group.key: group.name for group in plan.classes}

    def file(self, events: "Iterable[Event]") -> bytes:
        from icalendar import Calendar

        made = Calendar()
        made.add("prodid", _PRODUCT)
        made.add("version", "2.0")
        made.add("x-wr-calname", f"{self.plan.school}: {self.plan.house or 'class house'}")
        for event in events:
            made.add_component(event)
        calendar = self.plan.calendar
        year = timedelta(days=366)
        made.add_missing_timezones(first_date=calendar.first_day - year, last_date=calendar.set_day + year)
        return bytes(made.to_ical())

    def meetings(self, listed: Sequence[Meeting], notes: Mapping[int, str]) -> "list[Event]":
        """Return the meetings; the first, second ... of a class on a day keeps its identity."""
        seen: dict[tuple[str, date], int] = {}
        made = []
        for meeting in listed:
            of_day = (meeting.school_class, meeting.date)
            seen[of_day] = seen.get(of_day, 0) + 1
            uid = self._uid("meeting", meeting.school_class, f"{meeting.date:%Y%m%d}", str(seen[of_day]))
            event = self._event(uid, f"{self.names[meeting.school_class]}: period {meeting.number + 1}")
            begin = self._at(meeting.date, meeting.begin)
            event.add("dtstart", begin)
            event.add("dtend", self._later(meeting.date, meeting.begin, meeting.minutes))
            said = [notes.get(meeting.number, ""), *(f"Guest: {who}" for who in meeting.guests)]
            if any(said):
                event.add("description", "\n".join(filter(None, said)))
            made.append(event)
        return made

    def day_off(self, off: DayOff) -> "Event":
        whose = f" ({', '.join(self.names[key] for key in sorted(off.classes))})" if off.classes else ""
        uid = self._uid("off", f"{off.days.first:%Y%m%d}", *sorted(off.classes))
        return self._all_day(uid, f"No school: {off.why}{whose}", off.days.first, off.days.last)

    def early(self, early: EarlyDismissal) -> "Event":
        uid = self._uid("early", f"{early.day:%Y%m%d}")
        why = f" ({early.why})" if early.why else ""
        if early.ends is None:
            return self._all_day(uid, f"Periods of {early.minutes} minutes{why}", early.day, early.day)
        event = self._event(uid, f"Early dismissal{why}")
        event.add("dtstart", self._at(early.day, early.ends))
        event.add("dtend", self._at(early.day, early.ends))
        return event

    def guest(self, guest: Guest) -> "list[Event]":
        made = []
        for day in guest.days:
            uid = self._uid("guest", guest.who, f"{day:%Y%m%d}")
            said = f"Visit: {guest.who}" + (f" ({guest.why})" if guest.why else "")
            if guest.at is None:
                made.append(self._all_day(uid, said, day, day))
                continue
            event = self._event(uid, said)
            event.add("dtstart", self._at(day, guest.at))
            event.add("duration", _GUEST_STAYS)
            made.append(event)
        return made

    def set_day(self) -> "Event":
        day = self.plan.calendar.set_day
        return self._all_day(self._uid("set-day"), f"Set day: {self.plan.house or 'the house'}", day, day)

    def _all_day(self, uid: str, said: str, first: date, last: date) -> "Event":
        event = self._event(uid, said)
        event.add("dtstart", first)
        event.add("dtend", last + timedelta(days=1))
        event.add("transp", "TRANSPARENT")
        return event

    def _event(self, uid: str, said: str) -> "Event":
        from icalendar import Event

        event = Event()
        event.add("uid", uid)
        event.add("dtstamp", self.stamp)
        event.add("summary", said)
        return event

    def _uid(self, *parts: str) -> str:
        words = [self.plan.school, self.plan.house, *parts]
        return f"{'.'.join(filter(None, map(_slug, words)))}@{_DOMAIN}"

    def _at(self, day: date, clock: time) -> datetime:
        return datetime.combine(day, clock, tzinfo=self.zone)

    def _later(self, day: date, clock: time, minutes: int) -> datetime:
        return self._at(day, clock) + timedelta(minutes=minutes)


def _zone(name: str) -> ZoneInfo | None:
    """Return the zone; None for times that float, as RFC 5545 calls them."""
    if not name:
        return None
    if not known_zone(name):
        raise FileProblem(f"There is no time zone called {name!r}.", do='Write one like "America/Denver".')
    return ZoneInfo(name)


def _slug(words: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")
