"""The short phrases of devices and circuits, read into values."""

import re
from dataclasses import dataclass
from functools import cache

from setday.files.written.fields import Misread
from setday.files.written.notebook import nearest
from setday.house import DeviceKind
from setday.rules import load_table

__all__ = [
    "DeviceWord",
    "appliances",
    "read_amperes",
    "read_device",
    "read_load",
    "read_volts",
    "read_wire",
    "write_device",
]

_KINDS = {
    "receptacle": DeviceKind.RECEPTACLE,
    "outlet": DeviceKind.RECEPTACLE,
    "switch": DeviceKind.SWITCH,
    "light": DeviceKind.LIGHT,
    "fan": DeviceKind.FAN,
    "alarm": DeviceKind.ALARM,
    "junction box": DeviceKind.JUNCTION,
    "appliance": DeviceKind.APPLIANCE,
}
_WHOLE = (DeviceKind.FAN, DeviceKind.ALARM)
"""Kinds whose further word is the whole phrase: "smoke alarm", "bath fan"."""
_AMPERES = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100)
_WIRES = (14, 12, 10, 8, 6, 4, 3, 2, 1)
_MOST_VA = 50_000


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceWord:
    """What a device is; `known` is False for an appliance that only its load tells of."""

    kind: DeviceKind
    what: str
    known: bool = True


def read_device(text: str) -> DeviceWord:
    """Read "receptacle", "counter receptacle", "smoke alarm", "bath fan", "range"."""
    phrase = " ".join(text.split())
    if not phrase or len(phrase) > 60:
        raise Misread(
            "it does not say what the device is.", f"{_offered()}.", "Write it like is: receptacle."
        )
    for word, kind in _KINDS.items():
        if phrase.lower() == word:
            return DeviceWord(kind=kind, what="", known=kind is not DeviceKind.APPLIANCE)
        if phrase.lower().endswith(f" {word}"):
            before = phrase[: -len(word) - 1]
            whole = kind in _WHOLE
            return DeviceWord(
                kind=kind, what=phrase if whole else before, known=kind is not DeviceKind.APPLIANCE
            )
    named = phrase.lower() if phrase.lower() in appliances() else phrase
    return DeviceWord(kind=DeviceKind.APPLIANCE, what=named, known=named in appliances())


def unknown_device(text: str) -> tuple[str, str, str]:
    """Return found, expected and do for an appliance that is not known and has no load."""
    like = nearest(text, (*_KINDS, *appliances()))
    return (
        f"'{text[:60]}' is no device known here.",
        f"{_offered()}; or {', '.join(appliances()[:6])} ...; or any appliance with its load.",
        f"Did you mean '{like}'?" if like else "Write its load too, like load: 1200 VA.",
    )


def _offered() -> str:
    return "receptacle, switch, light, fan, alarm or junction box, with a word before it where it helps"


def write_device(kind: DeviceKind, what: str) -> str:
    """Return the phrase that reads back as this kind and this further word."""
    if kind is DeviceKind.APPLIANCE:
        return what or kind.value
    if kind in _WHOLE and what.endswith(kind.value):
        return what
    return f"{what} {kind.value}".strip()


@cache
def appliances() -> tuple[str, ...]:
    """Return the appliances that need no load of their own."""
    return tuple(row["key"] for row in load_table("setday.files.house", "appliances").rows)


def read_load(text: str) -> int:
    """Read "1500 VA", "1500 W" or "12 kW" as volt-amperes."""
    match = re.fullmatch(r"([0-9,]{1,7}(?:\.[0-9]{1,3})?) ?(va|w|watts?|kw|kva)", text.strip(), re.IGNORECASE)
    if not match:
        raise Misread(
            f"'{text[:30]}' is not a load.",
            "volt-amperes or watts, like 1500 VA or 12 kW.",
            "Write the unit.",
        )
    times = 1000 if match[2].lower().startswith("k") else 1
    load = round(float(match[1].replace(",", "")) * times)
    if not 0 < load <= _MOST_VA:
        raise Misread(
            f"{text} is no load of a house's appliance.",
            f"more than 0, at most {_MOST_VA:,} VA.",
            "Check it.",
        )
    return load


def _number(text: str, unit: str, allowed: tuple[int, ...], what: str) -> int:
    match = re.fullmatch(rf"([0-9]{{1,3}}) ?(?:{unit})?", text.strip(), re.IGNORECASE)
    if not match or int(match[1]) not in allowed:
        listed = ", ".join(str(each) for each in allowed)
        raise Misread(f"'{text[:30]}' is no {what}.", f"one of: {listed}.", "Check the number.")
    return int(match[1])


def read_volts(text: str) -> int:
    """Read "120", "240" or "240 V"."""
    return _number(text, "v|volts?", (120, 240), "voltage of a house's circuit")


def read_amperes(text: str) -> int:
    """Read the size of a breaker: "15 A", "20"."""
    return _number(text, "a|amps?|amperes?", _AMPERES, "size of a breaker")


def read_wire(text: str) -> int:
    """Read the size of copper conductors: "12", "12 AWG"."""
    return _number(text.lower().replace("#", ""), "awg|gauge", _WIRES, "size of wire")
