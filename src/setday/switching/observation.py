"""What was seen and measured on a hookup, and what could be asked of it next."""

from dataclasses import dataclass
from enum import StrEnum

from setday.switching.hookup import Hookup, LoadName, Point, position_text
from setday.switching.trial import Look

__all__ = ["Flip", "Measure", "Measured", "Meter", "Observation", "Reading", "Seen", "Test", "test_words"]


class Meter(StrEnum):
    """How a reading is taken."""

    DEAD = "dead"
    """Continuity, with the breaker locked off and the circuit tested dead."""
    LIVE = "live"
    """Voltage, by the instructor only."""


class Reading(StrEnum):
    """What the meter shows: the first three with the circuit dead, the last three live."""

    JOINED = "joined"
    THROUGH_LAMP = "through a lamp"
    OPEN = "open"
    FULL = "full"
    PART = "part"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Flip:
    """Set the switches so, and look at the lamps."""

    position: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Measure:
    """Set the switches so, and measure between two points of one box."""

    position: tuple[int, ...]
    meter: Meter
    first: Point
    second: Point


Test = Flip | Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What the lamps did in a position; loads not named were not looked at."""

    position: tuple[int, ...]
    breaker_opens: bool = False
    looks: tuple[tuple[LoadName, Look], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What the meter showed."""

    test: Measure
    reading: Reading


Observation = Seen | Measured


def test_words(hookup: Hookup, test: Test) -> str:
    """Return a test as a person would be asked to do it."""
    position = position_text(hookup, test.position)
    if isinstance(test, Flip):
        return f"Set {position}; look at the lamps."
    if test.meter is Meter.DEAD:
        how = "breaker locked off and tested dead, read continuity"
    else:
        how = "the instructor reads voltage"
    return f"Open box '{test.first.box}', set {position}; {how} from {test.first} to {test.second}."
