"""Files and their formats, to and from the core."""

from setday.files.hookup import (
    HookupFile,
    read_hookup,
    read_observation,
    read_position,
    write_hookup,
    write_observation,
)
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
    "HookupFile",
    "HouseFile",
    "draft_house",
    "house_schema",
    "read_hookup",
    "read_house",
    "read_observation",
    "read_position",
    "write_hookup",
    "write_house",
    "write_observation",
]
