"""SVG elements as text: escaped, rounded, with presentation attributes only.

Ink is ``currentColor`` and blank paper is white with the class ``sd-paper``, so that a drawing prints in
black and white and still follows a page that is shown light on dark.
"""

from collections.abc import Iterable
from typing import NewType
from xml.sax.saxutils import quoteattr

__all__ = [
    "BOLD",
    "DASHED",
    "DOTTED",
    "FINE",
    "HAIR",
    "LINE",
    "Points",
    "Svg",
    "circle",
    "element",
    "group",
    "line",
    "number",
    "path",
    "polygon",
    "rect",
    "text_content",
]

Svg = NewType("Svg", str)
Points = Iterable[tuple[float, float]]

HAIR = 0.5
FINE = 0.8
LINE = 1.3
BOLD = 2.4
DASHED = "6 3"
DOTTED = "1.2 2.6"


def number(value: float) -> str:
    """Write a coordinate, rounded to hundredths so that drawings stay the same on every machine."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def text_content(text: str) -> Svg:
    """Escape `text` for the inside of an element; characters XML cannot hold are shown as a box."""
    plain = "".join(character if _writable(character) else "\N{WHITE SQUARE}" for character in text)
    return Svg(plain.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;"))


def element(name: str, *children: Svg, **attributes: str | float | None) -> Svg:
    """Write an element; attribute names take ``_`` for ``-``, attributes that are None are left out."""
    written = "".join(
        f" {_attribute(key)}={_value(value)}" for key, value in attributes.items() if value is not None
    )
    if not children:
        return Svg(f"<{name}{written}/>")
    return Svg(f"<{name}{written}>{''.join(children)}</{name}>")


def group(*children: Svg, **attributes: str | float | None) -> Svg:
    """Put elements in a group; nothing when there are none."""
    kept = [child for child in children if child]
    return element("g", *kept, **attributes) if kept else Svg("")


def line(*, x1: float, y1: float, x2: float, y2: float, width: float = FINE, dash: str | None = None) -> Svg:
    """Draw a straight line in ink."""
    return element(
        "line", x1=x1, y1=y1, x2=x2, y2=y2, stroke="currentColor", stroke_width=width, stroke_dasharray=dash
    )


def rect(
    *,
    x: float,
    y: float,
    w: float,
    h: float,
    width: float = FINE,
    dash: str | None = None,
    fill: str = "none",
    **more: str | float | None,
) -> Svg:
    """Draw a rectangle; `width` 0 draws no outline; `fill` is "none", "ink", "shade" or "paper"."""
    return element("rect", x=x, y=y, width=w, height=h, **_fill(fill), **_stroke(width, dash), **more)


def polygon(
    points: Points,
    *,
    width: float = FINE,
    dash: str | None = None,
    fill: str = "none",
    **more: str | float | None,
) -> Svg:
    """Draw a closed line through `points`."""
    written = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return element("polygon", points=written, **_fill(fill), **_stroke(width, dash), **more)


def path(
    d: str, *, width: float = FINE, dash: str | None = None, fill: str = "none", **more: str | float | None
) -> Svg:
    """Draw a path given as path data."""
    return element("path", d=d, **_fill(fill), **_stroke(width, dash), **more)


def circle(*, x: float, y: float, r: float, width: float = FINE, fill: str = "none") -> Svg:
    """Draw a circle."""
    return element("circle", cx=x, cy=y, r=r, **_fill(fill), **_stroke(width, None))


def _fill(fill: str) -> dict[str, str | float | None]:
    if fill == "ink":
        return {"fill": "currentColor"}
    if fill == "shade":
        return {"fill": "currentColor", "fill_opacity": 0.22}
    if fill == "paper":
        return {"fill": "#fff", "class": "sd-paper"}
    if fill == "touch":
        return {"fill": "#fff", "fill_opacity": 0, "class": "sd-touch"}
    return {"fill": "none"}


def _stroke(width: float, dash: str | None) -> dict[str, str | float | None]:
    if not width:
        return {}
    return {"stroke": "currentColor", "stroke_width": width, "stroke_dasharray": dash}


def _attribute(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _value(value: str | float) -> str:
    if isinstance(value, str):
        return quoteattr("".join(c if _writable(c) else "\N{WHITE SQUARE}" for c in value))
    return f'"{number(value)}"'


def _writable(character: str) -> bool:
    code = ord(character)
    return code in {0x9, 0xA, 0xD} or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or code >= 0x10000
