"""The kinds of devices and cables: their terminals, their contacts, their colors."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from setday.electric import BARE, CableKind, cable_kind, cable_kinds

__all__ = [
    "BARE",
    "GREEN",
    "CableKind",
    "Contact",
    "DeviceKind",
    "DeviceShape",
    "LoadPart",
    "cable_kind",
    "cable_kinds",
    "contacts_closed",
    "position_words",
    "shape_of",
]

PACKAGE = "setday.switching"
GREEN = "green"
"""The terminal of the equipment ground on a device."""


class DeviceKind(StrEnum):
    """What is put in a box."""

    SINGLE_POLE = "single-pole switch"
    THREE_WAY = "three-way switch"
    FOUR_WAY = "four-way switch"
    LAMP = "lamp"
    RECEPTACLE = "receptacle"

    @property
    def is_switch(self) -> bool:
        """True for the three kinds of switches."""
        return self in (DeviceKind.SINGLE_POLE, DeviceKind.THREE_WAY, DeviceKind.FOUR_WAY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """A path through a switch, closed when the handle is down (off), up (on), or both."""

    first: str
    second: str
    when_down: bool
    when_up: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadPart:
    """A load between two terminals; `part` is empty where the device is one load."""

    part: str
    first: str
    second: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceShape:
    """Terminals, contacts, loads and break-off tabs of a kind of device."""

    terminals: tuple[str, ...]
    contacts: tuple[Contact, ...] = ()
    loads: tuple[LoadPart, ...] = ()
    tabs: tuple[tuple[str, str], ...] = ()


def _contact(first: str, second: str, *, up: bool) -> Contact:
    return Contact(first=first, second=second, when_down=not up, when_up=up)


_SHAPES: Mapping[DeviceKind, DeviceShape] = {
    DeviceKind.SINGLE_POLE: DeviceShape(
        terminals=("brass 1", "brass 2", GREEN), contacts=(_contact("brass 1", "brass 2", up=True),)
    ),
    DeviceKind.THREE_WAY: DeviceShape(
        terminals=("common", "traveler 1", "traveler 2", GREEN),
        contacts=(_contact("common", "traveler 1", up=True), _contact("common", "traveler 2", up=False)),
    ),
    DeviceKind.FOUR_WAY: DeviceShape(
        terminals=("in 1", "in 2", "out 1", "out 2", GREEN),
        contacts=(
            _contact("in 1", "out 1", up=True),
            _contact("in 2", "out 2", up=True),
            _contact("in 1", "out 2", up=False),
            _contact("in 2", "out 1", up=False),
        ),
    ),
    DeviceKind.LAMP: DeviceShape(
        terminals=("brass", "silver", GREEN), loads=(LoadPart(part="", first="brass", second="silver"),)
    ),
    DeviceKind.RECEPTACLE: DeviceShape(
        terminals=("upper brass", "lower brass", "upper silver", "lower silver", GREEN),
        loads=(
            LoadPart(part="upper", first="upper brass", second="upper silver"),
            LoadPart(part="lower", first="lower brass", second="lower silver"),
        ),
        tabs=(("upper brass", "lower brass"), ("upper silver", "lower silver")),
    ),
}


def shape_of(kind: DeviceKind) -> DeviceShape:
    """Return terminals, contacts, loads and tabs of a kind of device.

    Examples
    --------
    >>> shape_of(DeviceKind.THREE_WAY).terminals
    ('common', 'traveler 1', 'traveler 2', 'green')
    """
    return _SHAPES[kind]


def contacts_closed(kind: DeviceKind, handle: int) -> tuple[tuple[str, str], ...]:
    """Return which terminals a switch joins with its handle down (0) or up (1).

    Examples
    --------
    >>> contacts_closed(DeviceKind.THREE_WAY, 1)
    (('common', 'traveler 1'),)
    """
    contacts = shape_of(kind).contacts
    return tuple((c.first, c.second) for c in contacts if (c.when_up if handle else c.when_down))


def position_words(kind: DeviceKind) -> tuple[str, str]:
    """Return the words for the two positions of a switch, the handle down first."""
    return ("off", "on") if kind is DeviceKind.SINGLE_POLE else ("down", "up")
