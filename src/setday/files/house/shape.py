"""The shape of a house file: its sections.

The JSON Schema, the findings on unknown or missing keys and docs/house-file.md all follow from here.
"""

from typing import Annotated

from pydantic import Field

from setday.files.house.scalars import Change
from setday.files.house.shape_boards import BoardsPart, LocalPart
from setday.files.house.shape_counters import CounterPart
from setday.files.house.shape_devices import CircuitPart, DevicePart, WiringPart
from setday.files.house.shape_rooms import (
    BoxPart,
    CeilingPart,
    FoundationPart,
    HatchPart,
    ReservedPart,
    RoomPart,
    SoffitPart,
    WetPart,
)
from setday.files.house.shape_walls import KindPart, NotedPart, OpeningPart, OutsidePart, WallPart
from setday.files.written.fields import FreeText, Name
from setday.files.written.kind import FileKind
from setday.files.written.part import Part, says

__all__ = ["HOUSE_FILE", "HousePart"]


class HousePart(Part):
    """The whole house file."""

    setday_house: FreeText = Field(description="The form of this file; 1.", examples=["1"])
    name: FreeText = Field(description="What the house is called.", examples=["Practice shed"])
    unless_noted: NotedPart | None = says("What holds everywhere unless an entry says otherwise.")
    wall_kinds: Annotated[dict[Name, KindPart], Field(min_length=1, max_length=50)] = Field(
        description="The build-ups of wall, by name."
    )
    outside_walls: OutsidePart | None = says("The outside walls, walking round the house.")
    walls: dict[Name, WallPart] | None = says("Every wall typed by itself, by name.")
    openings: dict[Name, OpeningPart] | None = says("Doors, windows and cased openings, by name.")
    rooms: dict[Name, RoomPart] | None = says("The rooms, by name; rooms are hung in this order.")
    ceilings: dict[Name, CeilingPart] | None = says("The ceilings that differ, by the name of their room.")
    soffits: dict[Name, SoffitPart] | None = says("Soffits and dropped parts of ceilings, by name.")
    hatches: dict[Name, HatchPart] | None = says("Openings in ceilings, by name.")
    wet_areas: dict[Name, WetPart] | None = says("Wet stretches of walls, by name.")
    floor_holes: dict[Name, BoxPart] | None = says("Holes in the floor, for stairs or a chase, by name.")
    reserved: dict[Name, ReservedPart] | None = says("Space kept free for later trades, by name.")
    as_built: dict[Name, Annotated[list[Change], Field(max_length=200)]] | None = says(
        "What was built otherwise than derived, by wall."
    )
    foundation: FoundationPart | None = says("What waits at the far end.")
    devices: dict[Name, DevicePart] | None = says("Receptacles, switches, lights and the like, by name.")
    circuits: dict[Name, CircuitPart] | None = says("The circuits, by name.")
    wiring: WiringPart | None = says("The panel, and what holds for all cable.")
    counters: dict[Name, CounterPart] | None = says("Work surfaces: where receptacles stand over them.")
    boards: BoardsPart | None = says("What was chosen about boards.")
    local_rules: dict[Name, LocalPart] | None = says("Rules set for this house, by their keys.")


_CALLED = {
    ("outside walls", "walk"): "wall '{}'",
    ("walls",): "wall '{}'",
    ("wall kinds",): "wall kind '{}'",
    ("openings",): "opening '{}'",
    ("rooms",): "room '{}'",
    ("ceilings",): "ceiling of '{}'",
    ("soffits",): "soffit '{}'",
    ("hatches",): "hatch '{}'",
    ("wet areas",): "wet area '{}'",
    ("floor holes",): "floor hole '{}'",
    ("reserved",): "reserved space '{}'",
    ("as built",): "as built: wall '{}'",
    ("local rules",): "local rule '{}'",
    ("devices",): "device '{}'",
    ("circuits",): "circuit '{}'",
    ("counters",): "counter '{}'",
}
HOUSE_FILE = FileKind(
    name="house file",
    mark="setday house",
    form="1",
    guide="docs/house-file.md",
    start=", or start from a copy of the practice shed",
    shape=HousePart,
    called=_CALLED,
)
"""What Setday reads as a house file."""
