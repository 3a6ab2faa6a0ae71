"""The walls and openings of a house file: keys and what they mean."""

from typing import Annotated, Any

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema

from setday.files.house.scalars import (
    AlongWall,
    Compass,
    Depth,
    Height,
    Jacks,
    LegText,
    OpeningSize,
    PlanPlace,
    PlanPoint,
    Plates,
    TapeLength,
    Top,
    WalkedLine,
    WallEnd,
    WallLineWord,
    Way,
)
from setday.files.written.fields import Name, YesNo
from setday.files.written.part import Part, or_text, says

__all__ = ["FramedPart", "KindPart", "LegPart", "NotedPart", "OpeningPart", "OutsidePart", "WallPart"]


class NotedPart(Part):
    """What holds everywhere unless an entry says otherwise."""

    wall_height: Height | None = says("Top of the top plate above the subfloor.", "8'-1 1/8\"")
    wall_kind: Name | None = says("Kind of the walls that name none.", "partition")
    stud_spacing: Height | None = says('Studs on centre; 16" when not written.', '16"')
    ceiling_height: Height | None = says(
        "Underside of the ceiling framing above the subfloor; the wall height when not written.", "8'-1 1/8\""
    )
    ceiling_framing: Way | None = says("The way joists, rafters or trusses run.", "north-south")
    ceiling_spacing: Height | None = says('Ceiling framing on centre; 24" when not written.', '24"')
    window_head: Height | None = says(
        "Top of a window's rough opening above the subfloor; 6'-10 1/2\" when not written.", "6'-10 1/2\""
    )
    door_allowance: OpeningSize | None = says(
        'What a door\'s rough opening is wider and taller than the door; 2" x 2 1/2" when not written.',
        '2" x 2 1/2"',
    )
    window_allowance: OpeningSize | None = says(
        'What a window\'s rough opening is wider and taller than the window; 1/2" x 1/2" when not written.',
        '1/2" x 1/2"',
    )
    cased_allowance: OpeningSize | None = says(
        'What the framing of a cased opening is wider and taller than its size; 0" x 0" when not written.',
        '1 1/2" x 3/4"',
    )
    jacks: Jacks | None = says("Jack studs on each side of an opening; 1 when not written.", "1")
    header: Depth | None = says("Depth of headers over openings.", "2x10", '9 1/4"')
    receptacle_height: Height | None = says(
        'Receptacles on walls, centre of the box above the subfloor; 16" when not written.', '16"'
    )
    switch_height: Height | None = says(
        'Switches, centre of the box above the subfloor; 48" when not written.', '48"'
    )


class KindPart(Part):
    """A build-up of wall."""

    studs: Depth = Field(description="Studs by their nominal size, or their depth.", examples=["2x4", "2x6"])
    outside: YesNo | None = says(
        "Weather on one side: boards on the inner side only; no when not written.", "yes"
    )
    bearing: YesNo | None = says("Carries floor or roof; no when not written.", "yes")
    stud_spacing: Height | None = says("Studs on centre in walls of this kind.", '16"', '24"')
    bottom_plates: Plates | None = says("Number of bottom plates; 1 when not written.", "1")
    top_plates: Plates | None = says("Number of top plates; 2 when not written.", "2")


class FramedPart(Part):
    """What every wall can say, walked or typed by itself."""

    kind: Name | None = says("Its wall kind.", "partition")
    height: Height | None = says("Top of the top plate above the subfloor.", "8'-1 1/8\"")
    peak: Top | None = says(
        "For a gable: the highest point of its top; both ends have the wall's height.",
        "12'-1\" in the middle",
        "12'-1\" at 14'-3\"",
    )
    top: Annotated[list[Top], Field(max_length=20)] | None = says(
        "For any other sloping top: its points from the start to the end."
    )
    stud_spacing: Height | None = says("Studs on centre in this wall.", '24"')
    layout_from: Name | None = says(
        "The end the stud layout starts from; the wall's start when not written.", "east end"
    )
    first_stud: Height | None = says(
        "Centre of the first layout stud from that end; one spacing when not written.", '15 1/4"'
    )


class LegPart(FramedPart):
    """One outside wall: one leg of the walk, in full."""

    go: LegText = Field(description="The leg.", examples=["east 14'-6\"", "back to start"])

    @model_validator(mode="before")
    @classmethod
    def text_is_the_leg(cls, value: Any) -> Any:
        """Take a leg written on one line."""
        return {"go": value} if isinstance(value, str) else value

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return or_text(handler(core_schema), "east 14'-6\"", "back to start")


class OutsidePart(Part):
    """The outside walls, walking round the house."""

    kind: Name | None = says("Wall kind of the walls that name none.", "outside wall")
    line: WalkedLine | None = says(
        "The line walked: which line of the framing; outside face when not written.", "outside face"
    )
    start: PlanPoint | None = says("Where the walk begins; [0', 0'] when not written.", "0' east, 0' north")
    walk: Annotated[dict[Name, LegPart], Field(min_length=1, max_length=200)] = Field(
        description="The walls in order, each with its leg; the last leg ends where the first began."
    )


class WallPart(FramedPart):
    """A wall typed by itself: by tape from other walls, or by two points."""

    runs: Compass | None = says("The way it runs from its start to its end.", "east")
    north_face: PlanPlace | None = says("Where its north face stands.", "8'-2\" north of south wall")
    south_face: PlanPlace | None = says("Where its south face stands.", "8'-2\" north of south wall")
    east_face: PlanPlace | None = says("Where its east face stands.", "12'-4\" east of west wall")
    west_face: PlanPlace | None = says("Where its west face stands.", "12'-4\" east of west wall")
    center: PlanPlace | None = says("Where its centre line stands.", "12'-4\" east of west wall")
    start: WallEnd | None = Field(
        default=None,
        alias="from",
        description="Where it starts: the wall it meets, a place by tape, or a point.",
        examples=["west wall", "3' east of west wall", "4' east, 0' north"],
    )
    to: WallEnd | None = says(
        "Where it ends: the wall it meets, a place by tape, or a point.", "hall wall", "9' east of west wall"
    )
    length: Height | None = says("How long it is, in place of `to`.", "6'-2\"")
    line: WallLineWord | None = says(
        "For a wall by two points: which line they give, looking from start to end; center when not written.",
        "center",
    )


class OpeningPart(Part):
    """A door, a window or a cased opening."""

    wall: Name = Field(description="The wall it stands in.", examples=["south wall"])
    door: OpeningSize | None = says(
        "A door of this size.", "3'-0\" x 6'-8\"", "3068", "rough 3'-2\" x 6'-10 1/2\""
    )
    window: OpeningSize | None = says("A window of this size.", "4'-0\" x 3'-6\"")
    cased: OpeningSize | None = says("An opening without a door.", "4'-0\" x 6'-8\"")
    center: AlongWall | None = says("Its centre along the wall.", "5'-3\" from west end")
    near_side: AlongWall | None = says(
        "The side of its rough opening nearer to where the tape was held.", "4'-2\" from bath wall"
    )
    sill: TapeLength | None = says("Bottom of a window's rough opening above the subfloor.", "3'-0\"")
    head: Height | None = says("Top of the rough opening above the subfloor.", "6'-10 1/2\"")
    jacks: Jacks | None = says("Jack studs on each side.", "2")
    header: Depth | None = says("Depth of its header.", "2x10")
