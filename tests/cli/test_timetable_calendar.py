"""``setday timetable calendar``."""

import json
from pathlib import Path

import pytest
from icalendar import Calendar

from setday.cli import main
from tests.files.typed_class import WORKSHOP

SCHOOL = """\
BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//x//EN
BEGIN:VEVENT
UID:1
DTSTAMP:20260801T000000Z
SUMMARY:No school: fall break
DTSTART;VALUE=DATE:20261012
DTEND;VALUE=DATE:20261014
END:VEVENT
BEGIN:VEVENT
UID:2
DTSTAMP:20260801T000000Z
SUMMARY:Choir
DTSTART:20261015T190000
END:VEVENT
END:VCALENDAR
"""


@pytest.fixture
def class_file(tmp_path: Path) -> Path:
    """The small class of the docs."""
    path = tmp_path / "class.yaml"
    path.write_text(WORKSHOP, encoding="utf-8")
    return path


def test_meetings_are_written_and_listed_and_the_class_file_stays(class_file, tmp_path, capsys):
    out = tmp_path / "out" / "class.ics"
    assert main(["timetable", "calendar", str(class_file), "--write", str(out), "--json"]) == 0
    listed = json.loads(capsys.readouterr().out)["meetings"]
    events = Calendar.from_ical(out.read_bytes()).walk("VEVENT")
    begins = sorted(f"{each['DTSTART'].dt:%Y-%m-%d %H:%M}" for each in events if "period" in each["SUMMARY"])
    assert begins == [f"{each['date']} {each['begin']}" for each in listed]
    assert class_file.read_text(encoding="utf-8") == WORKSHOP


def test_a_schools_calendar_is_only_looked_through(class_file, tmp_path, capsys):
    school = tmp_path / "school.ics"
    school.write_text(SCHOOL, encoding="utf-8")
    assert main(["timetable", "calendar", str(class_file), "--school", str(school), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["proposals"]
    assert [(each["meaning"], each["days"]) for each in found] == [
        ("day off", [["2026-10-12", "2026-10-13"]]),
        ("nothing", [["2026-10-15", "2026-10-15"]]),
    ]
    assert main(["timetable", "calendar", str(class_file), "--school", str(school)]) == 0
    told = capsys.readouterr().out
    assert "No school: fall break" in told
    assert "1 other events" not in told
    assert class_file.read_text(encoding="utf-8") == WORKSHOP


def test_a_class_file_with_problems_is_told_with_status_two(class_file, capsys):
    class_file.write_text(WORKSHOP.replace("set day: 2026-10-22", "set day: 2026-09-01"), encoding="utf-8")
    assert main(["timetable", "calendar", str(class_file)]) == 2
    told = capsys.readouterr()
    assert "not after the first day" in told.err
    assert told.out == ""
