"""Drawings of a hookup at rest, for a wide screen and for a phone."""

from typing import TYPE_CHECKING

from setday.web.houses.drawings import Drawings

if TYPE_CHECKING:
    from setday.switching import Hookup

__all__ = ["rest_pictures"]


def rest_pictures(hookup: "Hookup", *, key: str) -> Drawings:
    """Return the drawing of a hookup in no position of its switches."""
    from setday.drawing import hookup_diagram

    return Drawings(
        wide=hookup_diagram(hookup, key=key), phone=hookup_diagram(hookup, columns=1, key=f"{key}-phone")
    )
