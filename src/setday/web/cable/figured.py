"""The cable of a house, figured once while its file is the same."""

import time
from functools import lru_cache
from threading import Lock
from typing import TYPE_CHECKING

from setday.web.houses.opening import opened_text
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.models import HouseVersion

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable

__all__ = ["cable_of", "cable_of_version"]

_KEPT = 6
_one_at_a_time = Lock()


def cable_of(sheet: HouseSheet) -> "HouseCable":
    """Return the cable of the house on a sheet.

    Raises
    ------
    FileProblem
        When the file names no place for the panel.
    """
    return cable_of_version(sheet.version)


def cable_of_version(version: HouseVersion) -> "HouseCable":
    """Return the cable of a version of a house.

    Raises
    ------
    FileProblem
        When the file names no place for the panel.
    """
    with _one_at_a_time:  # whoever asks second finds it done
        return _figured(version.text, version.file_name)


@lru_cache(maxsize=_KEPT)
def _figured(text: str, name: str) -> "HouseCable":
    from setday.actions.cable.figured import figure_cable

    return figure_cable(opened_text(text, name), clock=time.monotonic)
