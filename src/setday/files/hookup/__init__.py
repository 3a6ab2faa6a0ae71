"""The hookup file: YAML text to the core and back."""

from setday.files.hookup.observed import read_observation, read_position, read_test, write_observation
from setday.files.hookup.reading import HookupFile, read_hookup
from setday.files.hookup.writing import write_hookup

__all__ = [
    "HookupFile",
    "read_hookup",
    "read_observation",
    "read_position",
    "read_test",
    "write_hookup",
    "write_observation",
]
