"""Which limits for minors hold at a house: those its class file sets aside, as the timetable reads them."""

from typing import TYPE_CHECKING

from setday.errors import SetdayError
from setday.web.keeping.class_files import class_file_of
from setday.web.keeping.models import House

if TYPE_CHECKING:
    from setday.roster import LimitRules

__all__ = ["limits_of"]


def limits_of(house: House) -> "LimitRules | None":
    """Return what the class file of a house sets aside, and why; None without one: every limit holds.

    A class file that cannot be used sets nothing aside.
    """
    from setday.web.timetable.figured import plan_of

    kept = class_file_of(house)
    if kept is None:
        return None
    try:
        return plan_of(kept).limits
    except SetdayError:
        return None
