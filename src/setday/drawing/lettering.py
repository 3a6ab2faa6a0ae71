"""Lettering that does not collide: widths, boxes, and the places still free on a drawing.

Letters are of even width, as on a drafted sheet; so the width of a text is known without asking a font.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from unicodedata import east_asian_width

from setday.drawing.ink import Svg, element, text_content

__all__ = [
    "FONT",
    "NORMAL",
    "SMALL",
    "TITLE",
    "Box",
    "Taken",
    "letters",
    "spread",
    "text_box",
    "text_width",
]

FONT = "'DejaVu Sans Mono', Menlo, Consolas, monospace"
SMALL = 9.0
NORMAL = 10.5
TITLE = 14.0
_EM = 0.602
"""Advance of an even-width letter over its size; 0.602 for the typeface first named in `FONT`."""


@dataclass(frozen=True, slots=True)
class Box:
    """A box on the drawing, y downward."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """Say whether the boxes share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: "Box") -> bool:
        """Say whether `other` lies inside this box."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )

    def grown(self, by: float) -> "Box":
        """Return the box with a margin around it."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


@dataclass(slots=True)
class Taken:
    """The boxes of a drawing where something is lettered already."""

    boxes: list[Box] = field(default_factory=list)

    def free(self, box: Box) -> bool:
        """Say whether nothing stands in `box`."""
        return not any(box.meets(other) for other in self.boxes)

    def take(self, box: Box) -> None:
        """Note that something stands in `box`."""
        self.boxes.append(box)

    def first_free(self, candidates: Sequence[Box]) -> Box | None:
        """Take and return the first candidate where nothing stands, or None."""
        for box in candidates:
            if self.free(box):
                self.take(box)
                return box
        return None


def text_width(text: str, *, size: float = NORMAL) -> float:
    """Return how wide `text` is lettered, in drawing units."""
    return sum(2 if east_asian_width(letter) in "WF" else 1 for letter in text) * _EM * size


def text_box(text: str, *, x: float, y: float, size: float = NORMAL, upright: bool = False) -> Box:
    """Return the box of a text centred on (x, y); `upright` texts read from the right-hand side."""
    half, tall = text_width(text, size=size) / 2, size * 0.55
    if upright:
        return Box(x - tall, y - half, x + tall, y + half)
    return Box(x - half, y - tall, x + half, y + tall)


def letters(
    text: str,
    *,
    x: float,
    y: float,
    size: float = NORMAL,
    anchor: str = "middle",
    upright: bool = False,
    bold: bool = False,
    halo: bool = False,
) -> Svg:
    """Letter a text centred in height on (x, y).

    Parameters
    ----------
    text : str
        Any text; it is escaped here.
    x, y : float
        The middle (or start or end, by `anchor`) of the text at half the height of its capitals.
    size : float
        Size of the letters in drawing units.
    anchor : str
        "start", "middle" or "end".
    upright : bool
        Turn it to read from the right-hand side of the sheet.
    bold, halo : bool
        Heavier letters; blank paper around them where they cross lines.
    """
    shift = size * 0.36
    turn = f"rotate(-90 {x:.2f} {y:.2f})" if upright else None
    blank: dict[str, str | float | None] = (
        {
            "stroke": "#fff",
            "stroke_width": size * 0.3,
            "stroke_linejoin": "round",
            "paint_order": "stroke",
            "class": "sd-halo",
        }
        if halo
        else {}
    )
    return element(
        "text",
        text_content(text),
        x=x,
        y=y + shift,
        font_size=size,
        text_anchor=anchor,
        font_weight="bold" if bold else None,
        fill="currentColor",
        transform=turn,
        **blank,
    )


def spread(places: Sequence[float], *, gap: float, low: float, high: float) -> list[float]:
    """Move places in a row apart so that neighbours stand at least `gap` from each other.

    Parameters
    ----------
    places : sequence of float
        Wanted places, in order.
    gap : float
        Least distance of neighbours.
    low, high : float
        The stretch they may use; where it is too short they keep their distance and pass `high`.

    Examples
    --------
    >>> spread([10, 11, 30], gap=4, low=0, high=40)
    [8.5, 12.5, 30.0]
    """
    clusters: list[tuple[float, int]] = []
    for place in places:
        total, count = float(place), 1
        while (
            clusters
            and clusters[-1][0] / clusters[-1][1] + clusters[-1][1] * gap / 2
            > total / count - count * gap / 2
        ):
            other, more = clusters.pop()
            total, count = total + other, count + more
        clusters.append((total, count))
    return _inside(
        [total / count + (i - (count - 1) / 2) * gap for total, count in clusters for i in range(count)],
        gap,
        low,
        high,
    )


def _inside(places: list[float], gap: float, low: float, high: float) -> list[float]:
    for i in range(len(places) - 1, -1, -1):
        places[i] = min(places[i], high if i == len(places) - 1 else places[i + 1] - gap)
    for i, place in enumerate(places):
        places[i] = max(place, low if i == 0 else places[i - 1] + gap)
    return places
