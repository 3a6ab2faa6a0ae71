"""The rooms of a house file, what hangs in them and what waits for them: keys and what they mean."""

from typing import Annotated

from pydantic import Field

from setday.files.house.scalars import (
    Compass,
    Corner,
    FoundationWord,
    Height,
    PlanPlace,
    PlanPoint,
    Rise,
    Shape,
    StretchOfWall,
    TapeLength,
    Way,
)
from setday.files.written.fields import FreeText, Name
from setday.files.written.part import Part, says

__all__ = [
    "BoxPart",
    "CeilingPart",
    "FoundationPart",
    "HatchPart",
    "ReservedPart",
    "RoomPart",
    "SoffitPart",
    "WetPart",
]


class RoomPart(Part):
    """A room, by a point inside it."""

    at: PlanPoint = Field(description="Any point inside the room.", examples=["6' east, 4' north"])
    use: FreeText | None = says("What it is for.", "bedroom", "bath", "kitchen", "closet", "hall", "living")


class CeilingPart(Part):
    """The ceiling of one room."""

    shape: Shape | None = says(
        "flat; slope: one plane; vault or scissors: two planes that meet in a ridge; flat when not written.",
        "scissors",
    )
    height: Height | None = says(
        "Underside of its framing above the subfloor; of a slope at its low side, "
        "of a vault at the side farther from the ridge.",
        "8'-1 1/8\"",
    )
    rise: Rise | None = says("Rise of the ceiling for each foot of run.", '4" per foot', "3/12")
    low_side: Compass | None = says("The low side of a slope.", "west")
    ridge_runs: Way | None = says("The way a vault's ridge runs.", "east-west")
    ridge: PlanPlace | None = says("Where a vault's ridge stands.", "14' north of the far face of south wall")
    framing: Way | None = says("The way its joists, rafters or trusses run.", "north-south")
    spacing: Height | None = says("Framing on centre.", '24"')
    first_member: PlanPlace | None = says(
        "Centre of one member; the layout starts at the house's outside face when not written.",
        "2' east of the far face of west wall",
    )


class BoxPart(Part):
    """A box on the plan: one side and the size, or both sides, each way."""

    west_side: PlanPlace | None = says("Where its west side stands.", "3' east of west wall", "at west wall")
    east_side: PlanPlace | None = says("Where its east side stands.", "at hall wall")
    south_side: PlanPlace | None = says("Where its south side stands.", "3' north of south wall")
    north_side: PlanPlace | None = says("Where its north side stands.", "at north wall")
    east_west: Height | None = Field(
        default=None,
        alias="east-west",
        description="How far it reaches from west to east.",
        examples=["2'-6\""],
    )
    north_south: Height | None = Field(
        default=None,
        alias="north-south",
        description="How far it reaches from south to north.",
        examples=["4'"],
    )


class SoffitPart(BoxPart):
    """A soffit or a dropped part of a ceiling."""

    room: Name = Field(description="The room it hangs in.", examples=["kitchen"])
    bottom: Height = Field(description="Its underside above the subfloor.", examples=["7'-0\""])


class HatchPart(BoxPart):
    """An opening in a ceiling."""

    room: Name = Field(description="The room below it.", examples=["hall"])


class ReservedPart(BoxPart):
    """Space kept free for a later trade."""

    trade: FreeText = Field(description="For whom it is kept.", examples=["electrician", "plumber"])
    bottom: TapeLength | None = says("Its bottom above the subfloor; 0 when not written.", '0"')
    top: Height = Field(description="Its top above the subfloor.", examples=["6'-6\""])


class WetPart(Part):
    """A wet stretch of one or more walls of a room."""

    room: Name = Field(description="The room it is seen in.", examples=["bath"])
    board: Name = Field(
        description="none where nothing is hung (behind a tub surround), otherwise the kind of board.",
        examples=["none", "wet-area"],
    )
    bottom: TapeLength | None = says("Its bottom above the subfloor; 0 when not written.", '0"')
    top: Height = Field(description="Its top above the subfloor.", examples=["6'-6\""])
    on: Annotated[dict[Name, StretchOfWall], Field(min_length=1, max_length=20)] = Field(
        description="The walls it is on, each with how wide and from which end of what is seen in the room."
    )


class FoundationPart(Part):
    """What waits at the far end."""

    kind: FoundationWord | None = says("basement when not written.", "crawl space")
    panel_corner: Corner | None = says("The corner where the electrical panel will be.", "northwest")
