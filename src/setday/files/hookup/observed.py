"""What was seen and measured, as a person writes it down."""

import re

from setday.errors import SetdayError
from setday.files.hookup.phrases import Misread, read_point
from setday.switching import (
    Flip,
    Hookup,
    Look,
    Measure,
    Measured,
    Meter,
    Observation,
    Reading,
    Seen,
    Test,
    position_words,
)

__all__ = ["observation_in", "read_observation", "read_position", "read_test", "write_observation"]

_DEAD = (Reading.JOINED, Reading.THROUGH_LAMP, Reading.OPEN)
_LIVE = (Reading.FULL, Reading.PART, Reading.NONE)


def read_position(text: str, hookup: Hookup) -> tuple[int, ...]:
    """Read "S1 up, S2 down"; every switch must be named once.

    Raises
    ------
    Misread
    """
    states: dict[str, int] = {}
    for part in filter(None, (each.strip() for each in text.split(","))):
        switch = next((s for s in hookup.switches if part.lower().startswith(f"{s.name.lower()} ")), None)
        if switch is None:
            names = ", ".join(s.name for s in hookup.switches)
            raise Misread(
                f"'{part}' names no switch.",
                f"a switch and its position; the switches are {names}.",
                "Write it like S1 up.",
            )
        words = position_words(switch.kind)
        word = {"up": words[1], "down": words[0], "on": words[1], "off": words[0]}.get(
            part[len(switch.name) :].strip().lower(), ""
        )
        if not word:
            raise Misread(
                f"'{part}' is no position.", f"{words[0]} or {words[1]}.", "Write where the handle is."
            )
        states[switch.name] = words.index(word)
    missing = [s.name for s in hookup.switches if s.name not in states]
    if missing:
        raise Misread(
            f"the position of {', '.join(missing)} is missing.",
            "every switch with its position.",
            "Add it; what a lamp does depends on all of them.",
        )
    return tuple(states[s.name] for s in hookup.switches)


def read_observation(text: str, hookup: Hookup) -> Observation:
    """Read one line of what was observed.

    Raises
    ------
    SetdayError
        Saying what was found, and what was expected.
    """
    try:
        return observation_in(text, hookup)
    except Misread as error:
        raise SetdayError(f"{error.found} Expected: {error.expected}", do=error.do) from error


def read_test(text: str, hookup: Hookup) -> Test:
    """Read what is asked for: "S1 up, S2 down", or "S1 up, S2 down: dead, A to B in BOX".

    Raises
    ------
    SetdayError
        Saying what was found, and what was expected.
    """
    position_part, _, rest = text.partition(":")
    try:
        position = read_position(position_part if hookup.switches else "", hookup)
        match = re.fullmatch(r"\s*(dead|live),\s*(.+?) to (.+?) in (.+?)\s*", rest, re.IGNORECASE)
        if rest.strip() and not match:
            raise Misread(
                f"'{rest.strip()}' is no reading.",
                "dead, S1 common to feed black in near.",
                "Write dead or live, two points, and their box.",
            )
        return _measure(position, match, hookup) if match else Flip(position=position)
    except Misread as error:
        raise SetdayError(f"{error.found} Expected: {error.expected}", do=error.do) from error


def observation_in(text: str, hookup: Hookup) -> Observation:
    """Read one line of what was observed.

    Raises
    ------
    Misread
    """
    position_part, colon, rest = text.partition(":")
    if not colon:
        raise Misread(
            f"'{text}' says no result.",
            "S1 up, S2 down: L1 off.",
            "Write the positions, a colon, and what was seen.",
        )
    position = read_position(position_part if hookup.switches else "", hookup)
    rest = rest.strip()
    if match := re.fullmatch(r"(dead|live),\s*(.+?) to (.+?) in (.+):\s*(.+)", rest, re.IGNORECASE):
        return _measured(position, match, hookup)
    if re.fullmatch(r"breaker (opens|trips|opened|tripped)", rest.lower()):
        return Seen(position=position, breaker_opens=True)
    return Seen(position=position, looks=tuple(_look(part.strip(), hookup) for part in rest.split(",")))


def _look(text: str, hookup: Hookup) -> tuple[str, Look]:
    load, _, word = text.rpartition(" ")
    word = {"on": "full", "lit": "full", "dark": "off"}.get(word.lower(), word.lower())
    if load not in hookup.loads:
        raise Misread(
            f"there is no lamp or receptacle half '{load}'.",
            f"one of {', '.join(hookup.loads)}.",
            "Write it like L1 off.",
        )
    if word not in set(Look):
        raise Misread(f"'{word}' is not what a lamp does.", "full, dim or off.", "Write one of these.")
    return load, Look(word)


def _measured(position: tuple[int, ...], match: re.Match[str], hookup: Hookup) -> Measured:
    measure = _measure(position, match, hookup)
    words = _DEAD if measure.meter is Meter.DEAD else _LIVE
    said = match[5].strip().lower()
    if said not in set(words):
        raise Misread(
            f"'{said}' is no {measure.meter} reading.", f"{', '.join(words)}.", "Write one of these."
        )
    return Measured(test=measure, reading=Reading(said))


def _measure(position: tuple[int, ...], match: re.Match[str], hookup: Hookup) -> Measure:
    box = match[4].strip()
    boxes = [each.name for each in hookup.boxes]
    if box not in boxes:
        raise Misread(f"there is no box '{box}'.", f"one of {', '.join(boxes)}.", "Check its name.")
    points = [read_point(match[n], box, hookup) for n in (2, 3)]
    here = hookup.points_in(box)
    for point in points:
        if point not in here:
            raise Misread(
                f"box '{box}' holds no {point}.", f"one of {', '.join(map(str, here))}.", "Check the name."
            )
    return Measure(position=position, meter=Meter(match[1].lower()), first=points[0], second=points[1])


def write_observation(observation: Observation, hookup: Hookup) -> str:
    """Write an observation as `read_observation` reads it."""
    position = observation.test.position if isinstance(observation, Measured) else observation.position
    words = ", ".join(
        f"{switch.name} {position_words(switch.kind)[state]}"
        for switch, state in zip(hookup.switches, position, strict=True)
    )
    if isinstance(observation, Measured):
        test = observation.test
        return (
            f"{words}: {test.meter}, {test.first} to {test.second} in {test.first.box}: {observation.reading}"
        )
    if observation.breaker_opens:
        return f"{words}: breaker opens"
    return f"{words}: " + ", ".join(f"{load} {look}" for load, look in observation.looks)
