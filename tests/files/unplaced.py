"""Comparing what was read without where it was read."""

from dataclasses import fields, is_dataclass, replace
from typing import Any

from setday.findings import Where


def unplaced(value: Any) -> Any:
    """Return the same frozen value with every place in a file forgotten."""
    if isinstance(value, tuple):
        return tuple(unplaced(each) for each in value)
    if isinstance(value, Where):
        return Where()
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{field.name: unplaced(getattr(value, field.name)) for field in fields(value)})
    return value
