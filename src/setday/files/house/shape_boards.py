"""The boards and local rules of a house file: keys and what they mean."""

from typing import Annotated, Any

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema

from setday.files.house.scalars import Depth, Factor, Height, Layers, OffcutWord, RowsWord
from setday.files.written.fields import FreeText, Name
from setday.files.written.part import Part, or_text, says

__all__ = ["BoardsPart", "ChoicePart", "LocalPart"]


class ChoicePart(Part):
    """Which board some surfaces take; a later choice wins over an earlier one."""

    room: Name | None = says("A room; every room when not written.", "bath")
    on: Name | None = says(
        "walls, ceilings, or one surface; everything when not written.", "ceilings", "bath/north"
    )
    kind: Name | None = says("Kind of board without its thickness.", "regular", "sag-resistant", "wet-area")
    thickness: Depth | None = says("Thickness of the board.", '1/2"', '5/8"')
    layers: Layers | None = says("Layers of board; 0 leaves it bare.", "2")
    rows: RowsWord | None = says(
        "The way the long side of the boards runs: along the surface, across its framing; or across it.",
        "along",
    )


class BoardsPart(Part):
    """What the instructor chose about boards."""

    choices: Annotated[list[ChoicePart], Field(max_length=200)] | None = says("Which board goes where.")
    carry_in: dict[Name, Height] | None = says("The longest board that can be carried into a room.")
    hanging_days: (
        Annotated[list[Annotated[list[Name], Field(max_length=200)]], Field(max_length=200)] | None
    ) = says("The rooms hung on the first day, on the second, and so on.")
    offcuts: OffcutWord | None = Field(
        default=None,
        alias="off-cuts",
        description="How far an off-cut may travel from the surface its board was cut for.",
        examples=["whole house"],
    )
    class_factor: Factor | None = says(
        "Hours of this class for one hour of the published crew; 1 when not written.", "2.5"
    )


class LocalPart(Part):
    """A rule set for this house."""

    value: FreeText = Field(description="The value that holds for this house.", examples=['16"'])
    said_by: FreeText | None = says("Who said so, and when.", "building department, by telephone, 4 March")

    @model_validator(mode="before")
    @classmethod
    def text_is_the_value(cls, value: Any) -> Any:
        """Take a value written on one line."""
        return {"value": value} if isinstance(value, str) else value

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return or_text(handler(core_schema), '16"')
