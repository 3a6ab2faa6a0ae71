"""The bench: every end and terminal of a box as a button, and the joins as lines between them."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.web.switching.said import kind_words

if TYPE_CHECKING:
    from setday.switching import Hookup, Point

__all__ = ["BoxCard", "JoinDrawn", "Pin", "cards", "key_of_point", "point_of_key"]

_ROW = 10
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """One row of a side: a cable's or device's head, or an end or terminal that can be tapped."""

    head: str = ""
    key: str = ""
    words: str = ""
    mark: str = ""
    look: str = ""
    join: str = ""
    number: int = 0
    remark: str = ""
    """On the head of a cable with a white: the cable, so that its white can be marked."""
    remarked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinDrawn:
    """A join: its letter, its points in words, a point of it to take it apart by, its lines."""

    letter: str
    words: str
    key: str
    lane: str
    stubs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxCard:
    """One box on the bench."""

    name: str
    ends: tuple[Pin, ...]
    terminals: tuple[Pin, ...]
    joins: tuple[JoinDrawn, ...]
    high: int
    """Height of the lines, ten to a row."""


def key_of_point(point: "Point") -> str:
    """Return the name of a point as the page sends it."""
    from setday.drawing import point_key

    return point_key(point)


def point_of_key(hookup: "Hookup", key: str) -> "Point | None":
    """Return the point of a name that came from the page; None where the stage has no such."""
    from setday.switching import PANEL

    return next((p for p in hookup.points() if p.box != PANEL and key_of_point(p) == key), None)


def cards(hookup: "Hookup") -> tuple[BoxCard, ...]:
    """Return every box with its ends, its terminals and what is joined in it."""
    numbers = {point: number for number, point in enumerate(hookup.points())}
    return tuple(_card(hookup, box.name, numbers) for box in hookup.boxes)


def _card(hookup: "Hookup", box: str, numbers: "dict[Point, int]") -> BoxCard:
    joins = hookup.joins_in(box)
    letters = {point: _LETTERS[place % 26] for place, join in enumerate(joins) for point in join.points}
    ends = _ends(hookup, box, letters, numbers)
    terminals = _terminals(hookup, box, letters, numbers)
    level = {pin.key: _ROW * row + _ROW // 2 for row, pin in enumerate(ends) if pin.key}
    level |= {pin.key: _ROW * row + _ROW for row, pin in enumerate(terminals) if pin.key}
    left = {pin.key for pin in ends}
    drawn = []
    for place, join in enumerate(joins):
        x = 8 + (84 * (place + 1)) // (len(joins) + 1)
        levels = [level[key_of_point(point)] for point in join.points]
        stubs = tuple(
            (point.part, f"M{0 if key in left else 100} {level[key]}H{x}")
            for point in join.points
            for key in [key_of_point(point)]
        )
        drawn.append(
            JoinDrawn(
                letter=_LETTERS[place % 26],
                words=str(join),
                key=key_of_point(join.points[0]),
                lane=f"M{x} {min(levels)}V{max(levels)}",
                stubs=stubs,
            )
        )
    high = max(_ROW * len(ends), _ROW * len(terminals) + _ROW // 2)
    return BoxCard(name=box, ends=ends, terminals=terminals, joins=tuple(drawn), high=high)


def _ends(
    hookup: "Hookup", box: str, letters: "dict[Point, str]", numbers: "dict[Point, int]"
) -> tuple[Pin, ...]:
    from setday.switching import FEED, Point

    pins: list[Pin] = []
    for cable in hookup.all_cables:
        if box not in (cable.a, cable.b):
            continue
        other = _("panel") if cable.name == FEED else cable.b if cable.a == box else cable.a
        marked = "white" in cable.remarked
        pins.append(
            Pin(
                head=f"{cable.name} {cable.kind} → {other}",
                remark="" if cable.name == FEED else cable.name,
                remarked=marked,
            )
        )
        for color in cable.colors:
            point = Point(box=box, holder=cable.name, part=color)
            shown = f"{color} re-marked" if color in cable.remarked else color
            pins.append(_pin(point, shown, letters, numbers))
    return tuple(pins)


def _pin(point: "Point", shown: str, letters: "dict[Point, str]", numbers: "dict[Point, int]") -> Pin:
    return Pin(
        key=key_of_point(point),
        words=point.part,
        mark=_MARKS.get(shown, ""),
        look=shown.replace(" ", "-"),
        join=letters.get(point, ""),
        number=numbers[point],
        head="",
    )


_MARKS = {"black": "B", "white": "W", "white re-marked": "W*", "red": "R", "blue": "U", "bare": "G"}


def _terminals(
    hookup: "Hookup", box: str, letters: "dict[Point, str]", numbers: "dict[Point, int]"
) -> tuple[Pin, ...]:
    from setday.switching import GREEN, Point

    pins: list[Pin] = []
    for device in hookup.devices:
        if device.box == box:
            tab = "" if device.brass_tab or device.kind.value != "receptacle" else _(", tab broken")
            pins.append(Pin(head=f"{device.name} {kind_words(device)}{tab}"))
            pins += [_pin(point, "", letters, numbers) for point in device.terminals]
    if hookup.box(box).metal:
        pins.append(Pin(head=_("the metal box")))
        pins.append(_pin(Point(box=box, holder="box", part=GREEN), "", letters, numbers))
    return tuple(pins)
