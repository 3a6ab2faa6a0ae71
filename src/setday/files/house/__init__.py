"""The house file: YAML text to the core and back."""

from setday.files.house.arriving import LARGEST_BYTES
from setday.files.house.drafting import draft_house
from setday.files.house.drafting_devices import add_devices
from setday.files.house.reading import HouseFile, read_house
from setday.files.house.schema import house_schema
from setday.files.house.writing import Change, write_house

__all__ = [
    "LARGEST_BYTES",
    "Change",
    "HouseFile",
    "add_devices",
    "draft_house",
    "house_schema",
    "read_house",
    "write_house",
]
