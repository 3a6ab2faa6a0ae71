"""Calendar files: ours, parsed by the icalendar library, and a school's file read as proposals."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar as Parsed

from setday.errors import FileProblem
from setday.files import (
    Proposal,
    ProposalKind,
    read_class,
    read_events,
    read_school_calendar,
    write_calendar,
)
from setday.findings import Severity
from setday.roster import DayOff, EarlyDismissal, Guest, Stretch, meetings
from tests.files.typed_class import WORKSHOP

STAMP = datetime(2026, 9, 1, 12, tzinfo=UTC)
YEAR = Stretch(first=date(2026, 9, 1), last=date(2027, 6, 30))
WEEK = Stretch(first=date(2026, 11, 25), last=date(2026, 11, 27))


def plan(zone="America/Chicago", **more):
    """The small class with a time zone, over the end of summer time, and what else is given."""
    made = read_class(WORKSHOP, name="class.yaml").plan
    changed = replace(made.calendar, zone=zone, set_day=date(2026, 12, 10), **more)
    return replace(made, house="Plover Lane house", calendar=changed)


def written(made, **more):
    """A plan's calendar file, parsed by the library."""
    listed = meetings(made.calendar, made.classes)
    return Parsed.from_ical(write_calendar(made, listed, stamp=STAMP, **more))


def events(parsed):
    """Events by their identity."""
    return {str(each["UID"]): each for each in parsed.walk("VEVENT")}


def school(*entries):
    """A school's calendar file with events of these lines."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//x//EN"]
    for number, entry in enumerate(entries):
        lines += [
            "BEGIN:VEVENT",
            f"UID:e{number}",
            "DTSTAMP:20260801T000000Z",
            *entry.split("|"),
            "END:VEVENT",
        ]
    return "\r\n".join([*lines, "END:VCALENDAR", ""])


def only(text, **more):
    """The one proposal of a file."""
    (found,) = read_school_calendar(text, name="school.ics", within=YEAR, **more).proposals
    return found


def test_every_meeting_is_there_at_its_time():
    """Outside check: the icalendar library reads back what was written."""
    made = plan()
    listed = meetings(made.calendar, made.classes)
    parsed = events(written(made))
    read = sorted(
        (each["DTSTART"].dt, each["DTEND"].dt) for uid, each in parsed.items() if ".meeting." in uid
    )
    zone = ZoneInfo("America/Chicago")
    expected = [datetime.combine(each.date, each.begin, tzinfo=zone) for each in listed]
    assert [begin for begin, _ in read] == expected
    assert [end - begin for begin, end in read] == [timedelta(minutes=each.minutes) for each in listed]


def test_the_clock_on_the_wall_stays_when_summer_time_ends():
    parsed = events(written(plan()))
    utc = {each["DTSTART"].dt.astimezone(UTC).hour for uid, each in parsed.items() if ".meeting." in uid}
    assert utc == {13, 14}


def test_the_time_zone_is_described_in_the_file():
    """RFC 5545, 3.6.5: a time with a TZID needs its VTIMEZONE in the same file."""
    assert [str(each["TZID"]) for each in written(plan()).walk("VTIMEZONE")] == ["America/Chicago"]


def test_without_a_zone_times_float():
    parsed = events(written(plan(zone="")))
    assert all(each["DTSTART"].dt.tzinfo is None for uid, each in parsed.items() if ".meeting." in uid)


def test_an_unknown_zone_is_refused():
    with pytest.raises(FileProblem, match="no time zone called"):
        written(plan(zone="America/Nowhere"))


def test_a_stamp_needs_a_zone():
    made = plan()
    with pytest.raises(ValueError, match="time zone"):
        write_calendar(made, (), stamp=datetime(2026, 9, 1))  # noqa: DTZ001


def test_identities_are_unique_and_stay():
    first, second = plan(), plan(guests=(Guest(who="inspector", days=(date(2026, 9, 15),)),))
    before, after = events(written(first)), events(written(second))
    assert len(before) == len(written(first).walk("VEVENT"))
    assert set(before) < set(after)


def test_another_bell_time_keeps_the_identities():
    made = plan()
    bell = replace(made.classes[0].meetings[0], begin=time(9, 15))
    moved = replace(made, classes=(replace(made.classes[0], meetings=(bell,)),))
    assert set(events(written(made))) == set(events(written(moved)))


def test_no_student_is_named():
    made = plan()
    text = write_calendar(made, meetings(made.calendar, made.classes), stamp=STAMP).decode()
    assert not [student.name for student in made.students if student.name in text]


def test_set_day_is_an_event_of_a_whole_day():
    (found,) = [each for uid, each in events(written(plan())).items() if ".set-day@" in uid]
    assert found["DTSTART"].dt == date(2026, 12, 10)
    assert "Plover Lane house" in found["SUMMARY"]


def test_notes_and_guests_are_in_the_description_with_their_line_breaks():
    made = plan(guests=(Guest(who="inspector", days=(date(2026, 9, 8),), at=time(9)),))
    found = events(written(made, notes={0: "Crew A: felt; 2 of 3\nCrew B: boards, closet"}))
    first = next(each for uid, each in found.items() if ".meeting." in uid)
    assert str(first["DESCRIPTION"]) == "Crew A: felt; 2 of 3\nCrew B: boards, closet\nGuest: inspector"


def test_what_is_written_is_read_back_as_the_same_days_off_guests_and_short_days():
    off = (
        DayOff(days=WEEK, why="fall break"),
        DayOff(days=Stretch(first=date(2026, 10, 12), last=date(2026, 10, 12)), why="holiday"),
    )
    early = (
        EarlyDismissal(day=date(2026, 10, 1), ends=time(9), why="game"),
        EarlyDismissal(day=date(2026, 10, 6), minutes=45, why="assembly"),
    )
    guests = (
        Guest(who="building inspector", days=(date(2026, 9, 15), date(2026, 9, 22)), at=time(9), why="rough"),
    )
    made = plan(days_off=off, early=early, guests=guests)
    listed = meetings(made.calendar, made.classes)
    data = write_calendar(made, listed, stamp=STAMP)
    found = read_school_calendar(data, name="own.ics", within=YEAR, zone="America/Chicago")
    by_kind = {kind: [each for each in found.proposals if each.kind is kind] for kind in ProposalKind}
    assert {each for p in by_kind[ProposalKind.DAY_OFF] for each in p.days_off()} == set(off)
    assert [each.guest() for each in by_kind[ProposalKind.GUEST]] == list(guests)
    read_early = [each for p in by_kind[ProposalKind.EARLY] for each in p.early()]
    assert [(each.day, each.ends, each.minutes) for each in read_early] == [
        (each.day, each.ends, each.minutes) for each in early
    ]


@settings(max_examples=30, deadline=None)
@given(zone=st.sampled_from(["America/Denver", "America/St_Johns", "Europe/Berlin", "Australia/Lord_Howe"]))
def test_our_own_reading_of_meetings_gives_the_same_days_and_times(zone):
    made = plan(zone=zone)
    listed = meetings(made.calendar, made.classes)
    data = write_calendar(made, listed, stamp=STAMP)
    read = [e for e in read_events(data, name="x", within=YEAR, zone=zone).events if "period" in e.summary]
    assert [(e.days.first, e.begin) for e in read] == [(m.date, m.begin) for m in listed]


@pytest.mark.parametrize(
    ("entry", "kind", "likely"),
    [
        ("SUMMARY:Break - No School|DTSTART;VALUE=DATE:20261125|DTEND;VALUE=DATE:20261128", "day off", True),
        ("SUMMARY:Teacher workday|DTSTART;VALUE=DATE:20261012", "day off", True),
        ("SUMMARY:Spirit week|DTSTART;VALUE=DATE:20261012|DTEND;VALUE=DATE:20261017", "day off", False),
        ("SUMMARY:School resumes after break|DTSTART;VALUE=DATE:20270104", "day off", False),
        ("SUMMARY:Early Release|DTSTART:20261015T113000|DTEND:20261015T150000", "early dismissal", True),
        ("SUMMARY:Half day\\, dismissal 12:15|DTSTART;VALUE=DATE:20261015", "early dismissal", True),
        ("SUMMARY:Building inspection|DTSTART:20261015T090000|DURATION:PT1H", "guest", True),
        ("SUMMARY:Structural engineer on site|DTSTART:20261015T090000", "guest", True),
        ("SUMMARY:Choir concert|DTSTART:20261015T190000|DTEND:20261015T210000", "nothing", True),
    ],
)  # fmt: skip
def test_events_are_proposed_as_their_words_say(entry, kind, likely):
    found = only(school(entry))
    assert (found.kind.value, found.likely) == (kind, likely)
    assert found.why


def test_whole_days_end_before_dtend():
    """RFC 5545, 3.6.1: DTEND is not part of the event."""
    found = only(school("SUMMARY:Fall break|DTSTART;VALUE=DATE:20261125|DTEND;VALUE=DATE:20261128"))
    assert found.days == (WEEK,)
    assert found.days_off() == (DayOff(days=WEEK, why="Fall break"),)


def test_a_day_from_midnight_to_midnight_is_a_whole_day():
    found = only(school("SUMMARY:No school|DTSTART:20261125T000000|DTEND:20261128T000000"))
    assert (found.kind, found.days) == (ProposalKind.DAY_OFF, (WEEK,))


@pytest.mark.parametrize(
    ("title", "ends"),
    [
        ("Early dismissal 12:15", time(12, 15)),
        ("Early out at 1 pm", time(13)),
        ("Half day (noon)", time(12)),
        ("Early release 1:30", time(13, 30)),
        ("Half day", None),
    ],
)
def test_an_early_day_ends_when_its_title_says(title, ends):
    found = only(school(f"SUMMARY:{title}|DTSTART;VALUE=DATE:20261015"))
    assert (found.kind, found.at) == (ProposalKind.EARLY, ends)
    asked = found.early(ends=None if ends else time(11))
    assert [each.ends for each in asked] == [ends or time(11)]


def test_an_early_day_without_a_time_is_none_until_the_person_says_when():
    found = only(school("SUMMARY:Half day|DTSTART;VALUE=DATE:20261015"))
    assert found.early() == ()
    assert "when the day ends is not said" in found.why


def test_times_of_another_zone_are_told_by_the_schools_clock():
    entry = "SUMMARY:Inspection visit|DTSTART:20261015T150000Z|DTEND:20261015T160000Z"
    assert only(school(entry), zone="America/Denver").at == time(9)
    assert only(school(entry), zone="America/Chicago").at == time(10)


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        ("RRULE:FREQ=WEEKLY;COUNT=3", [8, 15, 22]),
        ("RRULE:FREQ=WEEKLY;UNTIL=20261020T235959Z", [8, 15]),
        ("RRULE:FREQ=WEEKLY;UNTIL=20261022", [8, 15, 22]),
        ("RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=2", [8, 22]),
        ("RRULE:FREQ=WEEKLY;COUNT=3|EXDATE:20261015T090000", [8, 22]),
        ("RDATE:20261013T090000", [8, 13]),
        ("RRULE:FREQ=MONTHLY;BYDAY=2TH;UNTIL=20261031T000000Z", [8]),
    ],
)
def test_what_comes_again_is_expanded(rule, expected):
    """Outside check: the days follow RFC 5545, 3.8.5, counted on a wall calendar of October 2026."""
    found = only(school(f"SUMMARY:Engineer visits|DTSTART:20261008T090000|{rule}"))
    assert [days.first.day for days in found.days] == expected


def test_one_moved_time_of_a_series_takes_the_place_of_its_own():
    text = school("SUMMARY:Engineer visits|DTSTART:20261008T090000|RRULE:FREQ=WEEKLY;COUNT=3").replace(
        "END:VCALENDAR",
        "BEGIN:VEVENT\r\nUID:e0\r\nRECURRENCE-ID:20261015T090000\r\nDTSTART:20261016T100000\r\n"
        "SUMMARY:Engineer visits\r\nEND:VEVENT\r\nEND:VCALENDAR",
    )
    found = read_school_calendar(text, name="x", within=YEAR).proposals
    assert sorted(days.first.day for each in found for days in each.days) == [8, 16, 22]


def test_weekly_events_over_the_end_of_summer_time_keep_their_clock():
    entry = "SUMMARY:Engineer visits|DTSTART;TZID=America/Chicago:20261026T090000|RRULE:FREQ=WEEKLY;COUNT=3"
    read = read_events(school(entry), name="x", within=YEAR, zone="America/Chicago").events
    assert [each.begin for each in read] == [time(9)] * 3


def test_an_endless_series_stops_with_the_days_asked_for():
    read = read_events(
        school("SUMMARY:Visit|DTSTART:20200106T090000|RRULE:FREQ=DAILY"), name="x", within=WEEK
    )
    assert [each.days.first for each in read.events] == [date(2026, 11, day) for day in (25, 26, 27)]


def test_cancelled_events_and_events_of_other_years_are_passed_over():
    text = school(
        "SUMMARY:No school|DTSTART;VALUE=DATE:20261012|STATUS:CANCELLED",
        "SUMMARY:No school|DTSTART;VALUE=DATE:20201012",
    )
    found = read_school_calendar(text, name="x.ics", within=YEAR)
    assert found.proposals == ()
    assert [each.rule for each in found.findings] == ["calendar-file.outside"]


@pytest.mark.parametrize(
    ("data", "rule"),
    [
        (b"", "calendar-file.kind"),
        (b"%PDF-1.4", "calendar-file.kind"),
        (b"x" * 5_000_001, "calendar-file.size"),
        (b"BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n", "calendar-file.empty"),
        (b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n", "calendar-file.broken"),
    ],
)
def test_what_is_no_calendar_file_is_told(data, rule):
    found = read_events(data, name="x.ics", within=YEAR)
    assert found.events == ()
    assert rule in {each.rule for each in found.findings}


@pytest.mark.parametrize(
    "entry",
    [
        "SUMMARY:No school",
        "SUMMARY:No school|DTSTART:20261345T000000",
        "SUMMARY:No school|DTSTART;VALUE=DATE:20261012|DTEND:20261013T090000",
        "SUMMARY:No school|DTSTART:20261012T090000|RRULE:FREQ=SECONDLY",
    ],
)
def test_an_event_that_cannot_be_read_is_told_and_the_others_are_read(entry):
    text = school(entry, "SUMMARY:Holiday|DTSTART;VALUE=DATE:20261012")
    found = read_events(text, name="x.ics", within=YEAR)
    assert [each.summary for each in found.events] == ["Holiday"]
    assert [each.severity for each in found.findings if each.rule == "calendar-file.event"] == [Severity.ASK]


LINES = (
    "BEGIN:VEVENT", "END:VEVENT", "SUMMARY:No school", "DTSTART:20261012", "DTSTART;VALUE=DATE:20261012",
    "DTEND:x", "RRULE:FREQ=WEEKLY;COUNT=-1", "RRULE:FREQ=DAILY;INTERVAL=0", "EXDATE:", "DURATION:P1W",
    "DTSTART;TZID=Nowhere:20261012T090000", "UID", "RECURRENCE-ID:20261012", "RDATE:20261012", ":", ";=",
)  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(lines=st.lists(st.sampled_from(LINES), max_size=12))
def test_no_content_brings_a_traceback(lines):
    text = "\r\n".join(["BEGIN:VCALENDAR", *lines, "END:VCALENDAR", ""])
    read_school_calendar(text, name="x.ics", within=YEAR, zone="America/Denver")


def test_a_proposal_changes_nothing_by_itself():
    proposal = Proposal(kind=ProposalKind.DAY_OFF, summary="No school: snow", days=(WEEK,))
    assert proposal.days_off() == (DayOff(days=WEEK, why="snow"),)
