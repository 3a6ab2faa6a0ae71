"""The house file: YAML text to the core and back."""

from setday.files.house.drafting import draft_house
from setday.files.house.drafting_devices import add_devices
from setday.files.house.reading import HouseFile, read_house
from setday.files.house.schema import house_schema

__all__ = [
    "HouseFile",
    "add_devices",
    "draft_house",
    "house_schema",
    "read_house",
]
