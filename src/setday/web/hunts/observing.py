"""What was observed in a real house, typed through the page."""

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext as _

from setday.switching import (
    Flip,
    Hookup,
    Look,
    Measure,
    Measured,
    Meter,
    Observation,
    Point,
    Reading,
    Seen,
    Test,
    position_words,
)
from setday.web.hunts.asking import CannotAsk, handles_in
from setday.web.hunts.said import front_word

__all__ = ["RESULTS", "observation_in", "observing_context"]

RESULTS = {
    Meter.DEAD: (Reading.JOINED, Reading.THROUGH_LAMP, Reading.OPEN),
    Meter.LIVE: (Reading.FULL, Reading.PART, Reading.NONE),
}
_LOOKS = (Look.FULL, Look.DIM, Look.OFF)


def observation_in(form: Mapping[str, str], hookup: Hookup) -> Observation:
    """Return what was observed, from the form of lamps or of a reading.

    Raises
    ------
    CannotAsk
        Saying what is missing.
    """
    position = handles_in(form, hookup)
    if form.get("add") == "reading":
        return _reading(form, hookup, position)
    if form.get("breaker") == "yes":
        return Seen(position=position, breaker_opens=True)
    looks = []
    for place, load in enumerate(hookup.loads):
        word = form.get(f"look-{place}", "")
        if word in set(Look):
            looks.append((load, Look(word)))
    if not looks:
        raise CannotAsk(_("Say what at least one lamp did, or tick that the breaker opened."))
    return Seen(position=position, looks=tuple(looks))


def _reading(form: Mapping[str, str], hookup: Hookup, position: tuple[int, ...]) -> Measured:
    points = {_value(point): point for box in hookup.boxes for point in hookup.points_in(box.name)}
    first, second = (points.get(form.get(end, "")) for end in ("first", "second"))
    if first is None or second is None:
        raise CannotAsk(_("Choose the two points the meter was on."))
    if first.box != second.box or first == second:
        raise CannotAsk(_("Choose two different points of one box."))
    meter, _colon, reading = form.get("result", "").partition(":")
    if meter not in set(Meter) or reading not in set(RESULTS[Meter(meter)]):
        raise CannotAsk(_("Choose what the meter showed."))
    test = Measure(position=position, meter=Meter(meter), first=first, second=second)
    return Measured(test=test, reading=Reading(reading))


def _value(point: Point) -> str:
    return f"{point.box}: {point}"


def observing_context(
    hookup: Hookup, *, proposed: Test | None, form: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """Return what the two forms show: what was typed, else the test proposed.

    Parameters
    ----------
    hookup : Hookup
    proposed : Flip or Measure or None
    form : mapping of str to str or None
        What was typed, where it is to be put right.
    """
    position = proposed.position if proposed else (0,) * len(hookup.switches)
    reading = proposed if isinstance(proposed, Measure) else None
    picked = (_value(reading.first), _value(reading.second)) if reading else ("", "")
    typed = form or {}
    return {
        "handles": [
            {
                "place": place,
                "switch": switch,
                "choices": [("1", front_word(words[1])), ("0", front_word(words[0]))],
                "chosen": typed.get(f"handle-{place}", str(position[place])),
            }
            for place, switch in enumerate(hookup.switches)
            for words in (position_words(switch.kind),)
        ],
        "loads": [(place, load, typed.get(f"look-{place}", "")) for place, load in enumerate(hookup.loads)],
        "looks": [(str(look), front_word(look.value)) for look in _LOOKS],
        "breaker": typed.get("breaker") == "yes",
        "point_groups": [
            (box.name, [(_value(point), str(point)) for point in hookup.points_in(box.name)])
            for box in hookup.boxes
        ],
        "first": typed.get("first", picked[0]),
        "second": typed.get("second", picked[1]),
        "results": [
            (meter, [(f"{meter}:{reading}", front_word(reading.value)) for reading in readings])
            for meter, readings in RESULTS.items()
        ],
        "result": typed.get("result", ""),
        "reading_proposed": reading is not None,
        "flip_proposed": isinstance(proposed, Flip),
    }
