"""The shape of a class file: its sections, keys and what they mean.

The JSON Schema, the findings on unknown or missing keys and docs/class-file.md all follow from here.
"""

from typing import Annotated

from pydantic import BeforeValidator, Field

from setday.files.class_file.scalars import (
    BellText,
    ClockText,
    DaysText,
    DayText,
    EarlyText,
    FactorText,
    Holds,
    HoursText,
    OneOrMore,
    RateText,
    ShareText,
    TenthsText,
    WeekdaysText,
    nothing_is_empty,
)
from setday.files.class_file.shape_tasks import TaskPart
from setday.files.written.fields import FreeText, Name, YesNo
from setday.files.written.kind import FileKind
from setday.files.written.part import Part, says

__all__ = [
    "CLASS_FILE",
    "CalendarPart",
    "ClassPart",
    "GroupPart",
    "GuestPart",
    "HelperPart",
    "PinPart",
    "SignedPart",
    "StudentPart",
]


class GroupPart(Part):
    """A class: when it meets."""

    name: FreeText | None = says("What it is called on sheets; its key when not written.", "Morning class")
    meets: Annotated[list[BellText], OneOrMore] = Field(
        description="Its periods, week by week.", examples=["[Mon to Thu at 8:05 for 100 minutes]"]
    )
    hours_wanted: dict[Name, HoursText] | None = says(
        "Hours that every student of the class should get in a trade.", "{boards: 20, cable: 10}"
    )


class StudentPart(Part):
    """A student."""

    school_class: Name | None = Field(
        default=None, alias="class", description="Which class; may be left out where there is only one."
    )
    born: DayText | None = says("Day of birth; who has none written is taken for a minor.", "2010-03-09")
    student_learner: YesNo | None = says("A written student-learner agreement is on file.", "yes")
    knows: Annotated[list[Name], OneOrMore] | None = says(
        "Trades the student can show to others.", "[boards]"
    )
    hours_wanted: dict[Name, HoursText] | None = says(
        "Hours in a trade, where they differ from the class's.", "{cable: 30}"
    )
    apart_from: Annotated[list[Name], OneOrMore] | None = says("Students not to be on one crew with.")
    together_with: Annotated[list[Name], OneOrMore] | None = says("Students to be on one crew with.")
    away: Annotated[list[DaysText], OneOrMore] | None = says(
        "Days the student is known to be away.", "[2026-10-05, 2027-03-01 to 2027-03-05 (state contest)]"
    )


class SignedPart(Part):
    """A safety test or a skill, and who passed it on one day."""

    what: Name = Field(description="What was signed off.", examples=["ladder"])
    on: DayText = Field(description="The day from which it counts.", examples=["2026-09-11"])
    by: Name = Field(description="Who signed.", examples=["R. Halvorsen"])
    students: Annotated[list[Name], OneOrMore] = Field(
        description="Who passed: students, whole classes, or everyone.", examples=["[Ana Ruiz, Ben Ott]"]
    )


class GuestPart(Part):
    """Somebody who comes to see something."""

    days: Annotated[list[DayText], OneOrMore] = Field(
        description="The days they come.", examples=["[2027-02-10]"]
    )
    at: ClockText | None = says("When; all day when not written.", "9:00")
    why: FreeText | None = says("What they come for.", "rough inspection")


class HelperPart(Part):
    """A second pair of eyes."""

    days: DaysText = Field(description="From when to when.", examples=["2026-09-08 to 2027-05-11"])
    weekdays: WeekdaysText | None = says("On which days of the week; every day when not written.", "Tue Thu")
    attention: TenthsText | None = says("What it adds; all of one person when not written.", "5 tenths")


class CalendarPart(Part):
    """From the first day of work to set day."""

    first_day: DayText = Field(description="The first day of work on the house.", examples=["2026-09-08"])
    set_day: DayText = Field(description="The day of the lift, haul and set.", examples=["2027-05-12"])
    time_zone: FreeText | None = says("Name in the IANA list, for calendar files.", "America/Denver")
    days_off: dict[Name, FreeText] | None = says(
        "Days without school, and why; 'for' and a class where it holds for one only.",
        "{2026-11-25 to 2026-11-27: fall break}",
    )
    early_dismissal: dict[Name, EarlyText] | None = says(
        "Days that are cut short.", "{2026-10-15: ends at 11:30}"
    )
    guests: dict[Name, GuestPart] | None = says("Inspectors, engineers and others who come, by name.")
    helpers: dict[Name, HelperPart] | None = says("Who helps to watch, by name.")
    wet_days: Annotated[list[DaysText], OneOrMore] | None = says("Days on which wet weather is expected.")
    wet_share: dict[Name, ShareText] | None = says(
        "Share of a month's days on which work outdoors falls out, for the odds.", "{November: 25 %}"
    )


class PinPart(Part):
    """What has to happen on a day, whatever else moves."""

    task: Name = Field(description="The task.", examples=["roof sheathing"])
    days: DaysText = Field(description="On which day or days.", examples=["2026-10-09"])
    school_class: Name | None = Field(
        default=None, alias="class", description="In which class; any if not written."
    )
    students: Annotated[list[Name], OneOrMore] | None = says("Who is on it; open when not written.")


class ClassPart(Part):
    """The whole class file."""

    setday_class: FreeText = Field(description="The form of this file; 1.", examples=["1"])
    school: FreeText = Field(description="What the school is called.", examples=["Alder Flat High School"])
    house: FreeText | None = says("The house it builds.", "Plover Lane house")
    classes: Annotated[dict[Name, GroupPart], Field(min_length=1, max_length=12)] = Field(
        description="The classes that work on the house, by name."
    )
    calendar: CalendarPart = Field(description="The school calendar, up to set day.")
    students: dict[Name, Annotated[StudentPart, BeforeValidator(nothing_is_empty)]] | None = says(
        "The students, by name."
    )
    signoffs: Annotated[list[SignedPart], Field(max_length=500)] | None = says(
        "Safety tests and skills signed for, test by test."
    )
    limits_set_aside: dict[Name, FreeText] | None = says(
        "Limits for minors that do not hold here, each with who decided it and why."
    )
    places: dict[Name, Holds] | None = says("How many people a place holds.", "{roof: 6}")
    rates: dict[Name, dict[Name, RateText]] | None = says("Student-hours by trade and work.")
    class_factors: dict[Name, FactorText] | None = says("How many times the rate the class takes, by trade.")
    tasks: dict[Name, TaskPart] | None = says("Work that no trade figures from the house, by name.")
    pins: Annotated[list[PinPart], Field(max_length=500)] | None = says("What must happen on a day.")
    idle_allowed: YesNo | None = says("Somebody present may be left without work; no when not written.")


CLASS_FILE = FileKind(
    name="class file",
    mark="setday class",
    form="1",
    guide="docs/class-file.md",
    shape=ClassPart,
    most_entries=24_000,  # two classes of 40 students with 250 typed tasks hold 9,000
    called={
        ("classes",): "class '{}'",
        ("students",): "student '{}'",
        ("places",): "place '{}'",
        ("tasks",): "task '{}'",
    },
)
"""What Setday reads as a class file."""
