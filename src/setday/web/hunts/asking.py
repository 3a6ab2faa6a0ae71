"""What a crew asks of its house, from the form of its sheet."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.switching import Flip, Hookup, Measure, Meter, Point

if TYPE_CHECKING:
    from setday.actions.switching.hunts import CrewLog
    from setday.switching import HuntGround, Planted

__all__ = ["CannotAsk", "handles_in", "taken", "the_points"]

READY = "dead"


class CannotAsk(SetdayError):
    """What was asked cannot be done as it stands; said in the reader's language."""


def handles_in(form: Mapping[str, str], hookup: Hookup) -> tuple[int, ...]:
    """Return where the handles of a form stand.

    Raises
    ------
    CannotAsk
        When a handle is missing.
    """
    found = [form.get(f"handle-{place}", "") for place in range(len(hookup.switches))]
    if any(each not in {"0", "1"} for each in found):
        raise CannotAsk(_("Say for every switch where its handle is."))
    return tuple(int(each) for each in found)


def the_points(form: Mapping[str, str], hookup: Hookup, place: int) -> tuple[Point, Point]:
    """Return the two points named for a box, the box by its place in the hookup.

    Raises
    ------
    CannotAsk
        When one is missing, or both are the same.
    """
    if place >= len(hookup.boxes):
        raise CannotAsk(_("There is no such box."))
    here = {str(point): point for point in hookup.points_in(hookup.boxes[place].name)}
    first, second = (here.get(form.get(f"{end}-{place}", "")) for end in ("first", "second"))
    if first is None or second is None:
        raise CannotAsk(_("Choose two points of the box."))
    if first == second:
        raise CannotAsk(_("Both ends of the meter are on one point. Choose two different points."))
    return first, second


def taken(form: Mapping[str, str], log: "CrewLog", *, ground: "HuntGround", planted: "Planted") -> "CrewLog":
    """Return the log of a crew after what its form asks.

    Parameters
    ----------
    form : mapping of str to str
        ``do`` is ``look``, or ``open``, ``dead`` or ``live`` with the place of a box after a colon.
    log : CrewLog
    ground : HuntGround
    planted : Planted

    Raises
    ------
    CannotAsk
    """
    from setday.actions.switching.hunts import asked, box_opened

    hookup = ground.circuit.hookup
    do, _colon, box = form.get("do", "").partition(":")
    position = handles_in(form, hookup)
    if do == "look":
        return asked(log, Flip(position=position), ground=ground, planted=planted)
    if do not in {"open", "dead", "live"} or not (box.isdecimal() and len(box) < 4):
        raise CannotAsk(_("Press one of the buttons of the sheet."))
    place = int(box)
    if do == "open":
        if place >= len(hookup.boxes):
            raise CannotAsk(_("There is no such box."))
        if form.get(f"{READY}-{place}") != "yes":
            raise CannotAsk(_("Before a box is opened: breaker off, locked, tested dead. Tick it when done."))
        return box_opened(log, hookup.boxes[place].name, hookup)
    first, second = the_points(form, hookup, place)
    if first.box not in log.opened:
        raise CannotAsk(_("This box is closed. Open it first."))
    meter = Meter.DEAD if do == "dead" else Meter.LIVE
    test = Measure(position=position, meter=meter, first=first, second=second)
    return asked(log, test, ground=ground, planted=planted)
