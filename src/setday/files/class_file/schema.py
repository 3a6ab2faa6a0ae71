"""The JSON Schema of the class file, for editors."""

from typing import Any

from setday.files.class_file.shape import ClassPart
from setday.files.written.schema import published

__all__ = ["class_schema"]


def class_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a class file; days are text."""
    return published(
        ClassPart,
        title="Setday class file",
        description="The classes that build one house: students, calendar, places, rates and typed tasks.",
    )
