"""A typed task of a class file: its keys and what they mean."""

from typing import Annotated

from pydantic import Field

from setday.files.class_file.scalars import (
    AfterText,
    CrewText,
    DayText,
    HoursText,
    OneOrMore,
    QuantityText,
    TenthsText,
)
from setday.files.written.fields import FreeText, Name, YesNo
from setday.files.written.part import Part, says

__all__ = ["TaskPart"]


class TaskPart(Part):
    """A task the instructor types."""

    label: FreeText | None = says("What the bell sheet says; its name when not written.", "Sheathe the roof")
    trade: Name = Field(description="Whose work it is; hours count for it.", examples=["roof"])
    place: Name = Field(description="Where: a room of the house or a name under places.", examples=["roof"])
    hours: HoursText | None = says("Student-hours; 0 for a mark without work.", "24")
    quantity: QuantityText | None = says("How much, where a rate gives the hours.", "620 ft2")
    work: Name | None = says("Which rate of the trade it goes by.", "lap siding")
    crew: CrewText | None = says("Smallest and largest useful crew; 1 to 4 when not written.", "2 to 4")
    after: Annotated[list[AfterText], OneOrMore] | None = says(
        "Tasks to be finished first, and time from their end on.", "[roof felt, first coat + 24 hours]"
    )
    signoffs: Annotated[list[Name], OneOrMore] | None = says(
        "What everybody on it is signed off for.", "[ladder]"
    )
    exposures: Annotated[list[Name], OneOrMore] | None = says(
        "What it brings a student near; the limits for minors go by it.", "[roofing]"
    )
    attention: TenthsText | None = says(
        "How much of an instructor it needs; none when not written.", "3 tenths"
    )
    needs_dry_weather: YesNo | None = says("Not on wet days.", "yes")
    clashes_with: Annotated[list[Name], OneOrMore] | None = says(
        "Trades that cannot work in the same place meanwhile.", "[paint]"
    )
    material_due: DayText | None = says("The day its material is there.", "2026-10-01")
    not_before: DayText | None = says("Another day before which it cannot begin.", "2026-10-01")
    on: Annotated[list[DayText], OneOrMore] | None = says("The only days it may run on.", "[2027-02-10]")
    guest: Name | None = says("Who has to be there, as under guests.", "electrical inspector")
    needs_gates: Annotated[list[Name], OneOrMore] | None = says("Gates that have to be open before it.")
    opens_gates: Annotated[list[Name], OneOrMore] | None = says("Gates that are open once it is done.")
    on_site: YesNo | None = says("Work on the building site; no for practice benches.", "no")
    filler: YesNo | None = says("Never finished: useful work for whoever is left over.", "yes")
