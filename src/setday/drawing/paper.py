"""The sheet a drawing is made for: its size, the scale that fits, and the finished SVG."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from setday.drawing.ink import Svg, element, group, line, number, rect, text_content
from setday.drawing.lettering import FONT, SMALL, letters

__all__ = [
    "LANDSCAPE",
    "LETTER",
    "PHONE",
    "Link",
    "Paper",
    "Scale",
    "css",
    "finish",
    "key_of",
    "linked",
    "scale_bar",
    "scale_to_fit",
    "smaller_scale",
]

PER_INCH = 96
"""Drawing units to an inch of paper, the CSS pixel."""

Link = Callable[[str, str], str | None]
"""Gives the address behind a thing of the house: ``link("surface", "bedroom/north")``; None for no link."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What a drawing is made for, in drawing units (96 to the inch).

    Letters keep their size in units, so a narrower paper has larger letters for what it shows.

    Parameters
    ----------
    width, height : float
        The most a drawing may fill.
    to_scale : bool
        True to draw at an architect's scale when printed at full size; False to fill the width.
    """

    width: float
    height: float
    to_scale: bool = True


LETTER = Paper(width=720, height=860)
"""Letter paper upright with half-inch margins, less head and foot of the sheet."""
LANDSCAPE = Paper(width=960, height=620)
"""Letter paper on its side."""
PHONE = Paper(width=380, height=1200, to_scale=False)
"""A phone held upright."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Drawing units per inch of house, and the scale in words (empty when not an architect's scale)."""

    per_inch: float
    words: str = ""


_ARCHITECT = (
    (3.0, '3"'),
    (1.5, '1 1/2"'),
    (1.0, '1"'),
    (0.75, '3/4"'),
    (0.5, '1/2"'),
    (0.375, '3/8"'),
    (0.25, '1/4"'),
    (0.1875, '3/16"'),
    (0.125, '1/8"'),
    (0.09375, '3/32"'),
    (0.0625, '1/16"'),
)
"""Inches of paper to a foot of house on the common architect's scales."""


def scale_to_fit(*, width_in: float, height_in: float, room_x: float, room_y: float, paper: Paper) -> Scale:
    """Return the largest scale at which so many inches of house fit in the room left on the paper.

    Parameters
    ----------
    width_in, height_in : float
        What is drawn [in].
    room_x, room_y : float
        Room left for it [drawing units].
    paper : Paper
        An architect's scale is taken where the paper asks for one and one fits.
    """
    most = min(room_x / max(width_in, 1.0), room_y / max(height_in, 1.0))
    if paper.to_scale:
        for inches, words in _ARCHITECT:
            if inches * PER_INCH / 12 <= most:
                return Scale(per_inch=inches * PER_INCH / 12, words=f"{words} = 1'-0\"")
    return Scale(per_inch=most)


def smaller_scale(scale: Scale) -> Scale | None:
    """Return the next smaller architect's scale, or None below the smallest."""
    for inches, words in _ARCHITECT:
        per_inch = inches * PER_INCH / 12
        if per_inch < scale.per_inch - 1e-9:
            return Scale(per_inch=per_inch, words=f"{words} = 1'-0\"")
    return None


def key_of(*parts: str) -> str:
    """Return a key for ids, from words of any kind."""
    slug = re.sub(r"[^a-z0-9]+", "-", "-".join(parts).lower()).strip("-")
    return slug or "drawing"


def finish(
    *,
    body: tuple[Svg, ...],
    title: str,
    desc: str,
    width: float,
    height: float,
    key: str,
    links: bool = False,
) -> str:
    """Return the whole SVG: title and description first, then the drawing.

    A drawing with links is a ``graphics-document`` so that a screen reader still finds them inside;
    without links it is one image.
    """
    root = element(
        "svg",
        element("title", text_content(title), id=f"{key}-title"),
        element("desc", text_content(desc), id=f"{key}-desc"),
        *(part for part in body if part),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        role="graphics-document" if links else "img",
        aria_labelledby=f"{key}-title",
        aria_describedby=f"{key}-desc",
        class_="sd-drawing",
        font_family=FONT,
        fill="none",
    )
    return str(root)


def linked(*children: Svg, kind: str, name: str, label: str, link: Link | None) -> Svg:
    """Mark elements as a thing of the house, and make them a link where `link` gives an address."""
    if not any(children):
        return Svg("")
    marked = group(*children, data_kind=kind, data_id=name)
    address = link(kind, name) if link else None
    if address is None:
        return marked
    return element("a", marked, href=address, aria_label=label, class_="sd-link")


def scale_bar(*, x: float, y: float, scale: Scale) -> Svg:
    """Draw a bar of known length, black and blank by turns, with the scale in words beside it."""
    per_foot = scale.per_inch * 12
    step = next((step for step in (1, 2, 4, 5, 10, 20, 50) if step * per_foot >= 36), 100)
    feet = (0, step, 2 * step)
    parts = []
    for i, (start, end) in enumerate(pairwise(feet)):
        fill = "ink" if i % 2 == 0 else "paper"
        parts.append(rect(x=x + start * per_foot, y=y, w=(end - start) * per_foot, h=5, fill=fill))
    marks = [letters(f"{foot}'", x=x + foot * per_foot, y=y - 7, size=SMALL) for foot in feet]
    words = (
        letters(f"Scale {scale.words}", x=x, y=y + 14, size=SMALL, anchor="start") if scale.words else Svg("")
    )
    ticks = [line(x1=x + foot * per_foot, y1=y - 2, x2=x + foot * per_foot, y2=y + 5) for foot in feet]
    return group(*parts, *ticks, *marks, words)


def css() -> str:
    """Return the stylesheet a page may add: focus and pointer marks, and ink that follows a dark page."""
    return _CSS


_CSS = """\
.sd-drawing { display: block; width: 100%; height: auto; }
.sd-drawing .sd-paper { fill: var(--sd-paper, #fff); }
.sd-drawing .sd-halo { stroke: var(--sd-paper, #fff); }
.sd-drawing a.sd-link { cursor: pointer; }
.sd-drawing a.sd-link:hover .sd-touch, .sd-drawing a.sd-link:focus-visible .sd-touch {
  fill: currentColor; fill-opacity: 0.18;
}
.sd-drawing a.sd-link:focus-visible { outline: none; }
.sd-drawing a.sd-link:focus-visible .sd-touch { stroke: currentColor; stroke-width: 2.5; }
@media print { .sd-drawing { --sd-paper: #fff; color: #000; } }
"""
