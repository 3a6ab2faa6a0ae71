"""The pictures of a timetable for the pages: once for a wide screen and paper, once for a phone."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from setday.drawing import LANDSCAPE, PHONE, Paper
from setday.web.houses.drawings import Drawings

if TYPE_CHECKING:
    from setday.actions.timetable.solving import Timetable

__all__ = ["next_drawings", "places_drawings", "tasks_drawings", "twice"]

_PUSHED = replace(PHONE, width=760)
"""Twice a phone: words stay readable, and the picture is pushed sideways under the thumb."""
_HELD = replace(PHONE, width=316)
"""What a sheet leaves free on the narrowest phone."""
_DAYS = 14
_IDS = re.compile(r'( id="|url\(#|href="#)')
_NAMED = re.compile(r'( aria-(?:labelledby|describedby)=")([^"]*)')
_ROWS = 40


def twice(draw: Callable[[Paper], str]) -> Drawings:
    """Draw for wide paper and for a phone; the ids of the two stay apart."""
    return Drawings(wide=draw(LANDSCAPE), phone=_apart(draw(_PUSHED)))


def _apart(svg: str) -> str:
    named = _NAMED.sub(lambda found: found[1] + " ".join(f"phone-{name}" for name in found[2].split()), svg)
    return _IDS.sub(r"\1phone-", named)


def tasks_drawings(timetable: "Timetable") -> Sequence[Drawings]:
    """Draw every task over time, so many on a picture."""
    from setday.actions.timetable.pictures import tasks_pictures

    wide = tasks_pictures(timetable, rows=_ROWS)
    narrow = tasks_pictures(timetable, rows=_ROWS, paper=_PUSHED)
    return [Drawings(wide=one, phone=_apart(other)) for one, other in zip(wide, narrow, strict=True)]


def places_drawings(timetable: "Timetable") -> Drawings:
    """Draw which trade is in which place over time."""
    from setday.actions.timetable.pictures import places_picture

    return twice(lambda paper: places_picture(timetable, paper=paper))


def next_drawings(timetable: "Timetable") -> Sequence[str]:
    """Draw the next two weeks for a phone at a size that needs no pushing: tasks, then places."""
    from setday.actions.timetable.pictures import places_picture, tasks_pictures

    tasks = tasks_pictures(timetable, rows=_ROWS, paper=_HELD, days=_DAYS)
    places = [places_picture(timetable, paper=_HELD, days=_DAYS)] if tasks else []
    return [_apart(each) for each in (*tasks, *places)]
