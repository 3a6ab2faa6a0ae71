"""A conductor as drawn: its color, its dashes, and its letter, so that it reads in black and white too."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from setday.drawing.ink import Svg, element, group, number
from setday.drawing.lettering import SMALL, letters
from setday.switching import BARE

__all__ = ["KEY", "LIVE", "StrandStyle", "letter_of", "mark", "strand"]

Line = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandStyle:
    """How a color is drawn: stroke, width, dashes, and an inner line for white."""

    letter: str
    stroke: str
    width: float
    dash: str | None = None
    inner: str = ""
    inner_dash: str | None = None


_STYLES = {
    "black": StrandStyle(letter="B", stroke="#111111", width=2.4),
    "white": StrandStyle(letter="W", stroke="#111111", width=4.6, inner="#ffffff"),
    "white re-marked": StrandStyle(
        letter="W*", stroke="#111111", width=4.6, inner="#ffffff", inner_dash="9 4"
    ),
    "red": StrandStyle(letter="R", stroke="#b3261e", width=2.4, dash="10 3"),
    "blue": StrandStyle(letter="U", stroke="#1f4fa3", width=2.4, dash="5 3 1.5 3"),
    BARE: StrandStyle(letter="G", stroke="#6b5317", width=1.6, dash="2 2.4"),
}

LIVE = "#f2c230"
"""The band under what is live; a light gray without color."""

KEY = (
    ("black", "B black"),
    ("white", "W white"),
    ("white re-marked", "W* white, re-marked"),
    ("red", "R red"),
    ("blue", "U blue"),
    (BARE, "G bare ground"),
)
"""Colors and their words, for the key of a drawing."""


def letter_of(color: str) -> str:
    """Return the letter a conductor is marked with."""
    return _STYLES[color].letter


def strand(
    points: Line, *, color: str, clear: bool = True, live: bool = False, hook: Mapping[str, str] | None = None
) -> Svg:
    """Draw a conductor along points.

    Parameters
    ----------
    points : sequence of (x, y)
    color : str
    clear : bool
        Leave blank paper beside it where it crosses others.
    live : bool
        Lay a band under it that prints as a tint.
    hook : mapping of attribute to value, or None
        By which a page finds it again, to show on it what is live and where current flows.
    """
    style = _STYLES[color]
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
    parts = [_stroke(d, "#ffffff", style.width + (8.2 if live else 3.2))] if clear else []
    if live and clear:
        parts.append(_stroke(d, LIVE, style.width + 5.4, now=True))
    parts.append(_stroke(d, style.stroke, style.width, style.dash))
    if style.inner:
        parts.append(_stroke(d, style.inner, style.width - 2.4, style.inner_dash))
    return group(*parts, **(hook or {}))


def _stroke(d: str, color: str, width: float, dash: str | None = None, *, now: bool = False) -> Svg:
    return element(
        "path",
        d=d,
        stroke=color,
        stroke_width=width,
        stroke_dasharray=dash,
        stroke_linejoin="round",
        fill="none",
        class_="sd-now" if now else None,
    )


def mark(color: str, *, x: float, y: float, size: float = SMALL) -> Svg:
    """Letter a conductor's mark on it."""
    return letters(letter_of(color), x=x, y=y, size=size, bold=True, halo=True)
