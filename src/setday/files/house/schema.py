"""The JSON Schema of the house file, for editors."""

from typing import Any

from setday.files.house.shape import HousePart
from setday.files.written.schema import published

__all__ = ["house_schema"]


def house_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a house file as YAML 1.2 reads it."""
    return published(
        HousePart,
        title="Setday house file",
        description="One house: its walls, openings, rooms, ceilings and boards.",
    )
