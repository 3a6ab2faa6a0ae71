"""Counters of a house file: keys and what they mean."""

from typing import Annotated

from pydantic import Field

from setday.files.house.scalars import Height, StretchOfWall, TapeLength
from setday.files.written.fields import Name
from setday.files.written.part import Part, says

__all__ = ["CounterPart"]


class CounterPart(Part):
    """A work surface: against walls of a room, or an island."""

    room: Name = Field(description="The room it is in.", examples=["kitchen"])
    on: Annotated[dict[Name, StretchOfWall], Field(min_length=1, max_length=20)] | None = says(
        "The walls it stands against, each with how wide and from which end of what is seen in the room, "
        "range and refrigerator left out; not written for an island."
    )
    length: TapeLength | None = says("Long side of an island or a peninsula.", "5'")
    depth: Height | None = says('Off the wall, or the short side of an island; 25" when not written.', '36"')
    top: Height | None = says('Its top above the subfloor; 36" when not written.', '34"')
