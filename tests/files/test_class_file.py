"""The class file: what it says, and what it says of slips."""

from datetime import date, time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.files import Change, read_class, write_changes
from setday.findings import Severity
from setday.roster import After, Stretch, meetings, student_hours
from tests.files.typed_class import WORKSHOP, changed, read, rules

DEMO = Path(__file__).resolve().parents[2] / "src" / "setday" / "demo" / "class.yaml"


def line_of(text, words):
    """The line on which words stand."""
    return next(number for number, line in enumerate(text.splitlines(), start=1) if words in line)


def test_the_small_class_is_read_without_a_finding():
    assert read().findings == ()
    assert read().plan == read().readable


def test_students_come_with_what_is_written_anywhere_about_them():
    plan = read().plan
    ana, ben, cy, dee = plan.classes[0].students
    assert (ana.name, ana.born, ana.student_learner, ana.knows) == (
        "Ana Ruiz",
        date(2010, 3, 9),
        True,
        {"roof"},
    )
    assert ana.signed(on=date(2026, 9, 12)) == {"ladder", "heights"}
    assert ben.signed(on=date(2026, 9, 12)) == {"ladder"}
    assert (ben.apart, cy.apart, dee.apart) == ({"Cy Vang"}, {"Ben Ott"}, frozenset())
    assert plan.calendar.absences[0].days == Stretch(first=date(2026, 10, 5), last=date(2026, 10, 7))


def test_meetings_follow_from_it():
    plan = read().plan
    found = meetings(plan.calendar, plan.classes)
    assert {each.date.weekday() for each in found} == {0, 1, 2, 3}
    assert (found[0].begin, found[0].minutes) == (time(8, 5), 100)
    assert [each.date.day for each in found if each.absent] == [5, 6, 7]


def test_a_quantity_with_a_rate_gives_student_hours_and_the_class_factor_counts():
    plan = read().plan
    hours = {task.key: student_hours(task, plan) for task in plan.tasks}
    assert hours == {"roof felt": 6, "shingles": pytest.approx(19.2), "practice bench": None}
    slow = read(WORKSHOP + "class factors: {roof: 1.5}\n").plan
    assert student_hours(slow.tasks[0], slow) == pytest.approx(9)


def test_a_task_knows_what_it_waits_for():
    shingles = read().plan.tasks[1]
    assert shingles.after == (After(task="roof felt", days=1),)
    assert (shingles.crew_least, shingles.crew_most, shingles.material_due) == (2, 3, date(2026, 9, 21))


def test_hours_wanted_of_the_class_hold_unless_the_student_says_otherwise():
    text = changed("minutes]\n", "minutes]\n    hours wanted: {roof: 10, cable: 4}\n")
    text = text.replace("knows: [roof]}", "hours wanted: {cable: 1.5}}")
    students = read(text).plan.students
    assert dict(students[0].targets) == {"roof": 600, "cable": 90}
    assert dict(students[1].targets) == {"roof": 600, "cable": 240}


@pytest.mark.parametrize(
    ("meant", "typed", "rule", "words"),
    [
        ("setday class: 1\n", "", "file.form", "setday class: 1"),
        ("setday class: 1", "setday class: 7", "file.form", "newer Setday"),
        ("school: Elm Creek School\n", "", "file.missing", "'school' is not written"),
        ("first day: 2026-09-08", "first day: 9/8/2026", "file.entry", "month first by some"),
        ("set day: 2026-10-22", "set day: 2026-10-42", "file.entry", "not in the calendar"),
        ("set day: 2026-10-22", "set day: 2026-09-01", "calendar.set-day", "not after the first day"),
        ("Mon to Thu at 8:05", "Mon to Thu at 1:05", "file.entry", "is at night"),
        ("Mon to Thu", "Mon to Thur", "", ""),
        ("Mon to Thu", "Mun to Thu", "file.entry", "'Mun' is no day of the week"),
        ("for 100 minutes", "for 1 minutes", "file.entry", "a period of 1 minutes"),
        ("meets: [Mon to Thu at 8:05 for 100 minutes]", "meets: sometimes", "file.entry", "is no period"),
        ("apart from: [Ben Ott]", "apart from: [Ben Oto]", "file.name", "Did you mean 'Ben Ott'?"),
        ("apart from: [Ben Ott]", "apart from: [Cy Vang]", "file.entry", "beside themself"),
        ("students: everyone", "students: [Ana Ruis]", "file.name", "Did you mean 'Ana Ruiz'?"),
        ("born: 2010-03-09", "burn: 2010-03-09", "file.unknown-key", "Did you mean 'born'?"),
        ("crew: 2 to 3", "crew: 3 to 2", "file.entry", "is no crew"),
        ("exposures: roofing", "exposures: rofing", "file.name", "Did you mean 'roofing'?"),
        ("hours: 6", "hours: six", "file.entry", "is no time of work"),
        ("quantity: 240 ft2", "quantity: much", "file.entry", "is no quantity"),
        ("0.08 hours per ft2", "0.08 hours", "file.entry", "is no rate"),
        ("work: shingles", "work: slates", "plan.rate", "no single rate of roof for 'slates'"),
        ("    hours: 6\n", "", "plan.hours", "neither hours nor a quantity"),
        ("after: roof felt + 1 day", "after: roof flet", "plan.after", "none of the tasks written here"),
        ("after: roof felt + 1 day", "after: shingles", "plan.loop", "'shingles' -> 'shingles'"),
        ("material due: 2026-09-21", "material due: 2026-10-30", "plan.too-late", "set day is 22 October"),
        ("crew: 2 to 3", "crew: 5", "plan.cramped", "roof holds 4"),
        ("places: {roof: 4}", "places: {roof: none}", "file.entry", "not a number from 1 to 999"),
        ("signoffs: heights", "signoffs: [heights, flying]", "plan.nobody", "sign-off 'flying' is missing"),
        ("needs dry weather: yes", "needs dry weather: perhaps", "file.entry", "neither yes nor no"),
    ],
)  # fmt: skip
def test_a_slip_is_told_with_its_line_and_what_to_do(meant, typed, rule, words):
    found = read(changed(meant, typed)).findings
    if not rule:
        assert found == ()
        return
    told = [each for each in found if each.rule == rule]
    assert told, [str(each) for each in found]
    assert words in str(told[0])
    assert told[0].where.line
    assert told[0].do


def test_everything_is_told_at_once_and_the_rest_is_still_read():
    text = WORKSHOP
    for meant, typed in (
        ("born: 2010-03-09", "born: 2010-13-09"),
        ("crew: 2 to 3", "crew: many"),
        ("school: Elm Creek School\n", ""),
        ("on: 2026-09-11", "on: soon"),
        ("exposures: roofing", "exposures: height"),
    ):
        text = text.replace(meant, typed, 1)
    result = read(text)
    assert result.plan is None
    told = {(each.rule, each.where.line) for each in result.findings}
    assert {
        ("file.entry", line_of(text, "2010-13-09")),
        ("file.entry", line_of(text, "crew: many")),
        ("file.missing", 1),
        ("file.entry", line_of(text, "on: soon")),
    } <= told
    assert {student.name for student in result.readable.students} == {"Ben Ott", "Cy Vang", "Dee Lund"}
    assert {task.key for task in result.readable.tasks} == {"shingles", "practice bench"}


def test_a_finding_of_the_calendar_stands_on_its_line():
    text = changed("  first day", "  guests:\n    inspector: {days: [2026-09-13]}\n  first day")
    ((rule, line),) = rules(text)
    assert (rule, line) == ("calendar.guest", line_of(text, "inspector:"))


def test_an_overlap_stands_on_the_line_of_the_class():
    text = changed("\ncalendar:", "  noon: {meets: [Mon at 9:00 for 60 minutes]}\n\ncalendar:")
    text = text.replace("Ruiz: {", "Ruiz: {class: noon, ").replace(": {born", ": {class: morning, born")
    found = [each for each in read(text).findings if each.rule == "calendar.overlap"]
    assert [each.where.line for each in found] == [line_of(text, "meets:")]


def test_a_class_has_to_be_said_where_there_are_several():
    text = changed("\ncalendar:", "  noon: {meets: [Mon at 12:00 for 60 minutes]}\n\ncalendar:")
    found = [each for each in read(text).findings if each.rule == "file.missing"]
    assert len(found) == 4
    assert "morning, noon" in found[0].expected


def test_set_day_in_the_past_is_told_when_today_is_known():
    assert read(today=date(2026, 10, 21)).findings == ()
    assert rules(WORKSHOP, today=date(2026, 10, 22)) == [
        ("calendar.set-day-over", line_of(WORKSHOP, "set day:"))
    ]


def test_limits_are_set_aside_with_a_reason_only():
    reason = "limits set aside: {order-16: 'county letter of 4 June, on file'}\n"
    assert read(WORKSHOP + reason).plan.limits.set_aside == (
        ("order-16", "county letter of 4 June, on file"),
    )
    assert [rule for rule, _ in rules(WORKSHOP + "limits set aside: {order-16: '', order-61: x}\n")] == [
        "file.limit",
        "file.limit",
    ]


def test_a_task_hardly_anybody_may_do_says_who_and_why():
    text = changed("exposures: roofing", "exposures: [roofing, hoisting apparatus]")
    (found,) = read(text).findings
    assert (found.rule, found.severity) == ("plan.nobody", Severity.ASK)
    assert "Order 7" in found.found
    assert "students: 3" in found.found


def test_a_pin_of_somebody_who_may_not_is_told_on_its_line():
    text = WORKSHOP + "pins:\n  - {task: roof felt, days: 2026-09-15, students: [Ben Ott]}\n"
    found = read(text).findings
    assert {each.rule for each in found} == {"limits.signoff", "limits.order-16"}
    assert {each.where.line for each in found} == {len(text.splitlines())}


def test_a_pin_on_a_day_without_the_class_is_told():
    text = WORKSHOP + "pins:\n  - {task: roof felt, days: 2026-09-18}\n"
    assert [rule for rule, _ in rules(text)] == ["plan.pin"]


def test_days_off_for_one_class_and_short_days():
    text = changed(
        "  set day: 2026-10-22",
        "  set day: 2026-10-22\n  days off: {2026-09-14: holiday, 2026-09-15 for morning: tests}\n"
        "  early dismissal: {2026-09-16: ends at 9:00 (game), 2026-09-17: 50 minutes each}\n"
        "  time zone: America/Chicago\n  wet share: {Sep: 20 %}\n"
        "  helpers: {Aide: {days: 2026-09-08 to 2026-10-01, weekdays: Tue, attention: 5 tenths}}",
    )
    plan = read(text).plan
    found = {each.date.day: each for each in meetings(plan.calendar, plan.classes) if each.date.month == 9}
    assert {14, 15}.isdisjoint(found)
    assert (found[16].minutes, found[17].minutes, found[21].minutes) == (55, 50, 100)
    assert (found[8].attention, found[9].attention) == (15, 10)
    assert found[9].wet_chance == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("zone", "like"), [("America/Chigago", "America/Chicago"), ("us central", "US/Central"), ("x", "")]
)
def test_an_unknown_time_zone_is_told(zone, like):
    text = changed("  set day", f"  time zone: {zone}\n  set day")
    (found,) = read(text).findings
    assert found.rule == "file.name"
    assert like in found.do


def test_comments_stay_when_something_is_changed():
    text = write_changes(
        WORKSHOP,
        [
            Change(path=("students", "Cy Vang", "born"), value="2008-06-03"),
            Change(path=("students", "Eve Moon"), value={"born": "2010-05-05"}),
            Change(path=("tasks", "roof felt", "hours"), value="8"),
        ],
    )
    assert "Cy Vang: {born: 2008-06-03, apart from: [Ben Ott]}     # moved in last year" in text
    plan = read(text).plan
    assert [student.name for student in plan.students][-1] == "Eve Moon"
    assert plan.tasks[0].hours == 8


def test_nothing_changed_is_nothing_touched():
    assert write_changes(WORKSHOP) == WORKSHOP


@pytest.mark.parametrize(
    ("data", "rule"),
    [
        (b"", "file.empty"),
        (b"PK\x03\x04xxxx", "file.kind"),
        (b"just words", "file.kind"),
        (b"- a\n- b\n", "file.kind"),
        (b"x" * 300_000, "file.size"),
        ("setday class: 1\nschool: Ñ".encode("utf-16"), "file.encoding"),
        (b"setday class: 1\nschool: Caf\xe9\n", "file.encoding"),
        (b"wall kinds: {}\nname: x\n", "file.form"),
        (b"setday class: 1\nschool: x\n school: y\n", "file.yaml"),
    ],
)
def test_what_is_no_class_file_is_told_in_our_words(data, rule):
    found = read_class(data, name="x.yaml").findings
    assert rule in {each.rule for each in found}
    assert not [str(each) for each in found if "house file" in str(each) or "practice shed" in str(each)]


def test_the_demo_is_read_without_a_problem():
    result = read_class(DEMO.read_bytes(), name="class.yaml")
    assert result.findings == ()
    plan = result.plan
    assert [group.key for group in plan.classes] == ["morning", "afternoon"]
    assert len(plan.classes[0].students) == 16
    held = [each.school_class for each in meetings(plan.calendar, plan.classes)]
    assert 75 <= held.count("morning") <= 110


def test_250_typed_tasks_and_40_students_are_read_and_can_be_changed():
    students = "".join(f"  Student {n // 26}{chr(65 + n % 26)}: {{born: 2009-03-11}}\n" for n in range(36))
    text = changed("  Dee Lund:", f"{students}  Dee Lund:")
    task = "    trade: roof\n    place: yard\n    hours: 3\n    signoffs: [ladder]\n    exposures: [ladder]\n"
    more = "    attention: 3 tenths\n    needs dry weather: yes\n    clashes with: [paint, siding]\n"
    text += "".join(f"  task {n}:\n    after: [roof felt + 1 day]\n{task}{more}" for n in range(250))
    result = read(text)
    assert result.findings == ()
    assert (len(result.plan.students), len(result.plan.tasks)) == (40, 253)
    written = write_changes(text, [Change(path=("tasks", "task 249", "hours"), value="4")])
    assert read(written).plan.tasks[-1].hours == 4


SECTIONS = (
    "classes", "calendar", "students", "signoffs", "places", "rates", "tasks", "pins", "limits set aside",
    "class factors", "idle allowed", "house",
)  # fmt: skip
LINES = WORKSHOP.splitlines(keepends=True)


@settings(max_examples=60, deadline=None)
@given(
    drop=st.sets(st.integers(0, len(LINES) - 1), max_size=6),
    at=st.integers(0, len(WORKSHOP)),
    typed=st.text("ab:{}[],-#'\"\n 0123456789&*!|>%@é\t", max_size=6),
)
def test_no_change_to_a_file_brings_a_traceback(drop, at, typed):
    text = "".join(line for number, line in enumerate(LINES) if number not in drop)
    result = read(text[:at] + typed + text[at:])
    assert (result.plan is None) == bool(result.problems) or result.plan is None


@settings(max_examples=80, deadline=None)
@given(
    section=st.sampled_from(SECTIONS),
    value=st.recursive(
        st.sampled_from(["", "x", "7", "-1", "2026-09-08", "yes", "'"]),
        lambda inner: st.one_of(
            st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
            st.dictionaries(st.sampled_from(["days", "meets", "trade", "x", "on"]), inner, max_size=3).map(
                lambda d: "{" + ", ".join(f"{k}: {v}" for k, v in d.items()) + "}"
            ),
        ),
        max_leaves=5,
    ),
)
def test_no_shape_of_a_section_brings_a_traceback(section, value):
    text = "".join(line for line in LINES if not line.startswith(f"{section}:"))
    read(f"{text}{section}: {value}\n")
