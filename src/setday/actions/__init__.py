"""One function for each thing a user does; the terminal and the browser both call these.

What a house file needs to be read loads when it is first asked for, so that the site and the command
start quickly.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from setday.actions.houses import OpenHouse, demo_names, demo_text, open_house

__all__ = ["OpenHouse", "demo_names", "demo_text", "open_house"]


def __getattr__(name: str) -> object:
    """Load what opens houses when it is first asked for."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from setday.actions import houses

    return getattr(houses, name)
