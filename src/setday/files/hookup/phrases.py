"""The short phrases of a hookup file, read into values; each raises `Misread` with what to write instead."""

import re
from collections.abc import Iterable

from setday.files.house.phrases import typed_length
from setday.files.written.fields import Misread
from setday.switching import BARE, DeviceKind, Hookup, Point, Want, shape_of

__all__ = [
    "Misread",
    "read_between",
    "read_device",
    "read_feet",
    "read_number",
    "read_place",
    "read_point",
    "read_want",
]

_KINDS = {
    "single-pole": DeviceKind.SINGLE_POLE,
    "single pole": DeviceKind.SINGLE_POLE,
    "one-way": DeviceKind.SINGLE_POLE,
    "three-way": DeviceKind.THREE_WAY,
    "3-way": DeviceKind.THREE_WAY,
    "four-way": DeviceKind.FOUR_WAY,
    "4-way": DeviceKind.FOUR_WAY,
    "lamp": DeviceKind.LAMP,
    "lampholder": DeviceKind.LAMP,
    "light": DeviceKind.LAMP,
    "receptacle": DeviceKind.RECEPTACLE,
}
_ALSO = {
    DeviceKind.SINGLE_POLE: {"1": "brass 1", "2": "brass 2", "ground": "green"},
    DeviceKind.THREE_WAY: {
        "com": "common",
        "dark": "common",
        "t1": "traveler 1",
        "t2": "traveler 2",
        "ground": "green",
    },
    DeviceKind.FOUR_WAY: {"ground": "green"},
    DeviceKind.LAMP: {"hot": "brass", "neutral": "silver", "shell": "silver", "ground": "green"},
    DeviceKind.RECEPTACLE: {"brass": "upper brass", "silver": "upper silver", "ground": "green"},
}
_COLORS = {"ground": BARE, "green": BARE, "copper": BARE}


def read_number(text: str, *, unit: str) -> float:
    """Read a number with its unit: "15 A", "60 W", "18 in3"."""
    match = re.fullmatch(rf"([0-9]+(?:\.[0-9]+)?)\s*(?:{unit})?", text.strip(), re.IGNORECASE)
    if not match:
        example = unit.split("|", maxsplit=1)[0]
        raise Misread(
            f"'{text}' is not a number of {example}.",
            f"a number, like 15 {example}.",
            "Write the number and its unit.",
        )
    return float(match[1])


def read_feet(text: str) -> float:
    """Read a length into feet."""
    return typed_length(text.strip()).feet


def read_place(text: str) -> tuple[float, float]:
    """Read a place on the sketch: "2, 1" is the second column, first row."""
    match = re.fullmatch(r"\s*(-?[0-9.]+)\s*,\s*(-?[0-9.]+)\s*", text)
    try:
        return (float(match[1]), float(match[2])) if match else _no_place(text)
    except ValueError:
        return _no_place(text)


def _no_place(text: str) -> tuple[float, float]:
    raise Misread(
        f"'{text}' is not a place on the sketch.",
        "column, row, like 2, 1.",
        "Write two numbers with a comma.",
    )


def read_device(text: str) -> tuple[DeviceKind, float | None, bool]:
    """Read a device: its kind, its watts, and whether its brass tab is in place."""
    parts = [part.strip() for part in text.lower().split(",")]
    tab = True
    if "tab broken" in parts[1:]:
        parts.remove("tab broken")
        tab = False
    words, watts = " ".join(parts), None
    if match := re.search(r"\b([0-9]+(?:\.[0-9]+)?) ?w(?:att)?s?\b", words):
        watts, words = float(match[1]), (words[: match.start()] + words[match.end() :]).strip()
    kind = _KINDS.get(re.sub(r" switch$", "", words.strip()))
    if kind is None:
        raise Misread(
            f"'{text}' is no device known here.",
            "single-pole switch, three-way switch, four-way switch, lamp, or receptacle.",
            "Write one of these; a wattage may follow, like lamp 60 W, and for a receptacle: tab broken.",
        )
    if not tab and kind is not DeviceKind.RECEPTACLE:
        raise Misread(
            f"'{text}': only a receptacle has a tab.", "receptacle, tab broken.", "Take the tab out."
        )
    return kind, watts, tab


def read_between(text: str, boxes: Iterable[str]) -> tuple[str, str, float]:
    """Read "near to light, 12 ft" into two boxes and a length; names that are not there stay as written."""
    way, comma, length = text.rpartition(",")
    splits = [(way[: at.start()].strip(), way[at.end() :].strip()) for at in re.finditer(r"\s+to\s+", way)]
    if not comma or not splits:
        raise Misread(
            f"'{text}' does not say from where to where and how long.",
            "BOX to BOX, LENGTH, like near to light, 12 ft.",
            "Write both boxes with 'to' between them, a comma, and the length.",
        )
    known = set(boxes)
    splits.sort(key=lambda split: -((split[0] in known) + (split[1] in known)))
    return (*splits[0], read_feet(length))


def read_point(text: str, box: str, hookup: Hookup) -> Point:
    """Read "S1 traveler 1" or "N1 white" into a point of a box; what is not there stays as written."""
    words = " ".join(text.split())
    names = [*(cable.name for cable in hookup.all_cables), *(device.name for device in hookup.devices), "box"]
    for name in sorted(names, key=len, reverse=True):
        if words.lower().startswith(f"{name.lower()} "):
            return Point(box=box, holder=name, part=_part(words[len(name) + 1 :].lower(), name, hookup))
    holder, _, part = words.partition(" ")
    if not part:
        raise Misread(
            f"'{words}' names no conductor and no terminal.",
            "a cable and a color, or a device and a terminal: feed black, S1 common.",
            "Write which conductor or terminal of it is meant.",
        )
    return Point(box=box, holder=holder, part=part.lower())


def _part(part: str, holder: str, hookup: Hookup) -> str:
    device = next((each for each in hookup.devices if each.name == holder), None)
    if device is None:
        return part if holder == "box" else _COLORS.get(part, part)
    if part in shape_of(device.kind).terminals:
        return part
    return _ALSO[device.kind].get(part, part)


def read_want(text: str, hookup: Hookup) -> tuple[Want, ...]:
    """Read "L1 from S1 and S2" or "R1 upper always"; a receptacle without a half stands for both."""
    words = " ".join(text.split())
    match = re.fullmatch(r"(.+?) (?:always|from (.+))", words)
    if not match:
        raise Misread(
            f"'{words}' is no wish.",
            "L1 from S1 and S2, or R1 upper always.",
            "Write the lamp, then 'from' and its switches, or 'always'.",
        )
    switches = tuple(part for part in re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", match[2] or "") if part)
    named = [match[1]]
    if match[1] not in hookup.loads:
        named = [load for load in hookup.loads if load.startswith(f"{match[1]} ")] or named
    return tuple(Want(load=load, switches=switches) for load in named)
