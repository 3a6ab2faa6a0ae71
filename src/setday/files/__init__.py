"""Files and their formats, to and from the core."""

from setday.files.house import (
    LARGEST_BYTES,
    Change,
    HouseFile,
    draft_house,
    house_schema,
    read_house,
    write_house,
)

__all__ = [
    "LARGEST_BYTES",
    "Change",
    "HouseFile",
    "draft_house",
    "house_schema",
    "read_house",
    "write_house",
]
